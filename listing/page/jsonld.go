package page

import (
	"bytes"
	"encoding/json"
	"html/template"

	"slabfolio/listing/report"
)

// jsonLD describes the piece in the words of schema.org, release 30.0; units are
// the codes of UN/ECE Recommendation 20.
func jsonLD(r *report.Report) (template.JS, error) {
	pub := &r.Public
	m := map[string]any{
		"@context": "https://schema.org", "@type": "IndividualProduct",
		"name": pub.Title, "sku": pub.Serial, "category": pub.Kind, "productionDate": pub.Finished,
		"itemCondition": "https://schema.org/NewCondition",
	}
	if pub.Quantity > 1 {
		m["@type"] = "Product"
	} else {
		m["serialNumber"] = pub.Serial
	}
	put := func(key string, value string) {
		if value != "" {
			m[key] = value
		}
	}
	put("description", pub.Story)
	put("url", r.Address())
	if d := pub.Dimensions; d != nil {
		quantity(m, "width", d.Length, "MMT") // schema.org: width is left to right, depth front to back
		quantity(m, "depth", d.Width, "MMT")
		quantity(m, "height", d.Height, "MMT")
	}
	if w := pub.Weight; w != nil {
		q := map[string]any{"@type": "QuantitativeValue", "value": w.Shown(), "unitCode": "KGM"}
		if w.Weighed == nil {
			q["minValue"], q["maxValue"] = w.Low, w.High
		}
		m["weight"] = q
	}
	var materials, images []string
	for _, x := range pub.Materials {
		materials = append(materials, x.Name)
	}
	for _, p := range pub.Photos {
		images = append(images, fileURL(r, p.File))
	}
	if len(materials) > 0 {
		m["material"] = materials
	}
	if len(images) > 0 {
		m["image"] = images
	}
	if pub.Maker != nil && pub.Maker.Name != "" {
		m["manufacturer"] = organisation(pub.Maker)
	}
	m["additionalProperty"] = properties(pub)
	if offer := offer(pub); offer != nil {
		m["offers"] = offer
	}
	var b bytes.Buffer
	e := json.NewEncoder(&b) // escapes <, > and &, so that no text can end the script
	if err := e.Encode(m); err != nil {
		return "", err
	}
	return template.JS(bytes.TrimSpace(b.Bytes())), nil
}

func quantity(m map[string]any, key string, value *float64, unit string) {
	if value != nil {
		m[key] = map[string]any{"@type": "QuantitativeValue", "value": *value, "unitCode": unit}
	}
}

func organisation(m *report.Maker) map[string]any {
	org := map[string]any{"@type": "Organization", "name": m.Name}
	for key, v := range map[string]string{"email": m.Email, "telephone": m.Phone, "address": m.Address} {
		if v != "" {
			org[key] = v
		}
	}
	if l := makerOf(m); l != nil && l.WebURL != "" {
		org["url"] = l.WebURL
	}
	return org
}

func properties(pub *report.Public) []any {
	props := []any{}
	add := func(name string, value any, unit string) {
		p := map[string]any{"@type": "PropertyValue", "name": name, "value": value}
		if unit != "" {
			p["unitCode"] = unit
		}
		props = append(props, p)
	}
	if d := pub.Dimensions; d != nil && d.TopThickness != nil {
		add("top thickness", *d.TopThickness, "MMT")
	}
	if f := pub.Finish; f != nil {
		add("finish", commaJoined(f.Name, f.Product), "")
	}
	if mv := pub.Movement; mv != nil {
		add("seasonal movement across the width, at most", mv.Across, "MMT")
	}
	return props
}

// availabilities are schema.org's words for the spec's; a piece that is not for
// sale has no offer.
var availabilities = map[string]string{
	"in stock": "InStock", "made to order": "MadeToOrder", "commission": "MadeToOrder", "reserved": "Reserved", "sold": "SoldOut",
}

func offer(pub *report.Public) map[string]any {
	if pub.Price == nil || pub.Available == "not for sale" {
		return nil
	}
	o := map[string]any{"@type": "Offer", "price": pub.Price.Amount, "priceCurrency": pub.Price.Currency}
	if a, ok := availabilities[pub.Available]; ok {
		o["availability"] = "https://schema.org/" + a
	}
	if d := pub.Delivery; d != nil && len(d.ShipsTo) > 0 {
		o["eligibleRegion"] = d.ShipsTo
	}
	return o
}
