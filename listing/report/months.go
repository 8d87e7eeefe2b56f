package report

import (
	"cmp"
	"slices"
	"strings"
)

// A Month is what was finished in a month, in one currency. Private.
type Month struct {
	Month    string // "2026-09"
	Currency string // of the money below; "" where nobody says
	Pieces   int    // a batch counts each of its pieces
	Costed   int    // those of them whose costs are noted
	Hours    float64
	Floor    float64 // what the costed ones cost
	Asked    float64 // the prices of those that have one
	Margin   float64 // price less cost of those that have both
	Both     bool    // there is one that has both
}

// Months adds up what was finished in each month, the latest first. Pieces of
// different currencies are never added to each other; one without price and costs
// counts with the others of its month.
func Months(reports []*Report) []Month {
	var months []Month
	place := func(month, currency string) int {
		return slices.IndexFunc(months, func(m Month) bool { return m.Month == month && (m.Currency == currency || currency == "") })
	}
	for _, moneyless := range []bool{false, true} {
		for _, r := range reports {
			currency := r.currency()
			if len(r.Public.Finished) < len("2026-09") || (currency == "") != moneyless {
				continue
			}
			month := r.Public.Finished[:len("2026-09")]
			i := place(month, currency)
			if i < 0 {
				i, months = len(months), append(months, Month{Month: month, Currency: currency})
			}
			months[i].add(r)
		}
	}
	slices.SortFunc(months, func(a, b Month) int {
		return cmp.Or(strings.Compare(b.Month, a.Month), strings.Compare(a.Currency, b.Currency))
	})
	return months
}

// currency is the one that a piece's price and costs are in.
func (r *Report) currency() string {
	switch {
	case r.Public.Price != nil:
		return r.Public.Price.Currency
	case r.Costs != nil:
		return r.Costs.Currency
	}
	return ""
}

// add puts a piece into its month.
func (m *Month) add(r *Report) {
	n := max(1, r.Public.Quantity)
	m.Pieces += n
	price, costs := r.Public.Price, r.Costs
	if price != nil {
		m.Asked += price.Amount
		if r.Public.PricedEach() {
			m.Asked += float64(n-1) * price.Amount
		}
	}
	if costs == nil || costs.Floor <= 0 {
		return
	}
	m.Costed += n
	m.Hours += costs.Hours
	m.Floor += float64(n) * costs.Floor
	if price != nil {
		m.Margin, m.Both = m.Margin+float64(n)*costs.Margin, true
	}
}

// Total adds up months by currency, in the order of their first.
func Total(months []Month) []Month {
	var sums []Month
	for _, m := range months {
		i := slices.IndexFunc(sums, func(s Month) bool { return s.Currency == m.Currency || m.Currency == "" })
		if i < 0 {
			i, sums = len(sums), append(sums, Month{Currency: m.Currency})
		}
		s := &sums[i]
		s.Pieces, s.Costed, s.Hours = s.Pieces+m.Pieces, s.Costed+m.Costed, s.Hours+m.Hours
		s.Floor, s.Asked, s.Margin, s.Both = s.Floor+m.Floor, s.Asked+m.Asked, s.Margin+m.Margin, s.Both || m.Both
	}
	return sums
}
