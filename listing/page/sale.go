package page

import (
	"net/url"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
	"slabfolio/listing/units"
)

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
// may be had; without a price, and of a piece that is gone, that alone; nil where
// neither is told.
func priceOf(pub *report.Public, o *Options) *priceLine {
	switch {
	case pub.Price == nil && pub.Available == "":
		return nil
	case pub.Price == nil, !forSale(pub): // the price stands among the terms
		return &priceLine{Text: spelling.Capital(availability(pub, o))}
	}
	return &priceLine{priceAsked(pub, o), commaJoined(pub.Price.Note, availability(pub, o))}
}

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
	words := map[string]any{"Serial": pub.Serial, "Title": oneLine(pub.Title), "Phone": pub.Maker.Phone}
	switch {
	case pub.Maker.Email != "":
		subject := strings.ReplaceAll(url.QueryEscape(o.Words.Say(id+".subject", words)), "+", "%20") // RFC 6068
		return &ask{o.Words.Say(id, words), "mailto:" + strings.ReplaceAll(url.PathEscape(pub.Maker.Email), "%40", "@") + "?subject=" + subject}
	case dialled(pub.Maker.Phone) != "":
		return &ask{o.Words.Say(id+".call", words), "tel:" + dialled(pub.Maker.Phone)}
	}
	return nil
}

func oneLine(s string) string { return strings.Join(strings.Fields(s), " ") }

// terms lists price, delivery, guarantee and returns. Of a piece that is gone it
// lists what still binds the maker.
func terms(r *report.Report, o *Options) []fact {
	pub := &r.Public
	var out []fact
	add := func(id string, values ...string) {
		if text := commaJoined(values...); text != "" {
			out = append(out, fact{o.Words.Say("page."+id, nil), []string{text}})
		}
	}
	if pub.Price != nil {
		id, note := "price", pub.Price.Note
		if pub.PricedEach() {
			id = "price-each"
		}
		if !forSale(pub) {
			note = ""
		}
		add(id, units.Money(o.Words.Lang, pub.Price.Amount, pub.Price.Currency), note)
	}
	add("availability", spelling.Capital(availability(pub, o)))
	if !forSale(pub) {
		add("guarantee", pub.Guarantee)
		return out
	}
	if d := pub.Delivery; d != nil {
		add("ships-to", countries(d.ShipsTo, o))
		add("lead-time", spelling.Capital(d.LeadTime))
		add("assembly", spelling.Capital(d.Assembly))
	}
	if pub.Shipping != nil {
		add("shipping", pub.Shipping.Text)
	}
	add("guarantee", pub.Guarantee)
	add("returns", pub.Returns)
	return out
}

// termsHead is the heading over the terms, which promises no price where there is none.
func termsHead(pub *report.Public, o *Options) string {
	switch sold := !forSale(pub); {
	case sold && pub.Price == nil:
		return o.Words.Say("page.guarantee", nil)
	case sold:
		return o.Words.Say("page.terms-gone", nil)
	case pub.Price == nil:
		return o.Words.Say("page.delivery-alone", nil)
	}
	return o.Words.Say("page.delivery", nil)
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
