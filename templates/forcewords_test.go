package templates

// A said is one thing that a caution has to say: for each language its words, any one
// of which will do. Words are looked for in small letters.
type said map[string][]string

// Commands and prohibitions, as furniture makers put them in each language (common
// practice of the trade, no source).
var (
	notCertified = said{"en": {"not certified"}, "de": {"nicht für direkten kontakt mit lebensmitteln zertifiziert"}, "fr": {"pas certifié", "non certifié"}, "es": {"no está certificad", "no certificad"}, "nl": {"niet gecertificeerd"}}
	contact      = said{"en": {"direct food contact"}, "de": {"direkten kontakt mit lebensmitteln"}, "fr": {"contact direct avec les aliments"}, "es": {"contacto directo con alimentos"}, "nl": {"direct contact met voedsel"}}
	noFood       = said{"en": {"let no food", "no food on"}, "de": {"keine lebensmittel darauf"}, "fr": {"aucun aliment", "pas d’aliments"}, "es": {"no ponga alimentos", "sin alimentos encima"}, "nl": {"geen voedsel"}}
	foodOff      = said{"en": {"keep food off"}, "de": {"lebensmittel davon fern"}, "fr": {"aucun aliment"}, "es": {"mantenga los alimentos lejos", "manténgalos lejos"}, "nl": {"houd voedsel ervan weg"}}
	beforeDay    = said{"en": {"before {{.to}}", "before the day"}, "de": {"vor dem {{.to}}", "vor dem tag"}, "fr": {"avant le {{.to}}", "avant le jour"}, "es": {"antes del {{.to}}", "antes del día"}, "nl": {"vóór {{.to}}", "vóór de dag"}}
	untilDay     = said{"en": {"until {{.to}}", "until the sheet’s date"}, "de": {"bis zum {{.to}}", "bis zu dem tag"}, "fr": {"jusqu’au {{.to}}", "avant le jour"}, "es": {"hasta el {{.to}}", "hasta el día"}, "nl": {"tot {{.to}}", "tot de dag"}}
	whiteCloth   = said{"en": {"as long as a white cloth"}, "de": {"solange ein weißes tuch"}, "fr": {"tant qu’un chiffon blanc"}, "es": {"mientras un paño blanco"}, "nl": {"zolang een witte doek"}}
	untested     = said{"en": {"board itself is not tested"}, "de": {"brett selbst ist nicht geprüft"}, "fr": {"planche elle-même n’a pas été testée"}, "es": {"tabla en sí no está ensayada"}, "nl": {"plank zelf is niet getest"}}
	askDoctor    = said{"en": {"ask a doctor"}, "de": {"einen arzt fragen", "fragen sie einen arzt"}, "fr": {"à un médecin"}, "es": {"a un médico"}, "nl": {"een arts"}}
	first        = said{"en": {"first", "before you use"}, "de": {"erst einen", "erst prüfen", "bevor sie das stück benutzen"}, "fr": {"d’abord", "avant de vous en servir"}, "es": {"antes"}, "nl": {"eerst", "voordat u het gebruikt"}}
	nutAllergy   = said{"en": {"nut allergy"}, "de": {"nussallergie"}, "fr": {"aux fruits à coque"}, "es": {"alergia a los frutos secos"}, "nl": {"notenallergie"}}

	spreadFlat = said{"en": {"out flat", "dry them flat"}, "de": {"im freien flach", "flach ausgebreitet im freien"}, "fr": {"étalez-les à plat", "étalés à plat"}, "es": {"extiéndalos planos", "extendidos y planos"}, "nl": {"spreid ze vlak", "vlak uitgespreid"}}
	openAir    = said{"en": {"open air", "in the open"}, "de": {"im freien"}, "fr": {"en plein air"}, "es": {"al aire libre"}, "nl": {"in de open lucht"}}
	inWater    = said{"en": {"under water"}, "de": {"unter wasser"}, "fr": {"sous l’eau"}, "es": {"bajo agua"}, "nl": {"onder water"}}
	metalCan   = said{"en": {"closed metal can"}, "de": {"verschlossenes metallgefäß", "verschlossenen metallgefäß"}, "fr": {"récipient métallique fermé"}, "es": {"recipiente metálico cerrado"}, "nl": {"gesloten metalen blik"}}
	notHeaped  = said{"en": {"never leave them crumpled"}, "de": {"nie zusammengeknüllt"}, "fr": {"jamais en boule"}, "es": {"no los deje nunca arrugados"}, "nl": {"nooit in een prop"}}
	byItself   = said{"en": {"by themselves"}, "de": {"von selbst", "sich selbst"}, "fr": {"d’eux-mêmes"}, "es": {"solos"}, "nl": {"vanzelf"}}
	catchFire  = said{"en": {"catch fire"}, "de": {"in brand geraten", "entzünden"}, "fr": {"prendre feu"}, "es": {"prenderse fuego"}, "nl": {"vlam vatten"}}

	lungs     = said{"en": {"not belong in the lungs"}, "de": {"gehört nicht in die lunge"}, "fr": {"ne doit pas entrer dans les poumons"}, "es": {"no debe entrar en los pulmones"}, "nl": {"hoort niet in de longen"}}
	mask      = said{"en": {"mask"}, "de": {"feinstaubmaske"}, "fr": {"masque"}, "es": {"mascarilla"}, "nl": {"masker"}}
	ffp2      = said{"en": {"ffp2 or n95"}, "de": {"ffp2 oder n95"}, "fr": {"ffp2 ou n95"}, "es": {"ffp2 o n95"}, "nl": {"ffp2 of n95"}}
	vacuum    = said{"en": {"vacuum cleaner"}, "de": {"staubsauger"}, "fr": {"aspirateur"}, "es": {"aspiradora"}, "nl": {"stofzuiger"}}
	dampCloth = said{"en": {"damp cloth"}, "de": {"feuchten tuch"}, "fr": {"chiffon humide"}, "es": {"paño húmedo"}, "nl": {"vochtige doek"}}
	freshAir  = said{"en": {"open air", "fresh air"}, "de": {"im freien", "frische luft"}, "fr": {"en plein air", "plein air"}, "es": {"aire libre"}, "nl": {"open lucht", "frisse lucht"}}

	oneLifts     = said{"en": {"one person can"}, "de": {"eine person"}, "fr": {"une personne"}, "es": {"una persona"}, "nl": {"één persoon", "eén persoon"}}
	twoLift      = said{"en": {"two people", "take a second", "two on stairs", "two are better"}, "de": {"zu zweit", "zwei personen"}, "fr": {"à deux", "deux personnes", "être deux"}, "es": {"entre dos", "dos personas"}, "nl": {"z’n tweeën", "twee mensen", "op de trap twee"}}
	tooMuch      = said{"en": {"more than two people should lift"}, "de": {"als zwei personen heben sollten"}, "fr": {"que ce que deux personnes devraient soulever"}, "es": {"más de lo que deberían levantar dos personas"}, "nl": {"meer dan twee mensen horen te tillen"}}
	tooHeavy     = said{"en": {"too heavy for two"}, "de": {"zu schwer für zwei"}, "fr": {"trop lourd pour deux"}, "es": {"demasiado pesada para dos"}, "nl": {"te zwaar voor twee"}}
	trolley      = said{"en": {"trolley"}, "de": {"transportwagen"}, "fr": {"un chariot"}, "es": {"carro de transporte"}, "nl": {"transportwagen"}}
	notByHand    = said{"en": {"not to be lifted by hand"}, "de": {"nicht von hand"}, "fr": {"ne doit pas être soulevé à la main", "ne pas soulever à la main"}, "es": {"no debe levantarse a mano", "no levantar a mano"}, "nl": {"niet met de hand"}}
	palletTruck  = said{"en": {"pallet truck"}, "de": {"hubwagen"}, "fr": {"transpalette"}, "es": {"transpaleta"}, "nl": {"palletwagen"}}
	hoist        = said{"en": {"hoist"}, "de": {"hebezeug"}, "fr": {"palan"}, "es": {"polipasto"}, "nl": {"takel"}}
	mover        = said{"en": {"mover"}, "de": {"umzugsunternehmen"}, "fr": {"déménageur"}, "es": {"empresa de mudanzas"}, "nl": {"verhuizer"}}
	neverByEnds  = said{"en": {"never by the ends of the top"}, "de": {"nie an den enden der platte"}, "fr": {"jamais par les extrémités du plateau"}, "es": {"nunca por los extremos del tablero"}, "nl": {"nooit aan de uiteinden van het blad"}}
	closeToBody  = said{"en": {"close to the body"}, "de": {"dicht am körper"}, "fr": {"près du corps"}, "es": {"al cuerpo"}, "nl": {"dicht bij het lichaam"}}
	bothHands    = said{"en": {"both hands"}, "de": {"beiden händen"}, "fr": {"des deux mains"}, "es": {"ambas manos"}, "nl": {"beide handen"}}
	withCare     = said{"en": {"with care"}, "de": {"mit vorsicht"}, "fr": {"avec précaution"}, "es": {"con cuidado"}, "nl": {"voorzichtig"}}
	onStairs     = said{"en": {"stairs"}, "de": {"treppen"}, "fr": {"escalier"}, "es": {"escaleras"}, "nl": {"trap"}}
	baseOffFirst = said{"en": {"take the base off"}, "de": {"nehmen sie das gestell ab", "das gestell abnehmen"}, "fr": {"démontez le piètement", "démonter le piètement"}, "es": {"desmonte la base"}, "nl": {"haal het onderstel eraf"}}
	evenBaseOff  = said{"en": {"even then", "even with the base off"}, "de": {"auch dann", "auch ohne gestell"}, "fr": {"même alors", "même piètement démonté"}, "es": {"aun así", "incluso con la base desmontada"}, "nl": {"ook dan", "ook met het onderstel eraf"}}
	setDownSoft  = said{"en": {"something soft"}, "de": {"etwas weichem"}, "fr": {"quelque chose de doux"}, "es": {"algo blando"}, "nl": {"iets zachts"}}

	notSit     = said{"en": {"do not sit or lean", "sitting or leaning", "not out on the end", "sitting out on an end"}, "de": {"setzen oder stützen sie sich nicht", "setzen oder stützen", "nicht außen auf das ende", "sich außen auf ein ende setzen"}, "fr": {"ne vous asseyez pas et ne vous appuyez pas", "s’asseoir", "pas à l’extrémité"}, "es": {"no se siente ni se apoye", "sentarse", "no en el extremo"}, "nl": {"ga niet op het uiteinde", "zitten", "niet op het uiteinde"}}
	canTip     = said{"en": {"can tip"}, "de": {"kann sie kippen", "kann kippen", "kann es umwerfen"}, "fr": {"peut basculer", "peut le renverser"}, "es": {"puede volcar"}, "nl": {"kantelen", "omgooien"}}
	tall       = said{"en": {"tall for its depth"}, "de": {"hoch für seine tiefe"}, "fr": {"haut pour sa profondeur"}, "es": {"alta para su fondo"}, "nl": {"hoog voor zijn diepte"}}
	children   = said{"en": {"children"}, "de": {"kinder"}, "fr": {"enfants"}, "es": {"niños"}, "nl": {"kinderen"}}
	toTheWall  = said{"en": {"fixed to the wall"}, "de": {"an der wand befestigen"}, "fr": {"fixer au mur"}, "es": {"fijen a la pared"}, "nl": {"aan de muur"}}
	knowsWall  = said{"en": {"knows the wall"}, "de": {"mit der wand auskennt"}, "fr": {"connaît ce type de mur"}, "es": {"conozca ese tipo de pared"}, "nl": {"dit soort muur kent"}}
	forTheWall = said{"en": {"fixings made for that wall"}, "de": {"für diese wand"}, "fr": {"fixations prévues pour ce mur"}, "es": {"fijaciones hechas para esa pared"}, "nl": {"voor die muur"}}
	forWeight  = said{"en": {"weight of the piece"}, "de": {"gewicht des stücks"}, "fr": {"poids du meuble"}, "es": {"peso de la pieza"}, "nl": {"gewicht van het stuk"}}
	notStand   = said{"en": {"do not stand", "standing"}, "de": {"stellen sie sich nicht darauf", "sich daraufstellen"}, "fr": {"ne montez pas dessus", "monter debout"}, "es": {"no se ponga de pie", "ponerse de pie"}, "nl": {"ga er niet op staan", "erop staan"}}
	notClimb   = said{"en": {"climb"}, "de": {"klettern"}, "fr": {"grimpe"}, "es": {"trep"}, "nl": {"klim"}}
	closeIt    = said{"en": {"close it before", "close the drawer before"}, "de": {"schließen sie sie, bevor", "schublade schließen, bevor"}, "fr": {"fermez-le avant", "fermer le tiroir avant"}, "es": {"ciérrelo antes", "cierre el cajón antes"}, "nl": {"sluit de lade voordat"}}
	notLean    = said{"en": {"do not lean on an open drawer", "never lean on it open"}, "de": {"stützen sie sich nicht auf eine offene", "nie auf eine offene"}, "fr": {"ne vous appuyez pas sur un tiroir ouvert", "ne jamais s’appuyer sur un tiroir ouvert"}, "es": {"no se apoye en un cajón abierto", "no se apoye nunca en un cajón abierto"}, "nl": {"leun niet op een open lade", "leun nooit op een open lade"}}
	lead       = said{"en": {"can hold lead"}, "de": {"kann blei sein"}, "fr": {"peut contenir du plomb"}, "es": {"puede contener plomo"}, "nl": {"kan lood zitten"}}
	notSanded  = said{"en": {"do not sand"}, "de": {"schleifen, kratzen oder erhitzen sie sie nicht", "nicht schleifen"}, "fr": {"ne la poncez pas", "ne pas poncer"}, "es": {"no la lije", "no lije"}, "nl": {"schuur, krab of verhit die niet", "niet schuren"}}
	notHeated  = said{"en": {"or heat it"}, "de": {"oder erhitzen"}, "fr": {"ne la chauffez pas", "ni chauffer"}, "es": {"ni la caliente", "ni caliente"}, "nl": {"of verhit"}}
	haveTested = said{"en": {"have it tested"}, "de": {"lassen sie sie prüfen", "prüfen lassen"}, "fr": {"faites-la analyser", "la faire analyser"}, "es": {"hágala analizar"}, "nl": {"laat de laag onderzoeken", "eerst onderzoeken"}}
	notKnock   = said{"en": {"do not knock", "knocking the glass"}, "de": {"stoßen sie nicht", "an das glas stoßen"}, "fr": {"ne le heurtez pas", "heurter le verre"}, "es": {"no lo golpee", "golpear el vidrio"}, "nl": {"stoot er niet tegen", "tegen het glas stoten"}}
	cracked    = said{"en": {"chipped or cracked"}, "de": {"angeschlagen oder gesprungen"}, "fr": {"ébréché ou fêlé"}, "es": {"desportillado o agrietado"}, "nl": {"beschadigd of gebarsten"}}
	stopUsing  = said{"en": {"stop using it"}, "de": {"benutzen sie es nicht mehr"}, "fr": {"ne vous en servez plus"}, "es": {"deje de usarlo"}, "nl": {"gebruik het niet meer"}}

	nothingHot = said{"en": {"nothing hot", "no hot pans"}, "de": {"nichts heißes", "keine heißen"}, "fr": {"rien de chaud", "pas de casseroles"}, "es": {"nada caliente", "ni sartenes"}, "nl": {"niets heets", "geen hete"}}
	hotListed  = said{"en": {"anything hot", "hot pans or dishes without"}, "de": {"heißes ", "heiße töpfe oder schüsseln ohne"}, "fr": {"tout objet chaud", "plats chauds sans"}, "es": {"cualquier cosa caliente", "fuentes calientes sin"}, "nl": {"iets heets", "schalen zonder"}}
	fromStove  = said{"en": {"stove"}, "de": {"vom herd"}, "fr": {"du feu"}, "es": {"del fuego"}, "nl": {"van het vuur"}}
	fromOven   = said{"en": {"oven"}, "de": {"aus dem ofen"}, "fr": {"du four"}, "es": {"del horno"}, "nl": {"uit de oven"}}
	trivet     = said{"en": {"trivet"}, "de": {"untersetzer"}, "fr": {"dessous-de-plat"}, "es": {"salvamanteles"}, "nl": {"onderzetter"}}
	candle     = said{"en": {"candle"}, "de": {"kerze"}, "fr": {"bougie"}, "es": {"vela"}, "nl": {"kaars"}}
	watched    = said{"en": {"never leave one alone", "left alone"}, "de": {"unbeaufsichtigt"}, "fr": {"sans surveillance"}, "es": {"sin vigilar"}, "nl": {"onbewaakt"}}

	forServing = said{"en": {"for serving"}, "de": {"zum servieren"}, "fr": {"pour servir"}, "es": {"para servir"}, "nl": {"om te serveren", "om op te serveren"}}
	sameFace   = said{"en": {"keep to the one face"}, "de": {"immer auf derselben seite"}, "fr": {"toujours la même face"}, "es": {"siempre la misma cara"}, "nl": {"altijd dezelfde kant"}}
	dishwasher = said{"en": {"dishwasher"}, "de": {"spülmaschine"}, "fr": {"lave-vaisselle"}, "es": {"lavavajillas"}, "nl": {"vaatwasser"}}
	soak       = said{"en": {"soak"}, "de": {"einweichen"}, "fr": {"tremp"}, "es": {"remojo"}, "nl": {"weken"}}
	oven       = said{"en": {"oven"}, "de": {"ofen"}, "fr": {"four"}, "es": {"horno"}, "nl": {"oven"}}
	microwave  = said{"en": {"microwave"}, "de": {"mikrowelle"}, "fr": {"micro-ondes"}, "es": {"microondas"}, "nl": {"magnetron"}}

	formaldehyde = said{"en": {"formaldehyde"}, "de": {"formaldehyd"}, "fr": {"formaldéhyde"}, "es": {"formaldehído"}, "nl": {"formaldehyde"}}
	airIt        = said{"en": {"air the room well"}, "de": {"raum gut lüften", "lüften sie den raum"}, "fr": {"aérez bien la pièce", "bien aérer la pièce"}, "es": {"ventile bien la habitación"}, "nl": {"lucht de kamer goed"}}
	nobodySleeps = said{"en": {"nobody sleep", "out of rooms where somebody sleeps"}, "de": {"niemanden dort schlafen", "nicht in einen raum, in dem jemand schläft"}, "fr": {"personne n’y dorme", "ne mettez pas le meuble avant ce jour dans une pièce où quelqu’un dort"}, "es": {"nadie duerma", "no ponga la pieza donde duerma alguien"}, "nl": {"niemand slapen", "niet in een kamer waar iemand slaapt"}}
	theLabel     = said{"en": {"label"}, "de": {"etikett", "kennzeichnung"}, "fr": {"étiquet"}, "es": {"etiqueta"}, "nl": {"label"}}
	keepPapers   = said{"en": {"keep its papers", "keep the papers"}, "de": {"papiere beim stück auf", "seine papiere auf"}, "fr": {"gardez ses papiers", "gardez les papiers", "garder ses papiers"}, "es": {"guarde sus papeles", "guarde los papeles"}, "nl": {"bewaar de papieren"}}
	checkList    = said{"en": {"check the current list"}, "de": {"in der aktuellen liste nach"}, "fr": {"consultez la liste en vigueur"}, "es": {"consulte la lista vigente"}, "nl": {"kijk de geldende lijst na"}}
	askBefore    = said{"en": {"ask before", "ask the authority"}, "de": {"nachfragen, bevor", "fragen sie die behörde"}, "fr": {"demander avant", "demandez à l’autorité"}, "es": {"pregunte antes", "pregunte a la autoridad"}, "nl": {"vraag het na voordat", "vraag de instantie"}}
	strictest    = said{"en": {"strictest list"}, "de": {"strengsten liste"}, "fr": {"liste la plus stricte"}, "es": {"lista más estricta"}, "nl": {"strengste lijst"}}
	localRules   = said{"en": {"the rules where you live"}, "de": {"vorschriften an ihrem ort"}, "fr": {"règles en vigueur chez vous"}, "es": {"normas del lugar donde vive"}, "nl": {"regels waar u woont"}}
	ownSheet     = said{"en": {"own sheet", "sheet of every product"}, "de": {"merkblatt jedes produkts"}, "fr": {"notice de chaque produit"}, "es": {"ficha de cada producto"}, "nl": {"voorschriften van elk product"}}
	goFirst      = said{"en": {"come first", "go before"}, "de": {"gehen vor", "gehen dem vor"}, "fr": {"priment"}, "es": {"prioridad"}, "nl": {"gaan voor"}}
	notForFood   = said{"en": {"not certified for food"}, "de": {"nicht für lebensmittel zertifiziert"}, "fr": {"pas certifiée pour les aliments"}, "es": {"no está certificada para alimentos"}, "nl": {"niet gecertificeerd voor voedsel"}}
	never        = said{"en": {"never"}, "de": {"nie "}, "fr": {"jamais"}, "es": {"nunca"}, "nl": {"nooit"}}
)
