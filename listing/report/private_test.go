package report

import (
	"encoding/json"
	"os"
	"reflect"
	"strings"
	"testing"

	"slabfolio/listing/piece"
)

// secrets fills every private value of a piece with a mark of its own.
func secrets(p *piece.Piece) []string {
	at := piece.Of(true).At
	date := func(y int) piece.Value[piece.Date] { return piece.Of(piece.Date{Year: y, Month: 3, Day: 4}) }
	p.Dir, p.Root = "/secret-dir", "/secret-root"
	p.Buyer = &piece.Buyer{Name: piece.Of("secret-buyer"), Delivered: date(2031)}
	p.Costs = &piece.Costs{Hours: piece.Of(73.0625), Rate: piece.Of(41.5), Items: []piece.CostItem{{For: piece.Of("secret-item"), Amount: piece.Of(8123.25)}}}
	p.Materials = []piece.Material{{At: at, Use: piece.Of("secret-use"), Product: piece.Of("secret-product"), Chemistry: piece.Of("secret-chemistry"),
		Hardener: piece.Of("secret-hardener"), Ratio: piece.Of("secret-ratio"), Batch: piece.Of("secret-batch"), Bought: date(2011), Expires: date(2041), Supplier: piece.Of("secret-supplier")},
		{At: at, Use: piece.Of("shown-use"), Product: piece.Of("shown-product"), Batch: piece.Of("secret-shown-batch"), Supplier: piece.Of("secret-shown-supplier"), Show: piece.Of(true)}}
	p.Log = []piece.LogEntry{{Date: date(2033), Did: piece.Of("secret-deed"), Materials: []piece.Value[string]{piece.Of("secret-stuff")}}}
	p.Glue = []piece.Value[string]{piece.Of("secret-glue")}
	return []string{"secret", "73.0625", "41.5", "8123.25", "2031", "2011", "2041", "2033"}
}

func TestNothingPrivateIsInTheListing(t *testing.T) {
	p := parse(t, "testdata/console.yaml")
	marks := secrets(p)
	r := build(t, p, nil)
	public, err := PublicJSON(r)
	if err != nil {
		t.Fatal(err)
	}
	all, err := JSON(r)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range marks {
		if strings.Contains(string(public), m) {
			t.Errorf("listing.json holds %q", m)
		}
	}
	// The marks did go in: report.json has them, so the search above can fail.
	for _, m := range []string{"secret-buyer", "secret-batch", "secret-supplier", "secret-shown-batch", "secret-deed", "secret-glue", "2031-03-04"} {
		if !strings.Contains(string(all), m) {
			t.Errorf("report.json lacks %q", m)
		}
	}
	if !strings.Contains(string(public), "shown-product") {
		t.Error("a material with show: yes is not in listing.json")
	}
	if strings.Contains(string(all), "secret-dir") || strings.Contains(string(all), "secret-root") {
		t.Error("report.json holds a path of the machine")
	}
	for _, m := range []string{"tip_load", "freight_class", "labour", "margin"} {
		if strings.Contains(string(public), m) {
			t.Errorf("listing.json holds %q", m)
		}
		if !strings.Contains(string(all), m) {
			t.Errorf("report.json lacks %q", m)
		}
	}
}

// privateSpec gives every key that is not for everyone a mark of its own.
const privateSpec = `
glue: [mark-glue]
materials:
  - {use: mark-use, product: mark-product, chemistry: mark-chemistry, hardener: mark-hardener, ratio: mark-ratio, batch: mark-batch, bought: 2011-03-04, expires: 2041-03-04, supplier: mark-supplier, show: no}
log:
  - {date: 2033-03-04, did: mark-deed, materials: [mark-stuff]}
buyer: {name: mark-buyer, delivered: 2031-03-04}
costs:
  hours: 73.0625
  rate: 41.5
  items: [{for: mark-item, amount: 8123.25}]
  slabs: [{size: [91.625 in, 27.375 in, 3.4375 in], count: 7}]
photos: {leave_out: [mark-photo.jpg]}
`

// everyPath lists the paths of all keys, as they stand in a fresh spec with nothing
// commented out.
func everyPath(t *testing.T) []string {
	t.Helper()
	fresh := piece.Starter("console table", "OY-1", func(string, map[string]any) string { return "" })
	var lines []string
	for line := range strings.Lines(string(fresh)) {
		lines = append(lines, strings.TrimPrefix(line, "# "))
	}
	all, err := piece.ParseWritten("piece.yaml", []byte(strings.Join(lines, "")))
	if err != nil {
		t.Fatal(err)
	}
	var paths []string
	var walk func(w *piece.Written, at string)
	walk = func(w *piece.Written, at string) {
		for _, item := range w.Items {
			walk(item, at)
		}
		for _, k := range w.Keys {
			path := strings.TrimPrefix(at+"."+k.Name, ".")
			paths = append(paths, path)
			if !piece.NamesPhotos(path) {
				walk(k.Value, path)
			}
		}
	}
	walk(all, "")
	return paths
}

// What the key table does not open to everyone is in no public figure, whatever
// its key. A new key that is not for everyone fails here until it is given a mark.
func TestTheKeyTableKeepsThePublicOut(t *testing.T) {
	base, err := os.ReadFile("testdata/console.yaml")
	if err != nil {
		t.Fatal(err)
	}
	marked, err := piece.ParseWritten("piece.yaml", []byte(privateSpec))
	if err != nil {
		t.Fatal(err)
	}
	checked := 0
	for _, path := range everyPath(t) {
		if piece.ReaderOf(path) == piece.Anyone {
			continue
		}
		checked++
		at := marked
		for _, name := range strings.Split(path, ".") {
			for at != nil && len(at.Items) > 0 {
				at = at.Items[0]
			}
			if at != nil {
				at = at.Key(name)
			}
		}
		if at == nil {
			t.Errorf("%s is not for everyone and has no mark here", path)
		}
	}
	if checked < 25 {
		t.Errorf("only %d keys are not for everyone", checked)
	}
	var lines []string // the base without the groups that are marked
	skip := false
	for line := range strings.Lines(string(base)) {
		if line[0] != ' ' && line[0] != '#' && line[0] != '-' && line[0] != '\n' {
			name, _, _ := strings.Cut(line, ":")
			skip = marked.Key(name) != nil
		}
		if !skip {
			lines = append(lines, line)
		}
	}
	p, findings := piece.ParsePiece("piece.yaml", []byte(strings.Join(lines, "")+privateSpec), piece.Defaults{})
	for _, f := range findings {
		if f.Rank == piece.Fault {
			t.Fatalf("line %d: %s", f.Line, f.Message)
		}
	}
	public, err := PublicJSON(build(t, p, nil))
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range []string{"mark-", "73.0625", "41.5", "8123.25", "2031", "2011", "2041", "2033", "91.625", "2327", "695.3"} {
		if strings.Contains(string(public), m) {
			t.Errorf("listing.json holds %q", m)
		}
	}
}

// No type that could carry a private value hangs below Public, whatever it holds
// today.
func TestPublicCannotHoldPrivateTypes(t *testing.T) {
	private := map[reflect.Type]bool{}
	for _, v := range []any{Costs{}, piece.Buyer{}, Buyer{}, Record{}, LogRecord{}, Freight{}, Stability{}, WeightPart{}, PhotoRecord{}, piece.Finding{}, piece.Piece{}, Report{}} {
		private[reflect.TypeOf(v)] = true
	}
	words := []string{"cost", "buyer", "supplier", "batch", "labour", "margin", "hardener", "ratio", "tip_load", "freight", "path", "gps"}
	seen := map[reflect.Type]bool{}
	fields := 0
	var walk func(reflect.Type, string)
	walk = func(ty reflect.Type, at string) {
		switch ty.Kind() {
		case reflect.Pointer, reflect.Slice, reflect.Array:
			walk(ty.Elem(), at)
			return
		case reflect.Map, reflect.Interface:
			t.Errorf("%s is a %s: what is in it cannot be known", at, ty.Kind())
			return
		case reflect.Struct:
		default:
			return
		}
		if private[ty] {
			t.Errorf("%s is a %s", at, ty)
		}
		if seen[ty] {
			return
		}
		seen[ty] = true
		for f := range ty.Fields() {
			fields++
			name := strings.Split(f.Tag.Get("json"), ",")[0]
			for _, w := range words {
				if strings.Contains(name, w) || strings.Contains(strings.ToLower(f.Name), strings.ReplaceAll(w, "_", "")) {
					t.Errorf("%s.%s may carry a private value (%s)", at, f.Name, w)
				}
			}
			walk(f.Type, at+"."+f.Name)
		}
	}
	walk(reflect.TypeOf(Public{}), "Public")
	if fields < 50 {
		t.Errorf("only %d fields were looked at", fields)
	}
}

// The keys of the contract, section 4, of a piece that has everything.
func TestKeysOfTheContract(t *testing.T) {
	p := parse(t, "testdata/console.yaml")
	p.Kind = piece.Of("dining table") // a console seats nobody
	r := build(t, p, &piece.Workshop{Name: piece.Of("Ostrel Yard")})
	data, err := JSON(r)
	if err != nil {
		t.Fatal(err)
	}
	var got map[string]any
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	for _, path := range []string{
		"public.serial", "public.title", "public.kind", "public.finished", "public.quantity", "public.story", "public.found", "public.mark",
		"public.dimensions.length_mm", "public.dimensions.width_mm", "public.dimensions.height_mm", "public.dimensions.top_thickness_mm", "public.dimensions.top_area_m2",
		"public.dimensions.wood_area_m2", "public.dimensions.resin_area_m2", "public.dimensions.knee_clearance_mm", "public.dimensions.text.in", "public.dimensions.text.cm",
		"public.weight.kg", "public.weight.low_kg", "public.weight.high_kg", "public.weight.weighed_kg", "public.weight.text.lb", "public.weight.text.kg",
		"public.movement.across_mm", "public.movement.from_rh", "public.movement.to_rh", "public.movement.from_mc", "public.movement.to_mc", "public.movement.text",
		"public.seats", "public.shipping.packages.0.length_mm", "public.shipping.packages.0.width_mm", "public.shipping.packages.0.height_mm", "public.shipping.packages.0.gross_kg",
		"public.shipping.people_to_lift", "public.shipping.text", "public.materials.0.name", "public.materials.0.botanical", "public.materials.0.share_pct", "public.materials.0.origin",
		"public.finish.family", "public.finish.product", "public.finish.coats", "public.finish.sheen", "public.finish.light_use_from", "public.finish.full_cure_from", "public.finish.full_cure_to",
		"public.care.0", "public.cautions.0", "public.photos", "public.price.amount", "public.price.currency", "public.price.note", "public.availability", "public.delivery", "public.guarantee", "public.returns",
		"findings.0.rank", "findings.0.code", "findings.0.file", "findings.0.line", "findings.0.column", "findings.0.message", "findings.0.remedy",
		"weight_parts.0.name", "weight_parts.0.kg", "weight_parts.0.low_kg", "weight_parts.0.high_kg", "weight_parts.2.volume_l", "weight_parts.2.density_kg_m3", "weight_parts.0.source",
		"stability.tip_load_kg", "stability.edge", "freight.gross_kg", "freight.density_lb_ft3", "freight.freight_class", "freight.volumetric_kg", "movement.0.wood", "costs", "absent", "photos", "codecs",
	} {
		if !has(got, strings.Split(path, ".")) {
			t.Errorf("report.json has no %s", path)
		}
	}
	for name, f := range r.Figures {
		if f.Rule == "" || f.Source == "" || f.Unit == "" {
			t.Errorf("figure %s has rule %q, source %q, unit %q", name, f.Rule, f.Source, f.Unit)
		}
	}
}

func has(v any, path []string) bool {
	if len(path) == 0 {
		return true
	}
	switch x := v.(type) {
	case map[string]any:
		next, ok := x[path[0]]
		return ok && has(next, path[1:])
	case []any:
		i := int(path[0][0] - '0')
		return i < len(x) && has(x[i], path[1:])
	}
	return false
}
