package report

import (
	"net/url"
	"strings"
)

// inMarkup are letters that an address may hold and a template would escape once
// more; escaped here, the address reads the same wherever it stands.
var inMarkup = strings.NewReplacer("'", "%27", "(", "%28", ")", "%29")

// Address is where the listing page of the piece stands on the web, or a file or
// folder below it: its folder below the workshop's base_url, escaped once; "" where
// the workshop tells none. Page, QR code, structured data and tables all take it from
// here.
func (r *Report) Address(below ...string) string {
	if r.BaseURL == "" {
		return ""
	}
	path := []string{r.Public.Serial, "/"}
	for _, b := range below {
		if b != "" {
			path = append(path, b)
		}
	}
	address, err := url.JoinPath(r.BaseURL, path...)
	if err != nil {
		return ""
	}
	return inMarkup.Replace(address)
}
