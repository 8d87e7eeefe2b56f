#!/bin/sh
# Makes the pictures of README.md anew from the demo's own output. Needs the
# program, poppler (pdftoppm), libvips (vips) and Chromium:
#
#	go build -o /tmp/slabfolio ./cmd/slabfolio
#	sh testdata/readme/remake.sh /tmp/slabfolio
set -eu
program=$1
here=$(cd "$(dirname "$0")" && pwd)
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
"$program" demo --quiet --units cm --paper a4 "$work/demo"
out=$work/demo/prepared

# save FROM TO: as a PNG of 256 colours.
save() { vips pngsave "$1" "$here/$2" --palette --Q 100 --dither 1 --effort 10 --strip; }

# page FILE WIDTH HEIGHT TO: what a browser shows first.
page() {
	"${CHROMIUM:-chromium}" --headless --no-sandbox --disable-gpu --hide-scrollbars --no-first-run \
		--user-data-dir="$work/browser" --window-size="$2,$3" --virtual-time-budget=20000 --run-all-compositor-stages-before-draw \
		--screenshot="$4" "file://$1" 2>/dev/null
}

# Both pages of a sheet, side by side on grey.
pdftoppm -r 84 -png "$out/OY-0208/sheet.pdf" "$work/sheet"
vips arrayjoin "$work/sheet-1.png $work/sheet-2.png" "$work/pair.png" --across 2 --shim 12 --background 190
w=$(vipsheader -f width "$work/pair.png") h=$(vipsheader -f height "$work/pair.png")
vips embed "$work/pair.png" "$work/sheet.png" 12 12 $((w + 24)) $((h + 24)) --extend background --background 190
save "$work/sheet.png" sheet.png

page "$out/OY-0208/listing/index.html" 1280 668 "$work/listing.png"
save "$work/listing.png" listing.png

page "$out/index.html" 1280 880 "$work/overview.png"
save "$work/overview.png" overview.png

# Four photos, before above after.
set -- OY-0211/overview/01-three-quarter OY-0214/overview/01-three-quarter OY-0211/overview/03-end OY-0219/overview/01-three-quarter
{
	echo '<!DOCTYPE html><meta charset="utf-8"><title>photos</title><style>body{margin:0;padding:12px;background:#fff;display:grid;grid-template-columns:repeat(4,1fr);gap:12px}img{display:block;width:100%;height:268px;object-fit:contain;object-position:left bottom}img.after{object-position:left top}</style>'
	for p; do echo "<img src=\"$p-before.jpg\" alt=\"\">"; done
	for p; do echo "<img class=\"after\" src=\"$p-after.jpg\" alt=\"\">"; done
} >"$out/photos.html"
page "$out/photos.html" 1280 572 "$work/photos.png"
save "$work/photos.png" photos.png
# Light: the frames with the share of each, and the photo they make.
{
	echo '<!DOCTYPE html><meta charset="utf-8"><title>light</title><style>body{margin:0;padding:12px;background:#fff;display:grid;grid-template-columns:1fr 1fr;gap:12px;align-items:center}img{display:block;width:100%}</style>'
	echo '<img src="OY-0208/overview/04-front-before.jpg" alt=""><img src="OY-0208/overview/04-front-after.jpg" alt="">'
} >"$out/light.html"
page "$out/light.html" 1280 440 "$work/light.png"
save "$work/light.png" light.png

# Measure: the photo with what was found, and the drawing that it gives.
pdftoppm -r 260 -f 1 -l 1 -x 910 -y 2165 -W 410 -H 520 -png "$out/OY-0214/sheet.pdf" "$out/drawing"
{
	echo '<!DOCTYPE html><meta charset="utf-8"><title>measured</title><style>body{margin:0;padding:12px;background:#fff;display:grid;grid-template-columns:2fr 1fr;gap:12px;align-items:center}img{display:block;width:100%}</style>'
	echo "<img src=\"OY-0214/overview/plan-measured.jpg\" alt=\"\"><img src=\"$(basename "$out"/drawing*.png)\" alt=\"\">"
} >"$out/measured.html"
page "$out/measured.html" 1280 580 "$work/measured.png"
save "$work/measured.png" measured.png
ls -l "$here"/*.png

# In two languages: the first page of each sheet, side by side on grey.
pdftoppm -r 62 -f 1 -l 1 -png "$out/OY-0214/sheet.pdf" "$work/one"
pdftoppm -r 62 -f 1 -l 1 -png "$out/OY-0214/sheet.fr.pdf" "$work/other"
vips arrayjoin "$(echo "$work"/one*.png) $(echo "$work"/other*.png)" "$work/two.png" --across 2 --shim 12 --background 190
w=$(vipsheader -f width "$work/two.png") h=$(vipsheader -f height "$work/two.png")
vips embed "$work/two.png" "$work/languages.png" 12 12 $((w + 24)) $((h + 24)) --extend background --background 190
save "$work/languages.png" languages.png
