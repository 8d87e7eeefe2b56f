package wood

import (
	"slices"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// namesakes are names that mean one tree on one side of the ocean and another on
// the other, with the id of the second. Common practice, no source.
var namesakes = map[string]string{"sycamore": "sycamore-maple", "linden": "small-leaved-lime"}

// The countries whose trees a namesake tells apart: those of North America, where
// the first grows, and those of Europe, where the second does.
var (
	northAmerica = []string{"US", "CA", "MX"}
	europe       = strings.Fields("AL AT BA BE BG CH CY CZ DE DK EE ES FI FR GB GR HR HU IE IS IT LI LT LU LV MD ME MK MT NL NO PL PT RO RS SE SI SK TR UA")
)

// AtHome returns the table as a workshop of a country reads it, two letters of ISO
// 3166-1: a name that means another tree in Europe means that one there.
func (t *Table) AtHome(country string) *Table {
	n := *t
	n.home = strings.ToUpper(country)
	return &n
}

// A Namesake is what is known of a name that two trees bear.
type Namesake struct {
	Other    string // the id of the European tree; "" where the name is of one tree alone
	European bool   // it is taken for that one
	Told     bool   // the wood's origin tells which it is
	Home     string // the workshop's country, where that is all that tells
}

// Namesake says whether a wood's name is that of two trees, and which is meant: as
// its origin tells, else as the workshop's country does (AtHome).
func (t *Table) Namesake(w piece.Wood) Namesake {
	n := Namesake{Other: t.namesake(spelling.Plain(w.Species.V))}
	if n.Other == "" {
		return n
	}
	country := strings.ToUpper(w.Country.V)
	if n.Told = side(country); !n.Told && side(t.home) && country == "" {
		country, n.Home = t.home, t.home
	}
	n.European = slices.Contains(europe, country)
	return n
}

// side reports whether a country is on one side of the ocean or the other.
func side(country string) bool {
	return slices.Contains(europe, country) || slices.Contains(northAmerica, country)
}

// namesake is the id of the European tree that bears a plain name, with or without
// words that only describe; "" where there is none, or where the workshop has an
// entry of its own under that name.
func (t *Table) namesake(key string) string {
	if _, _, rest := t.woodsNamed(key); namesakes[rest] != "" && !t.own[plainID(rest)] {
		return namesakes[rest]
	}
	return ""
}

// inEurope are the trees of the table that grow in Europe, wild or planted for their
// wood (from memory, after the floras).
var inEurope = strings.Fields(`european-oak european-beech european-ash european-walnut wych-elm english-elm european-cherry sycamore-maple norway-maple
	sweet-chestnut olive european-poplar scots-pine norway-spruce silver-fir european-larch london-plane oriental-plane hornbeam silver-birch common-alder
	small-leaved-lime horse-chestnut pear apple yew`)

// homeFirst puts the trees of the workshop's side of the ocean before others, else as
// the table has them. Where no country tells a side the order stays.
func (t *Table) homeFirst(at []int) []int {
	if !side(t.home) {
		return at
	}
	here := slices.Contains(europe, t.home)
	first, rest := []int(nil), []int(nil)
	for _, i := range at {
		if slices.Contains(inEurope, t.species[i].ID) == here {
			first = append(first, i)
		} else {
			rest = append(rest, i)
		}
	}
	return append(first, rest...)
}
