package report

import (
	"net/url"
	"strings"
)

// inMarkup are letters that an address may hold and a template would escape once
// more; escaped here, the address reads the same wherever it stands.
var inMarkup = strings.NewReplacer("'", "%27", "(", "%28", ")", "%29")

// Address is where the listing page of the piece stands on the web, or a file or
// folder below it: its folder below the workshop's base_url; "" where the workshop
// tells none. Page, QR code, structured data and tables all take it from here.
func (r *Report) Address(below ...string) string {
	return WebAddress(r.BaseURL, append([]string{r.Public.Serial, "/"}, below...)...)
}

// PageAddress is where the listing page stands in the report's own language: in a
// folder of its own where that is not the default one; "" as Address.
func (r *Report) PageAddress() string { return r.Address(r.PageFolder) }

// WebAddress is what stands below a base address, escaped once; the folder itself
// where nothing is named, and "" without a base.
func WebAddress(base string, below ...string) string {
	if base == "" {
		return ""
	}
	path := []string{"/"}
	for _, b := range below {
		if b != "" {
			path = append(path, b)
		}
	}
	address, err := url.JoinPath(base, path...)
	if err != nil {
		return ""
	}
	return inMarkup.Replace(address)
}
