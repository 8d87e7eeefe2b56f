package decode_test

import (
	"errors"
	"path/filepath"
	"runtime"
	"sort"
	"testing"

	"slabfolio/imaging/decode"
	"slabfolio/imaging/linear"
)

// outcome is the verdict on a file: the code of the refusal, or "ok" followed by
// the codes of the notes.
func outcome(t *testing.T, read func() (*decode.Source, error)) string {
	t.Helper()
	src, err := read()
	if err != nil {
		var r *decode.Refusal
		if !errors.As(err, &r) || r.Code == "" {
			t.Fatalf("error %v is no refusal", err)
		}
		return r.Code
	}
	rows, notes := linear.NewRows(&src.Encoded)
	w, h := rows.Size()
	row := make([]uint16, 3*w)
	for y := range h {
		rows.Row(row, y)
	}
	out := "ok"
	var codes []string
	for _, n := range append(src.Notes, notes...) {
		codes = append(codes, n.Code)
	}
	sort.Strings(codes)
	for _, c := range codes {
		out += " " + c
	}
	return out
}

// verdicts names what becomes of each file of the reference set of broken
// photos. "ok" stands only where the pixels are whole.
var verdicts = map[string]string{
	"avif_poc_b_506387278.avif":                       "ok", // a decoder once crashed on it; its picture is whole
	"exifr_broken1.jpg":                               "ok", // only its GPS and IPTC blocks are bad, which are not read
	"exifr_invalid-iCCP-missing-adler32-checksum.png": "ok", // the profile unpacks to its stated size
	"gd_bad_lzw_code.gif":                             "decode.damaged",
	"gd_badrle.bmp":                                   "decode.unsupported",
	"gd_just_header.png":                              "decode.truncated",
	"gd_reallybig.bmp":                                "decode.too-large",
	"gd_tiff_invalid_read_1.tiff":                     "decode.truncated",
	"gd_truncated.jpeg":                               "decode.truncated",
	"goexif_2216-11-15-11-46-51-sep-2216-11-15-11-46-51a.jpg": "decode.truncated",
	"goexif_huge_tag_exif.jpg":                                "decode.truncated",
	"goexif_infinite_loop_exif.jpg":                           "ok decode.exif-partly",
	"goexif_max_uint32_exif.jpg":                              "decode.truncated",
	"gostd_invalid-crc32.png":                                 "decode.damaged",
	"gostd_invalid-noend.png":                                 "ok decode.no-end-marker",
	"gostd_invalid-palette.png":                               "decode.damaged",
	"gostd_invalid-trunc.png":                                 "decode.truncated",
	"gostd_invalid-zlib.png":                                  "decode.damaged",
	"gostd_video-001.progressive.truncated.jpeg":              "decode.truncated",
	"mei_754664a12e36abff7950e796c906ae39.jpg":                "decode.truncated",
	"mei_NegativeArraySizeException.DuckyReader.extract.mp3":  "decode.unknown-type",
	"mei_Olympus_C4040Z.jpg":                                  "ok",
	"mei_Ricoh_DC-3Z_(normal_res).jpg":                        "ok",
	"mei_beach.jpg":                                           "decode.empty",
	"mei_c-817f96555e2d683e7b12f778c4e38022.png":              "decode.too-large",
	"pcv_VIS_SV_0_z1_h1_g0_e82_999999.jpeg":                   "decode.unknown-type",
	"ph_corrupted.heic":                                       "decode.truncated",
	"ph_empty.heic":                                           "decode.empty",
	"ph_truncated.heic":                                       "decode.size-mismatch",
	"pil_broken.png":                                          "decode.truncated",
	"pil_broken_data_stream.png":                              "decode.truncated",
	"pil_crash-1152ec2d1a1a71395b6f2ce6721c38924d025bf3.tif":  "decode.truncated",
	"pil_decompression_bomb.gif":                              "decode.damaged",
	"pil_decompression_bomb.ico":                              "decode.unknown-type",
	"pil_hopper_bad_exif.jpg":                                 "decode.damaged",
	"pil_hopper_idat_after_image_end.png":                     "ok",
	"pil_icc-after-SOF.jpg":                                   "ok colour.bad-profile",
	"pil_invalid-exif.jpg":                                    "ok decode.bad-exif",
	"pil_jpeg_ff00_header.jpg":                                "ok",
	"pil_junk_jpeg_header.jpg":                                "ok",
	"pil_multiple_exif.jpg":                                   "ok decode.bad-exif",
	"pil_oom-225817ca0f8c663be7ab4b9e717b02c661e66834.tif":    "decode.damaged",
	"pil_png_decompression_dos.png":                           "ok", // the bomb is in text that is not read
	"pil_sugarshack_bad_mpo_header.jpg":                       "ok",
	"sharp_corrupt-header.jpg":                                "decode.truncated",
	"sharp_invalid-illuminant.icc":                            "decode.unknown-type",
	"sharp_truncated.jpg":                                     "decode.truncated",
	"sharp_truncated.png":                                     "decode.truncated",
	"vips_17000x17000.avif":                                   "decode.too-large",
	"vips_looks-like-svg.webp":                                "ok",
	"ximg_0x0.tiff":                                           "decode.empty",
	"ximg_0x1.tiff":                                           "decode.empty",
	"ximg_1x0.tiff":                                           "decode.empty",
	"ximg_invalid-palette-ref.tiff":                           "decode.damaged",
}

// Every broken photo ends in its named verdict, the same with and without the
// native codecs, within a bounded memory.
func TestBrokenPhotos(t *testing.T) {
	names := photos(t, "broken")
	for _, name := range names {
		base := filepath.Base(name)
		t.Run(base, func(t *testing.T) {
			want, ok := verdicts[base]
			if !ok {
				t.Fatal("no verdict is known")
			}
			data := load(t, name)
			var before, after runtime.MemStats
			runtime.ReadMemStats(&before)
			for _, pure := range []bool{true, false} {
				if got := outcome(t, func() (*decode.Source, error) { return decode.Decode(data, &decode.Options{Pure: pure}) }); got != want {
					t.Errorf("pure %v: %s, want %s", pure, got, want)
				}
			}
			runtime.ReadMemStats(&after)
			if mb := (after.TotalAlloc - before.TotalAlloc) >> 20; mb > 512 {
				t.Errorf("%d MB were asked for", mb)
			}
		})
	}
	if len(names) != len(verdicts) {
		t.Errorf("%d files, %d verdicts", len(names), len(verdicts))
	}
}

// refused are the files of the formats folder, and of profiles, that are refused
// by name; all others there are read.
var refused = map[string]string{
	"govips_animated.webp":          "decode.unsupported",
	"ljt_monkey12_12bit.jpg":        "decode.unsupported",
	"ljt_testimgari_arithmetic.jpg": "decode.unsupported",
	"pil_hopper_bigtiff.tif":        "decode.unsupported",
	"pil_pal8rle.bmp":               "decode.unsupported",
	"pil_rgba32.bmp":                "decode.unsupported",
	"vips_subsampled.tif":           "decode.unsupported",
}

// noted are the files that are read with something to say.
var noted = map[string]string{
	"bep_sample.dng":            "ok decode.raw-preview-small",
	"gostd_video-001.cmyk.jpeg": "ok colour.cmyk-no-profile",
	"vips_cogs.gif":             "ok decode.first-frame",
	"govips_cmyk_noicc.jpg":     "ok colour.cmyk-no-profile",
	"sharp_cmyk_noprofile.jpg":  "ok colour.cmyk-no-profile",
	"mei_SonyHX5V_gps.jpg":      "ok decode.exif-partly",
}

func TestEveryFormatIsReadOrRefusedByName(t *testing.T) {
	for _, folder := range []string{"formats", "profiles", "cameras"} {
		for _, name := range photos(t, folder) {
			base := filepath.Base(name)
			if filepath.Ext(base) == ".icc" {
				continue
			}
			want := "ok"
			if c, ok := refused[base]; ok {
				want = c
			} else if c, ok := noted[base]; ok {
				want = c
			}
			if got := outcome(t, func() (*decode.Source, error) { return decodeOnce(t, name) }); got != want {
				t.Errorf("%s: %s, want %s", base, got, want)
			}
		}
	}
}
