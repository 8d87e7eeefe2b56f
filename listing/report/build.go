package report

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"strconv"

	"slabfolio/listing/assembly"
	"slabfolio/listing/care"
	"slabfolio/listing/figure"
	"slabfolio/listing/geometry"
	"slabfolio/listing/piece"
	"slabfolio/listing/shipping"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
	"slabfolio/listing/weight"
	"slabfolio/listing/wood"
	"slabfolio/templates"
)

// Options say how a report is made. Words is needed; everything else has a
// default.
type Options struct {
	Prefer units.System // printed first; PrintedFirst of the language and the piece's own units when empty
	Paper  string       // a4 (default) or letter
	Lang   string       // en when empty
	Words  *templates.Words

	// What was measured from a photo of the top, for an outline that is said so.
	Plan           *geometry.Outline
	PlanResinShare *figure.Figure // of the face, 0 to 1; nil when it was not measured
	PlanResin      [][][2]float64 // where it lies, mm as Plan: what an odd number of rings go round; nil when it was not measured

	Tables *Tables // nil takes the embedded ones
}

// builder carries one piece through the steps of Build.
type builder struct {
	p         *piece.Piece
	w         *piece.Workshop
	o         Options
	words     *templates.Words
	t         *Tables
	r         *Report
	woods     *wood.Table       // with the workshop's own
	materials *weight.Materials // with the workshop's own

	outline *geometry.Outline // nil when there is none that can be used
	mix     mix
	in      assembly.Input
	size    assembly.Size
	masses  masses
	moves   moves
	family  *care.Family
	sheet   *piece.FinishProduct
	dates   care.Dates

	protected []care.Protected // woods whose trade is regulated
	tips      bool             // a load on the top can tip it
	topples   bool             // a push at its upper edge can tip it

	lift    shipping.Lift // of the piece as it stands
	liftOff shipping.Lift // of the heavier of top and base, where the base comes off
	packed  []shipping.Package

	oldCoat   bool     // paint or a finish of earlier hands is still on it, as far as the spec tells
	composite []string // panels in what is offered into the US
	compliant bool     // the maker documents that they meet the rule there

	liftNote string // of the heaviest package, in words
	wayIn    string // what it needs on the way into a home, in words
}

// Build makes the report of a piece. What cannot be known of the piece is in
// Absent with the reason, what is doubtful in Findings; an error means that the
// tool itself is not whole. w may be nil.
func Build(p *piece.Piece, w *piece.Workshop, o Options) (*Report, error) {
	b, err := newBuilder(p, w, o)
	if err != nil {
		return nil, err
	}
	b.build()
	return b.r, nil
}

// newBuilder opens the tables for a piece.
func newBuilder(p *piece.Piece, w *piece.Workshop, o Options) (*builder, error) {
	if p == nil || o.Words == nil {
		return nil, errors.New("a report needs a piece and words")
	}
	if w == nil {
		w = &piece.Workshop{}
	}
	if home := Home(w); home != w.Country.V {
		told := *w
		told.Country.V, w = home, &told
	}
	if woods := piece.Together(p.Top.Wood); len(woods) < len(p.Top.Wood) {
		told := *p
		told.Top.Wood, p = woods, &told
	}
	b := &builder{p: p, w: w, o: o, words: o.Words, t: o.Tables}
	if b.t == nil {
		t, err := loadTables()
		if err != nil {
			return nil, fmt.Errorf("read the tables: %w", err)
		}
		b.t = t
	}
	woods, findings := b.t.Wood.WithEntries(w.Woods)
	b.woods, b.materials = woods.AtHome(w.Country.V), b.t.Materials.WithResins(w.Resins)
	b.r = &Report{
		Findings: append([]piece.Finding{}, findings...), Figures: map[string]figure.Figure{}, WeightParts: []WeightPart{},
		Movement: []WoodMovement{}, Absent: map[string]string{}, Photos: []PhotoRecord{},
	}
	return b, nil
}

// build takes the piece through every step, in order.
func (b *builder) build() {
	for _, step := range []func(){
		b.settings,       // units, paper, language, rights
		b.identity,       // serial, title, story, maker, price
		b.shape,          // the outline, thickness, areas
		b.weigh,          // what the top is made of, and weights part by part
		b.seasons,        // movement of each wood
		b.assemble,       // final size, knee room, seats
		b.stand,          // centre of mass and tipping
		b.stiffness,      // sag between the feet
		b.madeOf,         // what it is made of
		b.protectedWoods, // woods whose trade is regulated
		b.finish,         // family, product, dates
		b.pack,           // packages, lifting, doorway
		b.freight,        // what a carrier computes with
		b.terms,          // where it starts from and how it travels
		b.sale,           // what the law of a country asks of an offer
		b.nameless,       // papers that say who made it
		b.homeless,       // and from where
		b.costs,          // private
		b.record,         // private
		b.texts,          // care and cautions
		b.contradictions, // what does not go together
		b.drawing,
		b.paste, // texts for the forms of shops
	} {
		step()
	}
	b.r.tidy()
}

func (b *builder) settings() {
	r := b.r
	r.Paper = cmp.Or(b.o.Paper, b.w.Paper.V, "a4")
	r.Lang = cmp.Or(b.o.Lang, b.words.Lang)
	r.Prefer = cmp.Or(b.o.Prefer, PrintedFirst(r.Lang, b.ownUnits()))
	r.BaseURL = b.w.BaseURL.V
	r.Rights = b.w.Copyright.V
}

// PrintedFirst is the system that what is written in a language (an IETF tag) has first,
// where the command line asks for none: the maker's own in English; in any other language a
// metric one, whatever the maker works in, since its readers know no inches and pounds.
func PrintedFirst(lang string, own units.System) units.System {
	if own = cmp.Or(own, units.Inches); !own.Metric() && !templates.English(lang) {
		return units.Centimetres
	}
	return own
}

// inCoins rounds a price to what its currency has coins for, so that papers, page and
// spreadsheet say one figure, and tells the maker.
func (b *builder) inCoins(v piece.Value[float64], currency string) float64 {
	amount := units.InCoins(v.V, currency)
	if math.Abs(amount-v.V) > 1e-9*v.V {
		b.find(piece.Doubt, "price.fine", v.At, fmt.Sprintf("%s has no coin as small as the price %s ends in: it is given as %s everywhere", cmp.Or(currency, "money"),
			strconv.FormatFloat(v.V, 'f', -1, 64), units.Money("en", amount, currency)), "write the price that you ask")
	}
	return amount
}

func (b *builder) identity() {
	p, pub := b.p, &b.r.Public
	pub.Serial, pub.Title, pub.Kind = p.Serial.V, p.Title.V, p.Kind.V
	pub.Finished = care.ISO(p.Finished.V)
	pub.Quantity = max(1, p.Quantity.V)
	pub.Set = pub.Quantity > 1 && piece.TitleCount(p.Title.V) == pub.Quantity
	pub.Story, pub.Found, pub.Mark = p.Story.V, spelling.Capital(p.Found.V), spelling.Capital(p.Mark.V) // as the rows beside them begin
	pub.Available = p.Availability.V
	b.takenBy()
	b.guarantee()
	pub.Returns = cmp.Or(p.Returns.V, b.w.Returns.V)
	pub.Lang = b.r.Lang
	pub.Materials, pub.Care, pub.Cautions, pub.Photos = []Material{}, []Paragraph{}, []Paragraph{}, []Photo{}
	if p.Price != nil && p.Price.Amount.Set() {
		currency := cmp.Or(p.Price.Currency.V, b.w.Currency.V)
		pub.Price = &Price{Amount: b.inCoins(p.Price.Amount, currency), Currency: currency, Note: p.Price.Note.V, Together: p.PricedTogether()}
		if pub.Quantity > 1 && piece.SaysEach(pub.Price.Note) {
			pub.Price.Note = "" // said with the price of several anyway
		}
		if pub.Price.Currency == "" {
			b.find(piece.Doubt, "price.no-currency", p.Price.At, "the price has no currency", "add `currency: "+cmp.Or(units.CurrencyIn(b.w.Country.V), "GBP")+"`, or yours, to the price or to workshop.yaml")
		}
	}
	if d := p.Delivery; d != nil {
		pub.Delivery = &Delivery{LeadTime: d.LeadTime.V, Assembly: d.Assembly.V}
		for _, c := range d.ShipsTo {
			pub.Delivery.ShipsTo = append(pub.Delivery.ShipsTo, c.V)
		}
	}
	m := Maker{Name: b.w.Name.V, Address: b.w.Address.V, Country: b.w.Country.V, Email: b.w.Email.V, Phone: b.w.Phone.V, Web: b.w.Web.V}
	if m != (Maker{}) {
		pub.Maker = &m
	}
	b.whoMadeIt()
}

// nameless doubts papers that do not say who made the piece.
func (b *builder) nameless() {
	if b.w.Name.V != "" {
		return
	}
	remedy := "slabfolio new --workshop lays out a workshop.yaml beside your pieces; write your workshop's name into it"
	if b.w.Dir != "" {
		remedy = "write it into workshop.yaml: workshop: {name: …}"
	}
	b.find(piece.Doubt, "maker.nameless", piece.Place{}, "no maker's name stands on its papers", remedy)
}

// find adds a finding at a place of the spec.
func (b *builder) find(rank piece.Rank, code string, at piece.Place, msg, remedy string) {
	b.r.Findings = append(b.r.Findings, piece.Finding{Rank: rank, Code: code, File: at.File, Line: at.Line, Column: at.Column, Message: msg, Remedy: remedy})
}

// absent notes why a figure cannot be known.
func (b *builder) absent(name, why string) {
	if why != "" {
		b.r.Absent[name] = why
	}
}

// keep puts a figure under its name, and says so in Absent when it is no number.
func (b *builder) keep(name string, f figure.Figure) {
	for _, v := range []float64{f.Value, f.Low, f.High} {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			b.absent(name, "the sum does not come out as a number; look at the sizes and weights in the spec")
			return
		}
	}
	b.r.Figures[name] = f
}

func ptr(v float64) *float64 { return &v }

// round rounds to n decimals, half away from nought, and never gives minus nought.
func round(v float64, n int) float64 {
	k := math.Pow(10, float64(n))
	r := math.Round(v*k) / k
	if r == 0 {
		return 0
	}
	return r
}
