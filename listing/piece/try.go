package piece

import (
	"slices"
	"strings"
	"time"

	"slabfolio/listing/units"
)

// Try returns what the parser has to say of what is known of a piece so far. What
// is only missing yet is left out.
func Try(known *Written, defaults Defaults) []Finding {
	_, findings := ParsePiece(SpecNames[0], []byte(known.Lines("")), defaults)
	return soFar(findings)
}

// TryWorkshop is Try for what is known of a workshop.
func TryWorkshop(known *Written) []Finding {
	_, findings := ParseWorkshop(WorkshopName, []byte(known.Lines("")))
	return soFar(findings)
}

// soFar leaves out what more answers may mend.
func soFar(findings []Finding) []Finding {
	return slices.DeleteFunc(findings, func(f Finding) bool { return f.Code == "spec.missing" || f.Code == "spec.ways" })
}

// ParseSizes reads sizes that are said in one breath, "54 x 16 in" or "54 by 16 by
// 1 5/8": each with the last one's unit, or bare's, where it has none. ok is
// false unless there are n of them.
func ParseSizes(text string, n int, bare units.System) (sizes []string, ok bool) {
	return lengths(text, n, bare)
}

// ParsePrice takes a price as people write it apart: "£1,850" is 1850 and GBP. The
// currency is empty where the text names none, or names only dollars and usual, the
// currency that counts else, is one of them; ok is false for what is no price.
func ParsePrice(text, usual string) (amount, currency string, ok bool) {
	if text == "" || strings.ContainsRune(text, '\n') {
		return "", "", false
	}
	amount, currency, ok = money(text)
	if ok && onlyDollars(text) && slices.Contains(currencyWords["dollar"], usual) {
		currency = ""
	}
	return amount, currency, ok
}

// onlyDollars reports whether a price names dollars and not whose.
func onlyDollars(text string) bool {
	sign := strings.ToLower(strings.Trim(text, "0123456789., \u00a0"))
	return sign == "$" || len(currencyMeant(sign)) > 1 && strings.HasPrefix(sign, "dollar")
}

// ParseCurrency returns the codes that a name or sign of money can mean: one for
// "GBP", "£" or "pounds", several for "dollars".
func ParseCurrency(text string) []string {
	if up := strings.ToUpper(strings.TrimSpace(text)); units.IsCurrency(up) {
		return []string{up}
	}
	return currencyMeant(text)
}

// NoSuchPart reports whether pieces of a kind have nothing to say under a path, such
// as the base of a serving board.
func NoSuchPart(kind, path string) bool { return slices.Contains(leftOut[kind], path) }

// ExampleFor returns a value for a key as a fresh spec of a kind of piece has it.
func ExampleFor(kind, path string) string {
	if own := starterExamples(kind)[path]; own != "" {
		return own
	}
	return keyAt(path).Example
}

// ParseAnswers reads a file that holds any part of a spec, for a piece that is
// begun. What is wrong with it is among the findings; what is only missing is not.
func ParseAnswers(file string, data []byte, defaults Defaults) (*Written, []Finding) {
	_, findings := ParsePiece(file, data, defaults)
	written, err := ParseWritten(file, data)
	if err != nil {
		written = &Written{}
	}
	return written, soFar(findings)
}

// Missing lists what nothing can be made without and that is not known yet, by the
// paths of the keys.
func Missing(known *Written) []string {
	var out []string
	for _, path := range []string{"title", "kind", "finished"} {
		if known.Find(path) == nil {
			out = append(out, path)
		}
	}
	if w := (&starter{known: known}); !w.outlined() {
		out = append(out, "top.outline")
	}
	for _, path := range []string{"top.thickness", "top.wood"} {
		if known.Find(path) == nil {
			out = append(out, path)
		}
	}
	return out
}

// Unsaid lists what a sheet can be made without and a buyer asks for all the same, and
// that is not known yet, by the keys of the spec.
func Unsaid(known *Written) []string {
	var out []string
	for _, key := range []string{"finish", "price"} {
		if known.Find(key) == nil {
			out = append(out, key)
		}
	}
	return out
}

// ParseDate reads a day as the spec does. problem is empty where it is one; else
// remedy says what to write.
func ParseDate(text string) (date Date, problem, remedy string) { return parseDate(text) }

// DayBefore is the day before d.
func (d Date) DayBefore() Date {
	t := time.Date(d.Year, time.Month(d.Month), d.Day-1, 0, 0, 0, 0, time.UTC)
	return Date{t.Year(), int(t.Month()), t.Day()}
}
