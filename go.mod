module slabfolio

go 1.26.0

// What the program is built from.
require (
	github.com/corona10/goimagehash v1.1.0
	github.com/disintegration/imaging v1.6.2
	github.com/ebitengine/purego v0.11.3
	github.com/fsnotify/fsnotify v1.10.1
	github.com/gen2brain/avif v0.4.4
	github.com/gen2brain/heic v0.4.5
	github.com/gen2brain/webp v0.5.5
	github.com/gofrs/flock v0.13.2
	github.com/jung-kurt/gofpdf v1.16.2
	github.com/kovidgoyal/imaging v1.9.0
	github.com/pdfcpu/pdfcpu v0.15.0
	github.com/rwcarlsen/goexif v0.0.0-20190401172101-9e8deecbddbd
	github.com/urfave/cli/v2 v2.27.7
	github.com/vbauerster/mpb/v8 v8.16.2
	golang.org/x/image v0.47.0
	golang.org/x/sync v0.25.0
	golang.org/x/sys v0.50.0
	golang.org/x/term v0.48.0
	golang.org/x/text v0.44.0
	rsc.io/qr v0.2.0
)

// What its tests need besides.
require (
	github.com/creack/pty v1.1.24
	github.com/google/go-cmp v0.7.0
	github.com/rogpeppe/go-internal v1.16.0
	github.com/santhosh-tekuri/jsonschema/v6 v6.0.3
	go.yaml.in/yaml/v3 v3.0.5
)

require (
	github.com/VividCortex/ewma v1.2.0 // indirect
	github.com/acarl005/stripansi v0.0.0-20180116102854-5a71ef0e047d // indirect
	github.com/clipperhouse/uax29/v2 v2.7.0 // indirect
	github.com/cpuguy83/go-md2man/v2 v2.0.7 // indirect
	github.com/hhrutter/tiff v1.0.6 // indirect
	github.com/kovidgoyal/go-parallel v1.1.1 // indirect
	github.com/mattn/go-runewidth v0.0.30 // indirect
	github.com/nfnt/resize v0.0.0-20180221191011-83c6a9932646 // indirect
	github.com/russross/blackfriday/v2 v2.1.0 // indirect
	github.com/tetratelabs/wazero v1.9.0 // indirect
	github.com/vbauerster/cupwriter v0.0.5 // indirect
	github.com/xrash/smetrics v0.0.0-20240521201337-686a1a2994c1 // indirect
	golang.org/x/crypto v0.54.0 // indirect
	golang.org/x/tools v0.52.0 // indirect
)
