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
	// Message is for makers: lower case, what is wrong and what to do.
	Message string
	// Values are the numbers behind it, such as width, height, limit.
	Values map[string]float64
	// Err is the decoder's own error, if there was one.
	Err error
}

// Error returns the message.
func (r *Refusal) Error() string { return r.Message }

// Unwrap returns the decoder's own error.
func (r *Refusal) Unwrap() error { return r.Err }

func unsupported(what, remedy string) *Refusal {
	return &Refusal{Code: "decode.unsupported", Message: what + "; " + remedy}
}

func damaged(format string, err error) *Refusal {
	return &Refusal{
		Code:    "decode.damaged",
		Message: fmt.Sprintf("this %s file is damaged; copy it from the camera again, or export it anew", label(format)),
		Err:     err,
	}
}

func truncated(format string, err error) *Refusal {
	return &Refusal{
		Code:    "decode.truncated",
		Message: fmt.Sprintf("this %s file ends before the picture does; copy it from the camera again", label(format)),
		Err:     err,
	}
}

// label writes a format as a maker knows it.
func label(format string) string {
	switch format {
	case "webp":
		return "WebP"
	case "raw":
		return "camera raw"
	}
	return strings.ToUpper(format)
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
			Message: "its contents make no sense to the decoder; copy it from the camera again, or export it anew",
			Err:     fmt.Errorf("decoder panic: %v", p),
		}
	}
}

// refuseUnknown names what data is instead of a picture, as far as its first
// bytes tell.
func refuseUnknown(data []byte, format string) *Refusal {
	const wants = "give a JPEG, PNG, TIFF, WebP, HEIC or AVIF"
	if len(data) == 0 {
		return &Refusal{Code: "decode.empty", Message: "the file is empty; copy it from the camera again"}
	}
	what := "its contents are no picture that can be read here"
	switch format {
	case "bigtiff":
		return unsupported("it is a TIFF of the 64-bit kind", "export it as an ordinary TIFF or a JPEG")
	case "ico":
		what = "it is an icon file"
	case "pdf":
		what = "it is a PDF"
	case "svg":
		what = "it is a drawing (SVG)"
	case "psd":
		what = "it is a layered picture file"
	case "jxl":
		what = "it is a JPEG XL"
	case "jp2":
		what = "it is a JPEG 2000"
	case "video":
		what = "it is a video"
	case "text":
		what = "it is a text, not a picture"
	}
	return &Refusal{Code: "decode.unknown-type", Message: what + "; " + wants}
}
