package page

import (
	"bytes"
	"cmp"
	"encoding/json"
	"html/template"
	"math"
	"strings"

	"slabfolio/listing/report"
	"slabfolio/listing/spelling"
)

// A thing is a node of structured data.
type thing map[string]any

// put sets a property, unless its value is empty.
func (t thing) put(property, text string) {
	if text != "" {
		t[property] = text
	}
}

// jsonLD describes the piece in the words of schema.org, release 30.0; units are
// the codes of UN/ECE Recommendation 20. Readers that know no IndividualProduct find
// a Product.
func jsonLD(r *report.Report, o *Options) (template.JS, error) {
	pub := &r.Public
	m := thing{
		"@context": "https://schema.org", "@type": "Product",
		"name": pub.Title, "sku": pub.Serial,
	}
	m.put("itemCondition", condition(pub))
	if !pub.Worked() {
		m["productionDate"] = pub.Finished
	}
	if kind := pub.KindIn(o.Words); kind != "" {
		m["category"] = kind
	}
	if pub.Quantity <= 1 {
		m["@type"], m["serialNumber"] = []string{"Product", "IndividualProduct"}, pub.Serial
	}
	m.put("description", strings.Join(paragraphs(pub.Story), "\n\n"))
	m.put("url", pageURL(r, o))
	m.put("material", spelling.Commas(materialNames(pub)...))
	m.put("color", spelling.Commas(colours(pub)...))
	m.measure(pub)
	if images := images(r); len(images) > 0 {
		m["image"] = images
	}
	if maker := organisation(pub.Maker); maker != nil && !pub.Worked() {
		m["manufacturer"], m["brand"] = maker, thing{"@type": "Brand", "name": pub.Maker.Name}
	}
	if p := properties(pub); len(p) > 0 {
		m["additionalProperty"] = p
	}
	if offer := offer(r, o); offer != nil {
		m["offers"] = offer
	}
	return script(m)
}

// condition is schema.org's word for the state of a piece: a new one where the workshop
// made it, "" where it only may have.
func condition(pub *report.Public) string {
	switch pub.Work {
	case "":
		return "https://schema.org/NewCondition"
	case "restored":
		return "https://schema.org/RefurbishedCondition"
	case "repaired":
		return "https://schema.org/UsedCondition"
	}
	return ""
}

// script writes structured data so that no text in it can end the script.
func script(m thing) (template.JS, error) {
	var b bytes.Buffer
	e := json.NewEncoder(&b) // escapes <, > and &
	if err := e.Encode(m); err != nil {
		return "", err
	}
	return template.JS(bytes.TrimSpace(b.Bytes())), nil
}

// measure puts size and weight in: the weight as the scale said it, else the estimate
// with its range.
func (t thing) measure(pub *report.Public) {
	if d := pub.Dimensions; d != nil { // schema.org: width is left to right, depth front to back
		for property, mm := range map[string]*float64{"width": d.Length, "depth": d.Width, "height": d.Height} {
			if mm != nil {
				t[property] = quantity(round(*mm, 1), "MMT")
			}
		}
	}
	if w := pub.Weight; w != nil {
		q := quantity(round(w.Shown(), 2), "KGM")
		if w.Weighed == nil {
			q["minValue"], q["maxValue"] = round(w.Low, 2), round(w.High, 2)
		}
		t["weight"] = q
	}
}

func round(v float64, decimals int) float64 {
	k := math.Pow10(decimals)
	return math.Round(v*k) / k
}

func quantity(value float64, unit string) thing {
	return thing{"@type": "QuantitativeValue", "value": value, "unitCode": unit}
}

func materialNames(pub *report.Public) []string {
	var names []string
	for _, x := range pub.Materials {
		names = append(names, x.Name)
	}
	if b := pub.Base; b != nil && b.Material != "" {
		names = append(names, spelling.Capital(b.Material))
	}
	return names
}

// colours are those that the maker told: of the resin, and of the base's coating.
func colours(pub *report.Public) []string {
	var out []string
	for _, x := range pub.Materials {
		if x.Role == "resin" {
			colour, _, _ := strings.Cut(x.Detail, ",")
			out = append(out, colour)
		}
	}
	return out
}

// images are the photos with what is said of them and whose they are.
func images(r *report.Report) []any {
	var all []any
	for i := range r.Public.Photos {
		p := pictureOf(&r.Public.Photos[i])
		m := thing{
			"@type": "ImageObject", "contentUrl": fileURL(r, p.Large), "encodingFormat": "image/jpeg", "name": p.Alt,
			"caption": cmp.Or(p.Caption, p.Alt), "representativeOfPage": i == 0,
		}
		m["width"], m["height"] = pixels(p.own), pixels(int(math.Round(float64(p.own)/p.ratio)))
		if p.Src != p.Large {
			m["thumbnailUrl"] = fileURL(r, p.Src)
		}
		if maker := r.Public.Maker; maker != nil && maker.Name != "" {
			m["creditText"], m["creator"] = maker.Name, thing{"@type": "Organization", "name": maker.Name}
		}
		if r.Rights != "" {
			m["copyrightNotice"] = r.Rights
			m["license"] = thing{"@type": "CreativeWork", "name": r.Rights}
		}
		m.put("acquireLicensePage", r.Address())
		all = append(all, m)
	}
	return all
}

func pixels(n int) thing {
	return thing{"@type": "QuantitativeValue", "value": n, "unitText": "px"}
}

// organisation is the workshop; nil where it has no name. Of an address that is
// written in one go it is not known which part is the street, so all of it stands
// where a street does.
func organisation(m *report.Maker) thing {
	l := makerOf(m)
	if l == nil {
		return nil
	}
	org := thing{"@type": "Organization", "name": m.Name}
	org.put("email", m.Email)
	org.put("telephone", m.Phone)
	org.put("url", l.WebURL)
	if len(l.Address) > 0 || m.Country != "" {
		a := thing{"@type": "PostalAddress"}
		a.put("streetAddress", strings.Join(l.Address, ", "))
		a.put("addressCountry", m.Country)
		org["address"] = a
	}
	return org
}

func properties(pub *report.Public) []any {
	var props []any
	add := func(name string, value any, unit string) {
		p := thing{"@type": "PropertyValue", "name": name, "value": value}
		p.put("unitCode", unit)
		props = append(props, p)
	}
	if d := pub.Dimensions; d != nil && d.TopThickness != nil {
		add("top thickness", round(*d.TopThickness, 1), "MMT")
	}
	if f := pub.Finish; f != nil {
		add("finish", f.Called(), "")
	}
	if mv := pub.Movement; mv != nil {
		add("seasonal movement across the width, at most", round(mv.Across, 1), "MMT")
	}
	return props
}
