package report

import (
	"strings"
	"testing"

	"slabfolio/listing/table"
)

// Every rule that a figure or a sentence hangs on says where it is from: read, from
// memory, common practice, derived, or a standard by its name.
func TestEveryRuleNamesItsSource(t *testing.T) {
	tab, err := loadTables()
	if err != nil {
		t.Fatal(err)
	}
	kinds := []string{"read", "from memory", "common practice", "derived", "see ", "ISO ", "EN ", "Wood Handbook"}
	counts := map[string]int{}
	for name, rules := range map[string]map[string]table.Rule{"report": tab.Rules, "assembly": tab.Assembly.Rules, "shipping": tab.Shipping.Rules, "care": tab.Care.Rules} {
		for id, r := range rules {
			told := false
			for _, k := range kinds {
				if strings.Contains(r.Source, k) {
					told = true
					counts[k]++
					break
				}
			}
			if !told {
				t.Errorf("%s/%s: %q", name, id, r.Source)
			}
		}
	}
	t.Logf("%v", counts)
}
