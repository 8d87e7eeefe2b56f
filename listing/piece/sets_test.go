package piece

import "testing"

// The words are from memory.
func TestATitleThatCounts(t *testing.T) {
	for title, want := range map[string]int{
		"Pair of bar stools": 2, "Bar stools, a pair": 2, "Bar stools (set of 4)": 4, "Set of three ash boards": 3, "A pair; two stools": 2,
		"Ein Paar Hocker": 2, "Satz von 6 Brettern": 6, "Satz aus vier Untersetzern": 4, "Hocker, Paar": 2,
		"Paire de tabourets": 2, "Ensemble de quatre planches": 4, "Par de taburetes": 2, "Juego de cuatro tablas": 4, "Conjunto de 3 bancos": 3,
		"Paar krukken": 2, "Set van vier planken": 4,
		"Two boards": 2, "2 boards": 2, "Two oak serving boards": 2, "Deux planches": 2, "Twin boards": 2, "Dozen boards": 12, "A dozen boards": 12, "Drei Schneidebretter": 3, "Dos tablas": 2, "Twee planken": 2, "Four stools in ash": 4,
		"Set of seven boards": 7, "Set of nine boards": 9, "Set of eleven": 11, "Satz von sieben Brettern": 7, "Lot de neuf planches": 9, "Juego de siete tablas": 7, "Set van negen planken": 9, "Matching pair": 2, "Pair of boards of elm": 2,
		"Ein paar Bretter": 0, "Een paar planken": 0, "Ein Paar Bretter": 2, "Bench of a pair of slabs": 0, "Bank aus einem Paar Bohlen": 0, "Banc d'une paire de plots": 0, "Two-tone boards": 0, "Two tone boards": 0, "Twin slab table": 0, "Two board table": 0,
		"2 m table": 0, "Desk of two boards": 0, "Au pair desk": 0, "Old boards": 0, "Once upon two tables": 0,
		"Table by par": 0, "Two shores": 0, "Zwei Ufer": 0, "Desk with a pair of drawers": 0, "Schreibtisch mit einem Paar Schubladen": 0,
		"Table pour une paire de lampes": 0, "Mesa con un par de cajones": 0, "Repair bench": 0, "Sunset of oak": 0, "Parquet table": 0, "Set of the sun": 0, "": 0,
	} {
		if got := TitleCount(title); got != want {
			t.Errorf("%q counts %d, want %d", title, got, want)
		}
	}
	for note, want := range map[string]bool{"each": true, "each.": true, "je Stück": true, "la pièce": true, "cada uno": true, "per stuk": true, "per stool": true,
		"each; a set is less": false, "collected": false, "": false, "for the pair": false} {
		if SaysEach(note) != want {
			t.Errorf("%q says only that it is of each: %v", note, !want)
		}
	}
}

// A title that counts, beside a quantity of one, is asked about.
func TestATitleAgainstTheQuantity(t *testing.T) {
	read := func(lines string) *Finding {
		_, findings := ParsePiece("piece.yaml", []byte("serial: A1\nkind: stool\nfinished: 2026-09-18\ntop: {outline: {diameter: 13 in}, thickness: 1 in, wood: {species: oak}}\n"+lines), Defaults{})
		for _, f := range findings {
			if f.Code == "quantity.title" {
				return &f
			}
		}
		return nil
	}
	if f := read("title: Pair of bar stools\n"); f == nil || f.Rank != Doubt || f.Line != 5 {
		t.Errorf("a pair, of which there is one: %+v", f)
	}
	for _, lines := range []string{"title: Set of four stools\nquantity: 2\n", "title: Matching pair\nquantity: 3\n", "title: Two stools\n", "title: Set of seven stools\n"} {
		if f := read(lines); f == nil || f.Rank != Doubt {
			t.Errorf("%q: %+v", lines, f)
		}
	}
	for _, lines := range []string{"title: Pair of bar stools\nquantity: 2\n", "title: Set of four stools\nquantity: 4\n", "title: Bar stool\n"} {
		if f := read(lines); f != nil {
			t.Errorf("%q: %+v", lines, f)
		}
	}
}
