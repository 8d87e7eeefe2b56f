// Package note holds what the photo packages have to say: a code and numbers.
// Words are made of them elsewhere.
package note

// A Note is one observation on a photo.
type Note struct {
	Code   string             // such as "exposure.retake", "decode.truncated", "frame.no-subject"
	Values map[string]float64 // such as {"ev": 3.4, "limit": 3}
}
