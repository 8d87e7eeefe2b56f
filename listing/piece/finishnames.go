package piece

import "sync"

// finishNames are what finishes are called in the other languages of the papers, and by
// some makers (from memory).
var finishNames = sync.OnceValue(func() map[string]string {
	return map[string]string{
		"hartwachsöl": "hardwax-oil", "hartwachs öl": "hardwax-oil", "hartwachs-öl": "hardwax-oil", "hartöl": "hardwax-oil", "hardwaxolie": "hardwax-oil", "hardwax olie": "hardwax-oil", "hardwax-olie": "hardwax-oil", "huile-cire": "hardwax-oil", "huile cire": "hardwax-oil", "huile cire dure": "hardwax-oil", "cire dure": "hardwax-oil", "aceite-cera": "hardwax-oil", "aceite cera": "hardwax-oil", "aceite de cera dura": "hardwax-oil",
		"2k oil": "hardwax-oil-2k", "2k hardwax oil": "hardwax-oil-2k", "2k-öl": "hardwax-oil-2k", "2k öl": "hardwax-oil-2k", "2k-hartwachsöl": "hardwax-oil-2k", "2k hartwachsöl": "hardwax-oil-2k", "2k-olie": "hardwax-oil-2k", "2k olie": "hardwax-oil-2k", "huile bicomposant": "hardwax-oil-2k", "huile 2k": "hardwax-oil-2k", "aceite 2k": "hardwax-oil-2k", "two-part oil": "hardwax-oil-2k", "two-component oil": "hardwax-oil-2k",
		"leinölfirnis": "linseed-oil-boiled", "leinöl-firnis": "linseed-oil-boiled", "huile de lin cuite": "linseed-oil-boiled", "gekookte lijnolie": "linseed-oil-boiled", "aceite de linaza cocido": "linseed-oil-boiled", "aceite de linaza hervido": "linseed-oil-boiled", "blo": "linseed-oil-boiled",
		"rohes leinöl": "linseed-oil-raw", "leinöl roh": "linseed-oil-raw", "huile de lin crue": "linseed-oil-raw", "rauwe lijnolie": "linseed-oil-raw", "aceite de linaza crudo": "linseed-oil-raw",
		"tungöl": "tung-oil", "huile de tung": "tung-oil", "tungolie": "tung-oil", "aceite de tung": "tung-oil", "huile d'abrasin": "tung-oil",
		"brettöl": "board-oil", "schneidbrettöl": "board-oil", "mineralöl": "board-oil", "paraffinöl": "board-oil", "huile minérale": "board-oil", "huile pour planches": "board-oil", "snijplankolie": "board-oil", "minerale olie": "board-oil", "paraffineolie": "board-oil", "aceite mineral": "board-oil", "board oil": "board-oil", "butcher block oil": "board-oil",
		"dänisches öl": "oil-varnish-blend", "teaköl": "oil-varnish-blend", "huile danoise": "oil-varnish-blend", "huile de teck": "oil-varnish-blend", "deense olie": "oil-varnish-blend", "teakolie": "oil-varnish-blend", "aceite danés": "oil-varnish-blend", "aceite de teca": "oil-varnish-blend",
		"bootslack": "varnish", "kunstharzlack": "varnish", "oil varnish": "varnish", "spar varnish": "varnish",
		"wasserlack": "polyurethane-waterborne", "acryllack": "polyurethane-waterborne", "water-based varnish": "polyurethane-waterborne",
		"2k-lack": "polyurethane-2k", "2k lack": "polyurethane-2k", "2k-pu-lack": "polyurethane-2k", "2k-lak": "polyurethane-2k", "2k lak": "polyurethane-2k",
		"nitrolack": "nitrocellulose-lacquer", "nitro lacquer": "nitrocellulose-lacquer", "nitrocellulose": "nitrocellulose-lacquer", "vernis nitrocellulosique": "nitrocellulose-lacquer", "nitrolak": "nitrocellulose-lacquer", "laca nitrocelulósica": "nitrocellulose-lacquer",
		"schellack": "shellac", "schellackpolitur": "shellac", "gomme-laque": "shellac", "gomme laque": "shellac", "vernis au tampon": "shellac", "schellak": "shellac", "goma laca": "shellac", "goma-laca": "shellac",
		"wachs": "wax", "bienenwachs": "wax", "wachs allein": "wax", "cire": "wax", "cire d'abeille": "wax", "was": "wax", "bijenwas": "wax", "cera": "wax", "cera de abejas": "wax", "wax polish": "wax",
		"seife": "soap", "savon": "soap", "savon noir": "soap", "zeep": "soap", "jabón": "soap", "soap flakes": "soap",
		"epoxy resin": "epoxy-topcoat", "epoxidharz": "epoxy-topcoat", "résine époxy": "epoxy-topcoat", "epoxyhars": "epoxy-topcoat", "resina epoxi": "epoxy-topcoat",
		"unbehandelt": "bare", "roh": "bare", "natur": "bare", "brut": "bare", "non traité": "bare", "sans finition": "bare", "onbehandeld": "bare", "sin tratar": "bare", "sin acabado": "bare", "nothing": "bare", "raw": "bare", "untreated": "bare",
	}
})

// severalFinishes are such names that are of several families.
var severalFinishes = map[string][]string{
	"leinöl": {"linseed-oil-boiled", "linseed-oil-raw"}, "huile de lin": {"linseed-oil-boiled", "linseed-oil-raw"}, "lijnolie": {"linseed-oil-boiled", "linseed-oil-raw"}, "aceite de linaza": {"linseed-oil-boiled", "linseed-oil-raw"},
	"öl": {"hardwax-oil", "oil-varnish-blend", "linseed-oil-boiled", "tung-oil", "board-oil"}, "holzöl": {"hardwax-oil", "oil-varnish-blend", "linseed-oil-boiled", "tung-oil", "board-oil"}, "huile": {"hardwax-oil", "oil-varnish-blend", "linseed-oil-boiled", "tung-oil", "board-oil"}, "huile pour bois": {"hardwax-oil", "oil-varnish-blend", "linseed-oil-boiled", "tung-oil", "board-oil"}, "olie": {"hardwax-oil", "oil-varnish-blend", "linseed-oil-boiled", "tung-oil", "board-oil"}, "houtolie": {"hardwax-oil", "oil-varnish-blend", "linseed-oil-boiled", "tung-oil", "board-oil"}, "aceite": {"hardwax-oil", "oil-varnish-blend", "linseed-oil-boiled", "tung-oil", "board-oil"}, "aceite para madera": {"hardwax-oil", "oil-varnish-blend", "linseed-oil-boiled", "tung-oil", "board-oil"},
	"pu-lack": {"polyurethane-waterborne", "polyurethane-2k", "varnish"}, "pu lack": {"polyurethane-waterborne", "polyurethane-2k", "varnish"}, "vernis polyuréthane": {"polyurethane-waterborne", "polyurethane-2k", "varnish"}, "vitrificateur": {"polyurethane-waterborne", "polyurethane-2k", "varnish"}, "barniz de poliuretano": {"polyurethane-waterborne", "polyurethane-2k", "varnish"}, "pu-lak": {"polyurethane-waterborne", "polyurethane-2k", "varnish"}, "pu lak": {"polyurethane-waterborne", "polyurethane-2k", "varnish"},
	"vernis": {"varnish", "polyurethane-waterborne", "polyurethane-2k"}, "barniz": {"varnish", "polyurethane-waterborne", "polyurethane-2k"}, "klarlack": {"varnish", "polyurethane-waterborne", "polyurethane-2k"}, "vernis incolore": {"varnish", "polyurethane-waterborne", "polyurethane-2k"}, "blanke lak": {"varnish", "polyurethane-waterborne", "polyurethane-2k"},
	"lack": {"nitrocellulose-lacquer", "conversion-varnish", "polyurethane-2k"}, "laque": {"nitrocellulose-lacquer", "conversion-varnish", "polyurethane-2k"}, "laca": {"nitrocellulose-lacquer", "conversion-varnish", "polyurethane-2k"}, "lak": {"nitrocellulose-lacquer", "conversion-varnish", "polyurethane-2k"},
}
