// Package figure holds the one shape that every calculator returns: a value
// with its unit, its range, and the rule and source that it came from.
package figure

// A Figure is one computed or measured quantity.
type Figure struct {
	Value  float64  `json:"value"`
	Unit   string   `json:"unit"` // "mm", "m2", "l", "kg", "kg/m3", "%", "C", "days", "1" …
	Low    float64  `json:"low"`  // Low and High hold 90 % of the doubt; equal to Value for an exact figure
	High   float64  `json:"high"`
	Rule   string   `json:"rule"`             // what was done, in words: "length x width", "Wood Handbook eq. 13-2"
	Source string   `json:"source"`           // where the numbers came from: "piece.yaml", "Wood Handbook, FPL-GTR-282, table 13-5"
	Inputs []string `json:"inputs,omitempty"` // names of the figures or spec keys that went in
}

// A Density is that of one material as it stands in a piece.
type Density struct {
	ID, Name     string    // of the material: in its table, and for people
	KgM3         Uncertain // kg/m³
	Rule, Source string    // as in Figure
}
