package piece

import (
	"fmt"
	"strconv"
	"strings"

	"slabfolio/listing/spelling"
)

// What people write in place of a figure, in the languages of the papers (from memory).
var (
	inThousands = spelling.Pattern(`(?i)^\D{0,3}\s*(\d+(?:[.,]\d+)?)\s*k\W*$`)
	onRequest   = spelling.Pattern(`(?i)\b(request|inquiry|enquiry|application|ask|tbd|tba|poa|negotiable|anfrage|verhandlungsbasis|vhb|demande|consultar|consulta|petición|aanvraag|overleg)\b`)
	anywhere    = spelling.Pattern(`(?i)^\W*(world-?wide|anywhere|everywhere|international(ly)?|global(ly)?|all( countries)?|weltweit|überall|(dans le )?monde( entier)?|partout|(a )?todo el mundo|mundial|wereldwijd|overal)\W*$`)
)

// figureMeant says what was meant in place of a figure: "" where nothing tells.
func figureMeant(text string, k *Key) string {
	if m := inThousands().FindStringSubmatch(text); m != nil && k.Max == maxMoney {
		if v, err := strconv.ParseFloat(strings.Replace(m[1], ",", ".", 1), 64); err == nil {
			return fmt.Sprintf("write the whole figure, %s: %s, if that is what you mean", k.Name, trim(v*1000))
		}
	}
	if k.Max == maxMoney && !strings.ContainsAny(text, "0123456789") && onRequest().MatchString(text) {
		return "leave `price` out: no paper says a price then, and whoever wants the piece asks"
	}
	if k.Type == typeWhole {
		for _, w := range strings.Fields(strings.ToLower(text)) {
			n := numberSaid(w)
			switch w {
			case "pair", "paar", "paire", "par", "pareja", "couple":
				n = 2
			}
			if n >= int(k.Min) && n > 1 && !strings.ContainsAny(w, "0123456789") {
				return fmt.Sprintf("write the figure: %s: %d", k.Name, n)
			}
		}
	}
	return ""
}
