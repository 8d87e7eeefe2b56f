package report

import (
	"slices"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// Home is the country of the workshop, two letters of ISO 3166-1: as
// workshop.yaml says it, else as its address tells beyond doubt: by the country's
// name at its end, or by a code of the post that no other country writes so; ""
// where neither does, or where there is no workshop.
func Home(w *piece.Workshop) string {
	if w == nil {
		return ""
	}
	if w.Country.V != "" {
		return w.Country.V
	}
	last := lastOf(w.Address.V)
	if code, ok := homeNames[strings.ToUpper(last)]; ok {
		return code
	}
	return homeByPost(last)
}

// lastOf is the last line or part of an address.
func lastOf(address string) string {
	parts := strings.FieldsFunc(address, func(r rune) bool { return r == ',' || r == '\n' || r == '\r' })
	for _, p := range slices.Backward(parts) {
		if p = strings.Trim(p, " .\t"); p != "" {
			return p
		}
	}
	return ""
}

// homeNames are what people end an address with: the names of countries in English
// and in their own languages.
var homeNames = map[string]string{
	"UNITED KINGDOM": "GB", "UNITED STATES": "US", "CANADA": "CA", "AUSTRALIA": "AU", "NEW ZEALAND": "NZ", "JAPAN": "JP", "SWITZERLAND": "CH", "NORWAY": "NO", "ICELAND": "IS",
	"AUSTRIA": "AT", "BELGIUM": "BE", "BULGARIA": "BG", "CROATIA": "HR", "CYPRUS": "CY", "CZECHIA": "CZ", "CZECH REPUBLIC": "CZ", "DENMARK": "DK", "ESTONIA": "EE", "FINLAND": "FI",
	"FRANCE": "FR", "GERMANY": "DE", "GREECE": "GR", "HUNGARY": "HU", "IRELAND": "IE", "ITALY": "IT", "LATVIA": "LV", "LITHUANIA": "LT", "LUXEMBOURG": "LU", "MALTA": "MT",
	"NETHERLANDS": "NL", "POLAND": "PL", "PORTUGAL": "PT", "ROMANIA": "RO", "SLOVAKIA": "SK", "SLOVENIA": "SI", "SPAIN": "ES", "SWEDEN": "SE",
	"UK": "GB", "U.K": "GB", "GREAT BRITAIN": "GB", "ENGLAND": "GB", "SCOTLAND": "GB", "WALES": "GB", "CYMRU": "GB", "NORTHERN IRELAND": "GB",
	"USA": "US", "U.S.A": "US", "UNITED STATES OF AMERICA": "US", "DEUTSCHLAND": "DE", "ÖSTERREICH": "AT", "SCHWEIZ": "CH", "SUISSE": "CH", "ÉIRE": "IE",
	"NEDERLAND": "NL", "THE NETHERLANDS": "NL", "BELGIË": "BE", "BELGIQUE": "BE", "ESPAÑA": "ES", "ITALIA": "IT", "SVERIGE": "SE", "NORGE": "NO", "DANMARK": "DK", "SUOMI": "FI", "POLSKA": "PL",
}

// Codes at the end of an address. The Royal Mail's postcodes, Canada Post's, and the
// state and ZIP code of USPS Publication 28 (from memory). Five figures alone are
// written by too many countries to tell.
var (
	postGB = spelling.Pattern(`(?i)(^|\s)[A-Z]{1,2}\d[A-Z\d]? ?\d[ABD-HJLNP-UW-Z]{2}$`)
	postCA = spelling.Pattern(`(?i)(^|\s)[ABCEGHJ-NPRSTVXY]\d[ABCEGHJ-NPRSTV-Z][ -]?\d[ABCEGHJ-NPRSTV-Z]\d$`)
	postUS = spelling.Pattern(`(^|\s)(A[KLRZ]|C[AOT]|D[CE]|FL|GA|HI|I[ADLN]|K[SY]|LA|M[ADEINOST]|N[CDEHJMVY]|O[HKR]|PA|RI|S[CD]|T[NX]|UT|V[AT]|W[AIVY]) \d{5}(-\d{4})?$`)
)

func homeByPost(last string) string {
	switch {
	case postUS().MatchString(last):
		return "US"
	case postCA().MatchString(last):
		return "CA"
	case postGB().MatchString(last):
		return "GB"
	}
	return ""
}

// tariffs are headings of the Harmonized System, 2022 edition (from memory): seats;
// other furniture; tableware and kitchenware of wood. What is hung on a wall is left
// to the broker, since it may be an ornament or furniture.
var tariffs = map[string]string{
	"bench": "9401", "stool": "9401", "serving board": "4419",
	"desk": "9403", "dining table": "9403", "coffee table": "9403", "console table": "9403", "side table": "9403", "shelf": "9403",
}

// terms tells what hangs on where the workshop is and how the piece travels.
func (b *builder) terms() {
	r := b.r
	r.Home, r.Tariff, r.Abroad = b.w.Country.V, tariffs[b.p.Kind.V], b.crossesBorder()
	if k := b.p.Packing; k != nil && k.How.Set() {
		r.Packing = strings.ReplaceAll(k.How.V, " ", "-")
	}
}

// quotedIn reports whether carriers of North America, or those of elsewhere, are
// asked first: those of the workshop's country, or both where that is not known.
func (b *builder) quotedIn(american bool) bool {
	home := b.w.Country.V
	return home == "" || american == (home == "US" || home == "CA")
}

// homeless notes that nobody knows from where the workshop sells.
func (b *builder) homeless() {
	if b.w.Dir == "" || b.w.Country.V != "" {
		return
	}
	b.find(piece.Note, "maker.no-country", piece.Place{}, "nothing tells in which country the workshop is: a carrier's terms, the buyer's law and the words on lifting hang on it",
		"write its two letters into workshop.yaml: workshop: {name: …, country: GB}")
}
