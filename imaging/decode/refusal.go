package decode

import (
	"errors"
	"fmt"
	"io"
	"strings"
)

// A Refusal says why a photo cannot be read. Its codes are stable:
//
//	decode.unknown-type       not a picture, or none of the types read here
//	decode.unsupported        a known type in a variant that is not read
//	decode.empty              no bytes, or a size of zero
//	decode.too-large          more pixels than the limit
//	decode.truncated          the file ends before the picture does
//	decode.damaged            the file contradicts its own format
//	decode.size-mismatch      the pixels differ in size from the header
//	decode.no-preview         a camera raw file without a readable preview
type Refusal struct {
	// Code is one of the above.
	Code string
	// Variant says more closely what it is about, in stable words such as
	// "jpeg-12-bit" or "pdf"; empty where the code says all.
	Variant string
	// Format is the file's, where it is known.
	Format string
	// Values are the numbers behind it, such as width, height, limit.
	Values map[string]float64
	// Err is the decoder's own error, if there was one.
	Err error
}

// Error names the code and what is known besides, for engineers; the maker's words
// are made of them elsewhere.
func (r *Refusal) Error() string {
	return strings.Join(strings.Fields(r.Code+" "+r.Format+" "+r.Variant), " ")
}

// Unwrap returns the decoder's own error.
func (r *Refusal) Unwrap() error { return r.Err }

func unsupported(variant string) *Refusal {
	return &Refusal{Code: "decode.unsupported", Variant: variant}
}

func damaged(format string, err error) *Refusal {
	return &Refusal{Code: "decode.damaged", Format: format, Err: err}
}

func truncated(format string, err error) *Refusal {
	return &Refusal{Code: "decode.truncated", Format: format, Err: err}
}

// asRefusal turns a decoder's error into a Refusal.
func asRefusal(format string, err error) *Refusal {
	var r *Refusal
	if errors.As(err, &r) {
		return r
	}
	if errors.Is(err, io.ErrUnexpectedEOF) || errors.Is(err, io.EOF) {
		return truncated(format, err)
	}
	return damaged(format, err)
}

// guard turns a panic of a decoder into a Refusal.
func guard(src **Source, err *error) {
	if p := recover(); p != nil {
		*src = nil
		*err = &Refusal{
			Code:    "decode.damaged",
			Variant: "panic",
			Err:     fmt.Errorf("decoder panic: %v", p),
		}
	}
}

// refuseUnknown names what data is instead of a picture, as far as its first
// bytes tell.
func refuseUnknown(data []byte, format string) *Refusal {
	switch {
	case len(data) == 0:
		return &Refusal{Code: "decode.empty"}
	case format == "bigtiff":
		return unsupported("bigtiff")
	}
	return &Refusal{Code: "decode.unknown-type", Variant: format}
}
