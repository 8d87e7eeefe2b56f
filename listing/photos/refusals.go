package photos

import (
	"errors"
	"fmt"
	"strings"

	"slabfolio/imaging/decode"
)

// unsupportedKinds are the kinds of picture that are known and not read: what the
// maker has, and what to do.
var unsupportedKinds = map[string][2]string{
	"bigtiff":           {"it is a TIFF of the 64-bit kind", "export it as an ordinary TIFF or a JPEG"},
	"bmp-odd":           {"it is a BMP of an unusual kind", "save it as a PNG"},
	"heif-sequence":     {"it is a moving picture", "give one still picture"},
	"jpeg-12-bit":       {"it is a 12-bit JPEG", "open it in the program that made it and save it as an ordinary JPEG"},
	"jpeg-arithmetic":   {"it is an arithmetic-coded JPEG", "open it in the program that made it and save it as an ordinary JPEG"},
	"jpeg-channels":     {"it is a JPEG with an unusual number of colours", "open it in the program that made it and save it as an ordinary JPEG"},
	"jpeg-hierarchical": {"it is a hierarchical JPEG", "open it in the program that made it and save it as an ordinary JPEG"},
	"jpeg-lossless":     {"it is a lossless JPEG", "open it in the program that made it and save it as an ordinary JPEG"},
	"tiff-inks":         {"it is a CMYK or Lab TIFF of an unusual kind", "save it as a PNG, a JPEG, or an ordinary TIFF"},
	"tiff-inks-deep":    {"it is a CMYK or Lab TIFF with more than 8 bits a channel", "save it as a PNG, a JPEG, or an ordinary TIFF"},
	"tiff-inks-packed":  {"it is a CMYK or Lab TIFF packed in an unusual way", "save it as a PNG, a JPEG, or an ordinary TIFF"},
	"tiff-jpeg":         {"it is a TIFF with a JPEG of an unusual kind inside", "save it as a PNG, a JPEG, or an ordinary TIFF"},
	"tiff-jpeg-old":     {"it is a TIFF with a JPEG of the old kind inside", "save it as a plain JPEG or PNG"},
	"tiff-luma":         {"it is a TIFF coded as luma and chroma", "save it as a PNG, a JPEG, or an ordinary TIFF"},
	"webp-animated":     {"it is an animated WebP", "give one still picture"},
	"tiff-odd":          {"it is a TIFF of an unusual kind", "save it as a PNG, a JPEG, or an ordinary TIFF"},
	"tiff-packed":       {"it is a TIFF packed in a way that is not read here", "save it as a PNG, a JPEG, or an ordinary TIFF"},
}

// noPictures are files that are no picture that can be read here.
var noPictures = map[string]string{
	"ico": "it is an icon file", "pdf": "it is a PDF", "svg": "it is a drawing (SVG)", "psd": "it is a layered picture file",
	"jxl": "it is a JPEG XL", "jp2": "it is a JPEG 2000", "video": "it is a video", "text": "it is a text, not a picture",
}

// inWords says to the maker why a photo was refused: what is wrong and what to do.
// Another error is left as it is.
func inWords(err error) error {
	var r *decode.Refusal
	if !errors.As(err, &r) {
		return err
	}
	return errors.New(refusalWords(r))
}

func refusalWords(r *decode.Refusal) string {
	v := r.Values
	switch r.Code {
	case "decode.unknown-type":
		what, ok := noPictures[r.Variant]
		if !ok {
			what = "its contents are no picture that can be read here"
		}
		return what + "; give a JPEG, PNG, TIFF, WebP, HEIC or AVIF"
	case "decode.unsupported":
		return unsupportedWords(r)
	case "decode.empty":
		if r.Variant == "pixels" {
			return "it holds no pixels; take or export the photo again"
		}
		return "the file is empty; copy it from the camera again"
	case "decode.too-large":
		return fmt.Sprintf("it says it has %.0f × %.0f pixels, and more than %g million are not read; export it smaller, or raise the limit if it is genuine", v["width"], v["height"], v["limit"])
	case "decode.truncated":
		return fmt.Sprintf("this %s file ends before the picture does; copy it from the camera again", formatName(r.Format))
	case "decode.size-mismatch":
		return "its pixels do not have the size that its header tells; it is damaged, copy it from the camera again"
	case "decode.no-preview":
		return "it is a camera raw file without a preview that can be read; develop it and give the JPEG or TIFF"
	}
	return damagedWords(r)
}

// unsupportedWords names the kind of picture that is not read.
func unsupportedWords(r *decode.Refusal) string {
	k, ok := unsupportedKinds[r.Variant]
	if !ok {
		k = [2]string{"it is a picture of an unusual kind", "save it as a PNG or an ordinary JPEG"}
	}
	switch {
	case r.Variant == "tiff-odd" && r.Err != nil:
		k[0] += " (" + r.Err.Error() + ")"
	case r.Variant == "tiff-packed":
		k[0] = fmt.Sprintf("it is a TIFF packed in a way (%.0f) that is not read here", r.Values["compression"])
	}
	return k[0] + "; " + k[1]
}

// damagedWords say that a file contradicts its own format.
func damagedWords(r *decode.Refusal) string {
	switch r.Variant {
	case "header":
		return "its header is damaged; copy it from the camera again"
	case "panic":
		return "its contents make no sense to the decoder; copy it from the camera again, or export it anew"
	}
	return fmt.Sprintf("this %s file is damaged; copy it from the camera again, or export it anew", formatName(r.Format))
}

// formatName writes a format as a maker knows it.
func formatName(format string) string {
	switch format {
	case "webp":
		return "WebP"
	case "raw":
		return "camera raw"
	}
	return strings.ToUpper(format)
}
