package templates

import (
	"strconv"
	"time"
)

// Day writes a day, such as 2026-09-18, as the readers of the language do:
// "18 September 2026", or "September 18, 2026". What is no day stays as it is.
func (w *Words) Day(iso string) string {
	t, err := time.Parse(time.DateOnly, iso)
	if err != nil {
		return iso
	}
	month := w.Say("general.month."+strconv.Itoa(int(t.Month())), nil)
	return w.Say("general.date", map[string]any{"Day": t.Day(), "Month": month, "Year": t.Year()})
}
