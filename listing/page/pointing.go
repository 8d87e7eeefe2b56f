package page

// A Pointing is what the spec says of places in the photos, for the page on which
// the maker points at others. Names are as the spec has them, in quotes where YAML
// asks for them; places are shares of the upright photo.
type Pointing struct {
	Names   map[string]string `json:"-"` // by source: what the spec may call a photo
	Plan    string            `json:"-"` // the source of the photo that the top is measured from
	Boxes   []GivenBox        `json:"boxes"`
	Cards   []GivenBox        `json:"cards"`
	Marks   [][2]float64      `json:"marks"`
	ResinAt [][2]float64      `json:"resin"`
	Order   []string          `json:"order"` // names that the spec has in its order and that are not published
	Photos  Block             `json:"photos"`
	Outline Block             `json:"outline"`
}

// A GivenBox is a box that the spec gives for a photo.
type GivenBox struct {
	Name   string     `json:"name"`
	Source string     `json:"source"` // of the photo that is meant; "" when there is none
	Box    [4]float64 `json:"box"`
}

// A Block says how a group of keys stands in the spec.
type Block struct {
	Line   int      `json:"line"`   // of its name, from 1; 0: it is not there
	Indent int      `json:"indent"` // spaces before the keys in it
	Braces bool     `json:"braces"` // it is written on one line, in braces
	Has    []string `json:"has"`    // which of the keys that are pointed at stand there
}
