package page

import (
	"net/url"
	"slices"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

// termsNamed is how many of the terms their heading names.
const termsNamed = 2

// forSale reports whether a piece may still be had.
func forSale(pub *report.Public) bool { return pub.ForSale() }

// availability says in words whether the piece may be had; "" where that is not told.
func availability(pub *report.Public, o *Options) string {
	if pub.Available == "" {
		return ""
	}
	return o.Words.Called("available", pub.Available)
}

type priceLine struct{ Text, Note string }

// priceOf is the line of the price, with what hangs on it, and then whether the piece
// may be had; without a price, and of a piece that is gone, that alone, as on its label;
// nil where neither is told.
func priceOf(pub *report.Public, o *Options) *priceLine {
	switch {
	case pub.Price == nil && pub.Available == "":
		return nil
	case !asked(pub):
		return &priceLine{Text: spelling.Capital(availability(pub, o))}
	}
	return &priceLine{priceAsked(pub, o), spelling.Commas(pub.Price.Note, availability(pub, o))}
}

// asked reports whether a price is asked for the piece: what a piece was sold for is no
// matter of others.
func asked(pub *report.Public) bool { return pub.Price != nil && forSale(pub) }

// priceAsked is the price for a page without a name before it; of a batch, that of one
// unless it is told of all together.
func priceAsked(pub *report.Public, o *Options) string {
	price := units.Money(o.Words.Lang, pub.Price.Amount, pub.Price.Currency)
	if pub.PricedEach() {
		return o.Words.Say("page.each", map[string]any{"Price": price})
	}
	return price
}

// others is where the pieces stand that can be had, for who comes to one that is gone:
// the catalogue, where it is known at which address that stands.
func others(r *report.Report) string {
	if forSale(&r.Public) {
		return ""
	}
	return report.WebAddress(r.BaseURL)
}

// An ask is the link by which a buyer writes to the maker, or calls.
type ask struct{ Text, Href string }

// askOf is the way to ask for the piece; of one that is gone, for one like it; nil
// where the workshop tells neither a mail address nor a telephone.
func askOf(pub *report.Public, o *Options) *ask {
	if pub.Maker == nil {
		return nil
	}
	id := "page.ask"
	if !forSale(pub) {
		id = "page.ask-similar"
	}
	words := map[string]any{"Serial": pub.Serial, "Title": spelling.OneLine(pub.Title), "Phone": pub.Maker.Phone}
	switch {
	case pub.Maker.Email != "":
		subject := strings.ReplaceAll(url.QueryEscape(o.Words.Say(id+".subject", words)), "+", "%20") // RFC 6068
		return &ask{o.Words.Say(id, words), "mailto:" + strings.ReplaceAll(url.PathEscape(pub.Maker.Email), "%40", "@") + "?subject=" + subject}
	case dialled(pub.Maker.Phone) != "":
		return &ask{o.Words.Say(id+".call", words), "tel:" + dialled(pub.Maker.Phone)}
	}
	return nil
}

// terms lists price, delivery, guarantee and returns, and makes the heading over them,
// which names no more than what is there. Of a piece that is gone it lists what still
// binds the maker.
func terms(r *report.Report, o *Options) (out []fact, head string) {
	pub := &r.Public
	var heads []string
	add := func(under, id string, values ...string) {
		text := spelling.Commas(values...)
		if text == "" {
			return
		}
		out = append(out, fact{o.Words.Say("page."+id, nil), []string{text}})
		if name := o.Words.Say("page."+under, nil); len(heads) < termsNamed && !slices.Contains(heads, name) {
			heads = append(heads, name)
		}
	}
	under := "availability"
	if asked(pub) {
		id := "price"
		if under = id; pub.PricedEach() {
			id = "price-each"
		}
		add(under, id, units.Money(o.Words.Lang, pub.Price.Amount, pub.Price.Currency), pub.Price.Note)
	}
	add(under, "availability", spelling.Capital(availability(pub, o)))
	if forSale(pub) {
		if d := pub.Delivery; d != nil {
			add("delivery", "ships-to", countries(d.ShipsTo, o))
			add("delivery", "lead-time", spelling.Capital(d.LeadTime))
			add("delivery", "assembly", spelling.Capital(d.Assembly))
		}
		if pub.Shipping != nil {
			add("delivery", "shipping", pub.Shipping.Text)
		}
	}
	add("guarantee", "guarantee", pub.Guarantee)
	if forSale(pub) {
		add("returns", "returns", pub.Returns)
	}
	for i := 1; i < len(heads); i++ {
		heads[i] = o.Words.Inside(heads[i])
	}
	return out, o.Words.List(heads)
}

// countries names countries as people do, where the texts know them.
func countries(codes []string, o *Options) string {
	var names []string
	for _, c := range codes {
		if name, ok := o.Words.Country(strings.ToUpper(c)); ok {
			c = name
		}
		names = append(names, c)
	}
	return o.Words.List(names)
}
