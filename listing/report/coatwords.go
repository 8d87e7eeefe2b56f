package report

import (
	"regexp"
	"strings"

	"slabfolio/listing/spelling"
)

// whole returns a pattern for words that stand by themselves, whatever letters they
// have; the words are its first group.
func whole(words string) func() *regexp.Regexp {
	return spelling.Pattern(`(?i)(?:^|[^\pL\d])(` + words + `)(?:$|[^\pL\d])`)
}

// coatNouns are what a coat is called, in the languages of the papers.
const coatNouns = `paints?|painted|varnish(?:es)?|lacquers?|finish(?:es)?|coats? of|coatings?|primers?|(?:öl|blei|lack|kalk|leim|wand)?farben?|\pL*anstriche?s?|(?:öl|klar|bunt|boots|möbel)?lacke?s?|lasur(?:en)?|peintures?|vernis|laques?|lasures?|finitions?|pinturas?|barnice?s?|barniz|lacas?|\pL*verf|(?:blanke?|meubel|boot)?lak|lakken|beits`

// oldCoatSaid are words for a coat that was on the wood before the maker had it, in the
// languages of the papers (common practice, no source): an old one, one of a year or of
// what the wood was before, what is left of one, and those that are called after lead.
var oldCoatSaid = whole(strings.Join([]string{
	`(?:old|original|unknown|ancient|earlier|previous|former|flaking|peeling|weathered|alte[rnms]?|unbekannte[rnms]?|anciens?|anciennes?|vieilles?|vieux|antigu[oa]s?|viej[oa]s?|oude?|onbekende|oorspronkelijke)\s+(?:\pL+\s+){0,2}(?:` + coatNouns + `)`,
	`(?:frühere[rnms]?|ursprüngliche[rnms]?)\s+(?:\pL+\s+){0,2}(?:\pL*anstrich|lack|lackierung|lasur)`,
	`(?:peintures?|vernis|laques?|lasures?|finitions?)\s+(?:\pL+\s+){0,2}(?:anciens?|anciennes?|inconnue?s?|originale?s?|d['’]origine|d['’]époque)`,
	`(?:pinturas?|barniz|barnices|lacas?|acabados?)\s+(?:\pL+\s+){0,2}(?:antigu[oa]s?|viej[oa]s?|original(?:es)?|desconocid[oa]s?)`,
	`(?:paint|varnish|lacquer|farbe|lack|anstrich|peinture|vernis|pintura|barniz|verf|lak)\s+(?:\pL+\s+){0,4}(?:is|are|ist|sind|est|es|zijn|stammt|dates?)\s+(?:\pL+\s+){0,3}(?:old|original|ancient|alt|ursprünglich|oud|oorspronkelijk|ancien(?:ne)?|antigu[oa]|viej[oa]|1[5-9]\d\ds?)`,
	`(?:paint|varnish|lacquer|farbe|lack|anstrich|peinture|vernis|pintura|barniz|verf|lak)\s+(?:\pL+\s+){0,5}(?:since|seit|depuis|desde|sinds)\s+(?:\pL+\s+)?1[5-9]\d\d`,
	`(?:old|original)\s+(?:\pL+\s+){0,2}(?:limewash|whitewash|distemper)`,
	`(?:barn|boat|ship|door|house|factory|floor|wall)\s+(?:paint|varnish)`,
	`(?:paint|varnish|lacquer|farbe|lack|anstrich|peinture|vernis|pintura|barniz|verf|lak)\s+(?:of|from|von|aus|vom|de|van|uit)\s+(?:\pL+\s+){0,2}(?:1[5-9]\d\ds?|barn|boat|ship|house|door|before|earlier|früher|avant|antes|vroeger|tür|porte|puerta|deur|scheune|boot|schiff|haus|grange|bateau|granero|barco|schuur|boot)`,
	`(?:traces?|remains|remnants|flakes|residues?|reste|spuren|restes|restos|resten|sporen)\s+(?:of|von|de|van)\s+(?:\pL+\s+){0,2}(?:paint|varnish|lacquer|farbe|lack|peinture|vernis|pintura|barniz|verf|lak)`,
	`(?:farb|lack|anstrich)(?:reste|spuren)|(?:verf|lak)(?:resten|sporen)|alt(?:anstriche?|lacke?|farben?)`,
	`red lead|white lead|lead[- ](?:based )?paint|lead[- ]white|(?:blei)?mennige|bleiweiß|bleifarben?|minium|céruse|peinture au plomb|minio|albayalde|pintura de plomo|loodmenie|loodwit|loodverf`,
}, "|"))

// What says that such a coat is gone; that it is there all the same, or that a part of
// it is; what denies or doubts; and that somebody looked for lead in it and found none,
// in the languages of the papers (from memory).
var (
	coatGone   = whole(`removed|stripped|(?:sanded|scraped|taken|planed|cleaned|ground|burnt|burned) (?:off|away)|gone|entfernt|abgeschliffen|abgebeizt|abgenommen|abgehobelt|abgekratzt|enlevée?s?|décapée?s?|retirée?s?|poncée?s?|eliminad[oa]s?|quitad[oa]s?|lijad[oa]s?|retirad[oa]s?|verwijderd|afgeschuurd|afgebeten|afgeschaafd`)
	coatStays  = whole(`not (?:to )?(?:remove|strip|sand|touch)|untouched|unberührt|traces?|remain(?:s|ed|ing)?|remnants?|flakes|left|rests?|still|underside|keeps?|kept|bears?|wears?|carries|shows?|showing|visible|preserved|spuren|reste|noch|unterseite|trägt|zeigt|sichtbar|bleibt|geblieben|belassen|erhalten|behalten|behält|restes?|encore|dessous|porte|garde|gardée?s?|conserve|conservée?s?|laissée?s?|montre|visibles?|restos|todavía|aún|conservad[oa]s?|queda|quedan|lleva|muestra|resten|sporen|nog|onderkant|draagt|toont|zichtbaar|bewaard|behouden|gelaten|blijft|gebleven`)
	coatPart   = whole(`where|loose|as (?:far|much|well)|what was|wo|lose[nrs]?|soweit|là où|autant|donde|suelt[oa]s?|waar|losse?|voor zover|part|parts|partly|partially|partial|mostly|mainly|largely|nearly|almost|half|some|most|much|only|except|but for|apart from|besides|elsewhere|hardly|(?:everything|all|anywhere|everywhere) but|all save|save for|todo menos|teils|teilweise|größtenteils|meist|fast|halb|nur|bis auf|außer|sonst|zum teil|en partie|partiellement|presque|à moitié|sauf|seulement|uniquement|ailleurs|sólo|solo|solamente|en parte|parcialmente|casi|salvo|excepto|deels|gedeeltelijk|grotendeels|bijna|half|alleen|behalve|op .* na`)
	denied     = whole(`not?|never|none|nothing|nobody|neither|nor|cannot|\pL+n['’]t|without|unless|untested|unproven|nicht|nie|niemals|niemand|kein\pL*|ohne|ungeprüft|kaum|ne|n|pas|jamais|non|aucune?|sans|ni|nunca|jamás|sin|nadie|ningun[oa]?|ningún|niet|nooit|geen|zonder|niemand|nauwelijks`)
	doubtful   = whole(`seller|dealer|(?:previous|former) owner|heirs|they say|it is said|claim\pL*|verkäufer\pL*|händler\pL*|vorbesitzer\pL*|vendeurs?|vendeuse|vendedora?|verkoper|to be|will|would|shall|should|can|could|may|might|must|needs?|if|whether|until|before it|supposed\pL*|probabl[ey]|perhaps|maybe|likely|hopefully|believed|presumabl[ey]|unknown|soll\pL*|muss|müsste|kann|könnte|ob|wenn|falls|wohl|vielleicht|vermutlich|angeblich|wahrscheinlich|doit|devrait|peut|pourrait|si|sera|peut-être|probablement|debe|debería|puede|podría|será|quizás?|probablemente|moet|kan|zou|wordt|als|misschien|waarschijnlijk|vermoedelijk`)
	noLead     = whole(`lead[- ]free|no lead|free (?:of|from) lead|without lead|bleifrei|kein blei|frei von blei|ohne blei|sans plomb|sin plomo|loodvrij|geen lood|zonder lood`)
	nothingOf  = whole(`(?:nothing|none|no traces?|nichts|keine (?:reste|spuren)|niets|geen (?:resten|sporen))(?: (?:of it|is|was|davon|ist|mehr|ervan))* (?:left|remains|remained|übrig|over)|(?:without|not) (?:a )?trace|ohne (?:reste|spuren)|sans (?:restes?|traces?)|sin restos|zonder (?:resten|sporen)`)
	noCoatHere = spelling.Pattern(`(?i)(?:^|[^\pL])(?:no|nowhere|without|free of|kein\pL*|ohne|aucune?|sans|pas d(?:e|['’])|sin|ningun[oa]|ningún|geen|zonder)\s*(?:(?:any|traces?|remains|of|spuren|reste|von|traces?|restes?|d(?:e|['’])|restos|resten|sporen|van)\s*){0,4}$`)
	coatInTin  = spelling.Pattern(`(?i)^[- ](?:tins?|cans?|pots?|brush(?:es)?|buckets?|box(?:es)?|lids?|shops?|factory|store|maker)(?:$|[^\pL])`)
	tinOfCoat  = spelling.Pattern(`(?i)(?:^|[^\pL])(?:tins?|cans?|pots?|brush(?:es)?|buckets?|dosen?|eimer|töpfe|topf|boîtes?|lata|bote|blik|emmer)\s+(?:(?:of|with|von|mit|de|van|met)\s+)?$`)
	ownCoat    = whole(`our|we|us|\pL*oils?|wax(?:es)?|resins?|topcoat|glue|unser\pL*|wir|\pL*öle?s?|\pL*wachs|harz|notre|nos|nous|huiles?|cires?|résines?|nuestr[oa]s?|aceites?|ceras?|resinas?|onze?|ons|\pL*olie|\pL*was|hars`)
	otherCoat  = spelling.Pattern(`(?i)^[- ](?:\pL+ ){0,2}(?:` + coatNouns + `)(?:$|[^\pL])`)
	coatNoun   = whole(coatNouns)
	places     = whole(`tops?|faces?|sides?|edges?|undersides?|upper|backs?|fronts?|ends?|legs?|base|places?|here|\pL*blatt|\pL*platte|\pL*seiten?|\pL*kanten?|flächen?|oben|unten|vorn|stellen|plateau|dessus|dessous|chants?|bords?|côtés?|endroits|tablero|caras?|cantos?|arriba|abajo|partes|blad|zijden?|zijkant|bovenkant|boven|onder|plekken`)
	everywhere = whole(`all|both|every|everywhere|whole|entire|beide[nr]?|allen?|ganze[nrs]?|überall|toutes?|tous|partout|deux|tod[oa]s?|amb[oa]s|allebei|hele|overal`)
	otherThing = whole(`where|when|while|whose|holes?|nails?|screws?|bolts?|staples?|bark|rust|dirt|moss|wo|wenn|löcher\pL*|nägel\pL*|schrauben|rinde|rost|schmutz|où|quand|trous?|clous?|vis|écorce|rouille|donde|cuando|agujeros?|clavos?|tornillos?|corteza|óxido|waar|gaten|spijkers?|schroeven|schors|roest`)
	fillers    = spelling.Pattern(`(?i)^(?:it|its|all|is|are|was|were|has|have|had|been|of|that|which|they|since|then|now|later|long|we|i|but|and|the|this|fully|completely|entirely|carefully|wholly|by|hand|both|paint|varnish|lacquer|finish|coats?|ist|sind|war|waren|wurden?|ganz|komplett|vollständig|restlos|sauber|inzwischen|wir|haben|habe|sie|er|es|alles|und|aber|von|uns|mir|mit|der|die|das|dem|farbe|lack|anstrich|abbeizer|complètement|entièrement|elles?|ils?|est|sont|a|ont|été|nous|avons|on|l|la|le|les|tout|toute|puis|depuis|et|mais|par|peinture|vernis|completamente|totalmente|por|completo|del|todo|toda|ha|han|sido|fue|está|hemos|y|pintura|barniz|volledig|helemaal|geheel|werd|is|zijn|hebben|hij|door|ons|met|en|maar|verf|lak|[^\pL]*)$`)
	clauseEnds = spelling.Pattern(`[,;:()–—]+|\.\s`)
)
