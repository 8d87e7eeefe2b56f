package templates

import (
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// mustSay is what each caution has to say, on the papers (caution.…) and on the card
// (card.…caution.…), in every language: a caution that is put more softly than in
// English is another caution.
var mustSay = map[string][]said{
	"caution.lift.one":                         {oneLifts, closeToBody, onStairs, twoLift},
	"caution.lift.one-with-care":               {oneLifts, withCare, closeToBody, onStairs, twoLift},
	"caution.lift.two":                         {twoLift, neverByEnds},
	"caution.lift.two-flat":                    {twoLift, bothHands, closeToBody, setDownSoft},
	"caution.lift.more":                        {tooMuch, trolley, neverByEnds},
	"caution.lift.more-flat":                   {tooMuch, trolley, bothHands, closeToBody, setDownSoft},
	"caution.lift.machine":                     {notByHand, palletTruck, hoist, mover},
	"caution.lift.off-one":                     {tooMuch, baseOffFirst, oneLifts, closeToBody, onStairs, twoLift},
	"caution.lift.off-one-with-care":           {tooMuch, baseOffFirst, oneLifts, withCare, twoLift},
	"caution.lift.off-two":                     {tooMuch, baseOffFirst, twoLift, setDownSoft},
	"caution.lift.off-more":                    {tooMuch, baseOffFirst, evenBaseOff, trolley},
	"caution.lift.off-machine":                 {baseOffFirst, evenBaseOff, notByHand, palletTruck, hoist, mover},
	"card.mind.caution.lift.one":               {oneLifts, closeToBody, onStairs, twoLift},
	"card.mind.caution.lift.one-with-care":     {oneLifts, withCare, onStairs, twoLift},
	"card.mind.caution.lift.two":               {twoLift, neverByEnds},
	"card.mind.caution.lift.two-flat":          {twoLift, bothHands},
	"card.mind.caution.lift.more":              {tooMuch, trolley, neverByEnds},
	"card.mind.caution.lift.more-flat":         {tooMuch, trolley},
	"card.mind.caution.lift.machine":           {notByHand, palletTruck, hoist, mover},
	"card.mind.caution.lift.off-one":           {tooHeavy, baseOffFirst},
	"card.mind.caution.lift.off-one-with-care": {tooHeavy, baseOffFirst},
	"card.mind.caution.lift.off-two":           {tooHeavy, baseOffFirst, twoLift},
	"card.mind.caution.lift.off-more":          {tooHeavy, evenBaseOff, trolley},
	"card.mind.caution.lift.off-machine":       {notByHand, evenBaseOff, palletTruck, hoist, mover},
	"caution.tip.table":                        {notSit, canTip},
	"caution.tip.seat":                         {notSit, canTip},
	"caution.tip.wall":                         {tall, canTip, children, toTheWall, forTheWall},
	"card.not.caution.tip.table":               {notSit, canTip},
	"card.not.caution.tip.seat":                {notSit, canTip},
	"card.mind.caution.tip.wall":               {tall, children, toTheWall},
	"caution.hang":                             {knowsWall, forTheWall, forWeight},
	"card.mind.caution.hang":                   {knowsWall},
	"caution.climb":                            {notStand, notClimb, children},
	"card.not.caution.climb":                   {notStand, notClimb},
	"caution.old-coat":                         {lead, notSanded, notHeated, children, dampCloth, haveTested, localRules, goFirst},
	"card.mind.caution.old-coat":               {lead, notSanded, notHeated, haveTested, first},
	"caution.drawer":                           {notLean, closeIt},
	"card.mind.caution.drawer":                 {notLean, closeIt},
	"caution.glass":                            {notKnock, cracked, stopUsing},
	"card.not.caution.glass":                   {notKnock, cracked},
	"caution.heat.resin":                       {nothingHot, trivet},
	"caution.heat.resin-sheet":                 {nothingHot, trivet},
	"caution.heat.resin-other":                 {nothingHot, trivet},
	"caution.heat.coat":                        {nothingHot, trivet},
	"caution.heat.wood":                        {nothingHot, trivet, candle, watched},
	"caution.heat.board":                       {nothingHot, trivet},
	"card.not.caution.heat.resin":              {hotListed, trivet},
	"card.not.caution.heat.resin-sheet":        {hotListed, trivet},
	"card.not.caution.heat.resin-other":        {hotListed, trivet},
	"card.not.caution.heat.coat":               {hotListed, trivet},
	"card.not.caution.heat.wood":               {hotListed, trivet, candle, watched},
	"caution.heat.loose":                       {fromStove, fromOven},
	"card.not.caution.heat.loose":              {fromStove, fromOven},
	"card.not.caution.heat.board":              {hotListed, trivet},
	"caution.food.cured":                       {noFood, beforeDay, notCertified, contact},
	"caution.food.drying":                      {noFood, whiteCloth, notCertified, contact},
	"caution.food.unknown":                     {notCertified, contact},
	"caution.food.uncured":                     {notCertified, contact},
	"caution.food.resin":                       {notCertified, contact, foodOff},
	"caution.food.bare":                        {notCertified, contact},
	"caution.food.documented":                  {untested},
	"caution.food.documented-bare":             {untested},
	"caution.food.resin-documented":            {untested},
	"card.mind.caution.food.cured":             {noFood, beforeDay, notCertified, contact},
	"card.mind.caution.food.drying":            {noFood, whiteCloth, notCertified, contact},
	"card.mind.caution.food.unknown":           {notCertified, contact},
	"card.mind.caution.food.uncured":           {notCertified, contact},
	"card.mind.caution.food.resin":             {notForFood, foodOff},
	"card.mind.caution.food.resin-documented":  {untested},
	"card.mind.caution.food.bare":              {notCertified, contact},
	"caution.knives.film":                      {forServing},
	"caution.knives.resin":                     {forServing},
	"caution.knives.bare":                      {sameFace},
	"caution.knives.treated":                   {sameFace},
	"caution.knives.unknown":                   {sameFace},
	"card.not.caution.knives.film":             {forServing},
	"card.not.caution.knives.resin":            {forServing},
	"card.mind.caution.knives.bare":            {sameFace},
	"card.mind.caution.knives.treated":         {sameFace},
	"card.mind.caution.knives.unknown":         {sameFace},
	"caution.dishwasher":                       {never, dishwasher, soak, oven, microwave},
	"card.not.caution.dishwasher":              {dishwasher, soak, oven, microwave},
	"caution.allergy.tung":                     {nutAllergy, askDoctor, first},
	"caution.allergy.walnut":                   {nutAllergy, askDoctor, first},
	"caution.allergy.nut":                      {nutAllergy, askDoctor, first},
	"card.mind.caution.allergy.tung":           {nutAllergy, askDoctor, first},
	"card.mind.caution.allergy.walnut":         {nutAllergy, askDoctor, first},
	"card.mind.caution.allergy.nut":            {nutAllergy, askDoctor, first},
	"caution.rags":                             {byItself, catchFire, spreadFlat, openAir, inWater, metalCan, notHeaped},
	"card.mind.caution.rags":                   {byItself, catchFire, spreadFlat, openAir, inWater, metalCan},
	"caution.dust":                             {lungs, mask, ffp2, freshAir, dampCloth, vacuum},
	"card.mind.caution.dust":                   {lungs, mask, ffp2, freshAir, vacuum},
	"caution.airing":                           {formaldehyde, airIt, untilDay, nobodySleeps},
	"card.mind.caution.airing":                 {formaldehyde, airIt, untilDay, nobodySleeps},
	"caution.composite":                        {formaldehyde, theLabel},
	"card.mind.caution.composite":              {theLabel},
	"caution.cites":                            {keepPapers, checkList},
	"caution.cites.first":                      {strictest, keepPapers, askBefore},
	"card.mind.caution.cites":                  {keepPapers},
	"card.mind.caution.cites.first":            {strictest, keepPapers, askBefore},
	"caution.rules":                            {localRules, ownSheet, goFirst},
	"card.mind.caution.rules":                  {localRules, ownSheet, goFirst},
}

// ownPhrases are those that stand in a language's own files; base is the language
// whose words of the table they are looked for in.
func ownPhrases(t *testing.T, lang string) (phrases map[string]string, base string) {
	t.Helper()
	w := open(t, lang)
	if w.base == "en" { // a region's English is English, respelt
		phrases = map[string]string{}
		for _, id := range w.IDs() {
			phrases[id], _ = w.text(id)
		}
		return phrases, "en"
	}
	own := &Words{parsed: map[string]string{}}
	if err := own.read(lang); err != nil {
		t.Fatal(err)
	}
	return own.parsed, lang
}

// says reports whether a phrase has one of the words of something in a language.
func (s said) says(base, phrase string) bool {
	phrase = strings.ToLower(strings.ReplaceAll(phrase, "\u00a0", " "))
	return slices.ContainsFunc(s[base], func(words string) bool { return strings.Contains(phrase, words) })
}

// lacking lists what a caution does not say of what it has to, by the English words.
func lacking(id, base, phrase string) (lacks []string) {
	for _, what := range mustSay[id] {
		if !what.says(base, phrase) {
			lacks = append(lacks, fmt.Sprintf("%q", what["en"][0]))
		}
	}
	return lacks
}

func isCaution(id string) bool {
	return strings.HasPrefix(id, "caution.") && !strings.HasPrefix(id, "caution.head.") || strings.HasPrefix(id, "card.") && strings.Contains(id, ".caution.")
}

func TestCautionsKeepTheirForce(t *testing.T) {
	for _, lang := range []string{"en", "de", "es", "fr", "nl"} {
		phrases, base := ownPhrases(t, lang)
		for id, phrase := range phrases {
			if !isCaution(id) || phrase == "" {
				continue
			}
			if len(mustSay[id]) == 0 {
				t.Errorf("%s: nothing is said in mustSay of what %s has to say", lang, id)
			}
			for _, what := range lacking(id, base, phrase) {
				t.Errorf("%s: %s does not say %s: %s", lang, id, what, phrase)
			}
		}
	}
	for id := range mustSay {
		if !open(t, "en").Has(id) {
			t.Errorf("mustSay has %s, and there is no such phrase", id)
		}
	}
}

// A caution that lost a word of its force is found: each of these is weakened by hand,
// and the test has to miss just that.
func TestForceIsMissedWhereItIsNot(t *testing.T) {
	for _, c := range []struct{ lang, id, from, to, misses string }{
		{"de", "caution.rags", "nie zusammengeknüllt", "zusammengeknüllt", "never leave them crumpled"},
		{"fr", "caution.lift.two", "jamais par", "par", "never by the ends of the top"},
		{"es", "card.mind.caution.food.bare", "No certificada", "Certificada", "not certified"},
		{"nl", "caution.heat.resin", "Niets heets", "Iets heets", "nothing hot"},
		{"de", "caution.lift.two", "zu zweit", "allein", "two people"},
		{"nl", "caution.dust", "masker", "hoed", "mask"},
		{"fr", "caution.airing", "jusqu’au {{.To}}", "", "until {{.to}}"},
		{"nl", "caution.old-coat", "schuur, krab of verhit die niet", "krab of verhit die niet", "do not sand"},
		{"es", "caution.allergy.tung", "consulte a un médico antes de", "piense antes de", "ask a doctor"},
	} {
		phrases, base := ownPhrases(t, c.lang)
		whole := phrases[c.id]
		weak := strings.Replace(whole, c.from, c.to, 1)
		if whole == weak {
			t.Errorf("%s: %s has no %q to take away: %s", c.lang, c.id, c.from, whole)
		}
		if got := lacking(c.id, base, weak); !slices.Equal(got, []string{fmt.Sprintf("%q", c.misses)}) {
			t.Errorf("%s: of %q the test misses %v, want %q", c.lang, weak, got, c.misses)
		}
	}
}

// Below the heading that says what to avoid, a line that forbids it again says to do it.
func TestWhatToAvoidIsNotForbiddenTwice(t *testing.T) {
	no := regexp.MustCompile(`(?i)^(no|never|nothing|do not|don't|kein\w*|nie|niemals|nichts?|pas|jamais|rien|aucun\w*|ne|n’\w*|nada|nunca|ning\w*|sin|geen|nooit|niets?)\b`)
	for _, lang := range []string{"en", "de", "es", "fr", "nl"} {
		phrases, _ := ownPhrases(t, lang)
		for id, phrase := range phrases {
			if strings.HasPrefix(id, "card.not.") && no.MatchString(phrase) {
				t.Errorf("%s: %s stands under %q and says %q", lang, id, phrases["card.head.not"], phrase)
			}
		}
	}
	for _, bad := range []string{"Nichts Heißes auf das Gießharz", "Rien de chaud", "Nada caliente", "Niets heets", "Nothing hot"} {
		if !no.MatchString(bad) {
			t.Errorf("%q is taken for something to avoid", bad)
		}
	}
}

// figuresIn are the figures and the names of rules in a phrase, which no language
// changes: grits, standards, laws, filters of masks.
var figuresIn = regexp.MustCompile(`\b(?:TSCA Title [IVX]+|CITES|[0-9]+ CFR [0-9]+|FFP[0-9]|N[0-9]{2}|ISO [0-9-]+|EN [0-9-]+|ISPM [0-9]+|NIOSH|L23|INDG[0-9]+|MDF|OSB|QR|lb/ft³|cm³/kg|in³/lb|[0-9]+)\b`)

// putIn is what the syntax of templates puts in or decides.
var putIn = regexp.MustCompile(`\{\{.*?\}\}`)

// figuresOf lists them, each once, sorted; what is put in is left out.
func figuresOf(phrase string) []string {
	text := strings.ReplaceAll(putIn.ReplaceAllString(phrase, " "), "\u00a0", " ")
	all := figuresIn.FindAllString(text, -1)
	slices.Sort(all)
	return slices.Compact(all)
}

func TestFiguresAreTheSameInEveryLanguage(t *testing.T) {
	en := open(t, "en")
	seen := map[string]bool{}
	for _, lang := range []string{"de", "en-US", "es", "fr", "nl"} {
		phrases, _ := ownPhrases(t, lang)
		for id, phrase := range phrases {
			if !en.Has(id) {
				continue
			}
			want := figuresOf(en.parsed[id])
			for _, f := range want {
				seen[f] = true
			}
			if got := figuresOf(phrase); !slices.Equal(got, want) {
				t.Errorf("%s: %s has the figures %q, English has %q: %s", lang, id, got, want, phrase)
			}
		}
	}
	for _, f := range []string{"320", "400", "FFP2", "N95", "TSCA Title VI", "40 CFR 770", "CITES", "ISPM 15", "ISO 11228-1", "EN 1005-2"} {
		if !seen[f] {
			t.Errorf("no phrase has %q: the test looks for too little", f)
		}
	}
}
