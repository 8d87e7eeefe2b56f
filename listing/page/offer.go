package page

import (
	"cmp"
	"fmt"
	"strconv"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// availabilities are schema.org's words for the spec's; a piece that is not for
// sale has no offer.
var availabilities = map[string]string{
	"in stock": "InStock", "made to order": "MadeToOrder", "commission": "MadeToOrder", "reserved": "Reserved", "sold": "SoldOut",
}

// offer is what the piece is offered for; nil where it is not, as where it was made for a
// buyer. Of a piece that is sold it says no more than that.
func offer(r *report.Report, o *Options) thing {
	pub := &r.Public
	if pub.Price == nil || pub.Available == "not for sale" || pub.Taken {
		return nil
	}
	m := thing{"@type": "Offer"}
	m.put("itemCondition", condition(pub))
	if a, ok := availabilities[pub.Available]; ok {
		m["availability"] = "https://schema.org/" + a
	}
	m.put("url", pageURL(r, o))
	if seller := organisation(pub.Maker); seller != nil {
		m["seller"] = seller
	}
	if !forSale(pub) {
		return m
	}
	m["price"], m["priceCurrency"] = pub.Price.Amount, pub.Price.Currency
	switch {
	case pub.Price.Together:
		m["eligibleQuantity"] = quantity(float64(pub.Quantity), "H87")
	case pub.Quantity > 1:
		m["inventoryLevel"] = quantity(float64(pub.Quantity), "H87") // pieces
	}
	if d := pub.Delivery; d != nil {
		if len(d.ShipsTo) > 0 {
			m["eligibleRegion"] = d.ShipsTo
		}
		if q := leadTime(d.LeadTime); q != nil {
			m["deliveryLeadTime"] = q
		}
	}
	if s := shippingDetails(pub); len(s) > 0 {
		m["shippingDetails"] = s
	}
	if pub.Returns != "" {
		m["hasMerchantReturnPolicy"] = returnPolicy(pub)
	}
	if pub.Guarantee != "" {
		m["warranty"] = thing{"@type": "WarrantyPromise", "description": pub.Guarantee}
	}
	return m
}

// shippingDetails are the packages, each with its size and weight and the countries
// that it goes to; the countries alone where no packing is known.
func shippingDetails(pub *report.Public) []any {
	var to any
	if d := pub.Delivery; d != nil && len(d.ShipsTo) > 0 {
		to = thing{"@type": "DefinedRegion", "addressCountry": d.ShipsTo}
	}
	var all []any
	add := func(m thing) {
		m["@type"] = "OfferShippingDetails"
		if to != nil {
			m["shippingDestination"] = to
		}
		all = append(all, m)
	}
	if s := pub.Shipping; s != nil {
		for i, p := range s.Packages {
			m := thing{"name": cmp.Or(p.Name, fmt.Sprintf("%d/%d", i+1, len(s.Packages)))}
			for property, mm := range map[string]float64{"width": p.Length, "depth": p.Width, "height": p.Height} {
				if mm > 0 {
					m[property] = quantity(round(mm, 0), "MMT")
				}
			}
			if p.Gross > 0 {
				m["weight"] = quantity(round(p.Gross, 1), "KGM")
			}
			add(m)
		}
	}
	if len(all) == 0 && to != nil {
		add(thing{})
	}
	return all
}

// leadTimes is how a lead time is commonly written, in the languages of the texts.
var leadTimes = spelling.Pattern(`(?i)^(\d{1,3})(?:\s*(?:-|–|to|bis)\s*(\d{1,3}))?\s+(days?|weeks?|months?|tage?n?|wochen?|monate?n?)$`)

// leadTime reads a lead time such as "10 days" or "2 to 3 weeks"; nil for one that is
// written in another way.
func leadTime(text string) thing {
	m := leadTimes().FindStringSubmatch(strings.TrimSpace(text))
	if m == nil {
		return nil
	}
	unit := map[byte]string{'d': "DAY", 't': "DAY", 'w': "WEE", 'm': "MON"}[strings.ToLower(m[3])[0]]
	from, _ := strconv.ParseFloat(m[1], 64)
	if m[2] == "" {
		return quantity(from, unit)
	}
	to, _ := strconv.ParseFloat(m[2], 64)
	return thing{"@type": "QuantitativeValue", "minValue": from, "maxValue": to, "unitCode": unit}
}

var (
	noReturns  = spelling.Pattern(`(?i)^(no|none|no returns?|keine|kein rückgaberecht)\.?$`)
	returnDays = spelling.Pattern(`(?i)\b(\d{1,3})[ -](day|tage?n?\b)`)
	buyerPays  = spelling.Pattern(`(?i)at (the )?(buyer|customer)['’]s (cost|expense)|(buyer|customer) pays (the |for )?(return|carriage|postage)`)
	makerPays  = spelling.Pattern(`(?i)\bfree returns?\b|returns? (is|are) free`)
)

// returnPolicy is what the maker wrote of returns, and of it what is plain enough to
// be said in schema.org's words.
func returnPolicy(pub *report.Public) thing {
	m := thing{"@type": "MerchantReturnPolicy", "description": pub.Returns}
	if d := pub.Delivery; d != nil && len(d.ShipsTo) > 0 {
		m["applicableCountry"] = d.ShipsTo
	}
	if noReturns().MatchString(strings.TrimSpace(pub.Returns)) {
		m["returnPolicyCategory"] = "https://schema.org/MerchantReturnNotPermitted"
		return m
	}
	if days := returnDays().FindAllStringSubmatch(pub.Returns, -1); len(days) == 1 {
		n, _ := strconv.Atoi(days[0][1])
		m["merchantReturnDays"], m["returnPolicyCategory"] = n, "https://schema.org/MerchantReturnFiniteReturnWindow"
	}
	switch {
	case buyerPays().MatchString(pub.Returns):
		m["returnFees"] = "https://schema.org/ReturnFeesCustomerResponsibility"
	case makerPays().MatchString(pub.Returns):
		m["returnFees"] = "https://schema.org/FreeReturn"
	}
	return m
}
