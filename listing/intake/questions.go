package intake

import (
	"cmp"
	"fmt"
	"maps"
	"strconv"
	"strings"

	"slabfolio/listing/piece"
	"slabfolio/listing/spelling"
)

// ofPiece are the questions on a piece, in the order in which a maker thinks of it.
var ofPiece = []question{
	{
		ask:      "What kind of piece is it?",
		example:  fixed("dining table"),
		more:     "One of: " + strings.Join(piece.Kinds, ", ") + ".\nSizes, packing and the shot list go by it.",
		proposal: earlier("kind"),
		moot:     has("kind"),
		take:     kind,
		needed:   true,
	}, {
		ask:      "What is it called?",
		example:  fixed("Estuary console table"),
		more:     "The name that stands on its papers and over the listing.",
		proposal: func(iv *Interview) string { return cmp.Or(capital(iv.called), capital(iv.text("kind"))) },
		moot:     has("title"),
		take:     plain("title"),
		needed:   true,
	}, {
		ask:     "How long is the top?",
		example: lengthExample,
		more: "The finished length, as you would say it: 84 in, 7 ft, 4' 6 1/2\", 137.2 cm. A number alone is in %UNITS%.\n" +
			"Length, width and thickness in one breath are welcome: 84 x 38 x 2. A round top: 36 in round.",
		moot:   outlined,
		take:   length,
		needed: true,
	}, {
		ask:     "How wide is it?",
		example: widthExample,
		more: "One width for straight sides; for live edges several, measured across at equal steps from one end to the other\n" +
			"with both ends included: 37 1/2, 38, 38 1/4, 37 in. The more there are, the truer the area and the weight.",
		moot:   func(iv *Interview) bool { return outlined(iv) || iv.text("top.outline.length") == "" },
		take:   width,
		needed: true,
	}, {
		ask:     "How thick is it?",
		example: thicknessExample,
		more:    "The finished thickness of the slab.",
		moot:    has("top.thickness"),
		take:    thickness,
		needed:  true,
	}, {
		ask:      "Which wood?",
		example:  fixed("black walnut"),
		more:     "Its common or botanical name; several with their shares: 70 % oak, 30 % walnut. Weight and movement hang on it.",
		proposal: earlierWood,
		moot:     has("top.wood"),
		take:     woods,
		needed:   true,
	}, {
		ask:     "Any resin, and how much of the face?",
		example: fixed(`smoke grey, 18 %`),
		more: "Its colour in your own words and its share of the top's face: smoke grey, 18 %. Or what was mixed: blue, mixed 5.6 l.\n" +
			"\"none\" when there is none.",
		moot: func(iv *Interview) bool { return !iv.resinSaid && has("top.resin")(iv) },
		take: resin,
	}, {
		ask:      "What does it stand on?",
		example:  baseExample,
		more:     "In your own words, with its height from the floor to the underside of the top and its weight where you know them; without a weight no weight of the piece can be given. \"none\" for a top alone.",
		proposal: earlierBase,
		moot:     func(iv *Interview) bool { return piece.NoSuchPart(iv.text("kind"), "base") || has("base")(iv) },
		take:     base,
	}, {
		ask:      "What finish?",
		example:  fixed("hardwax oil, 2 coats, satin"),
		more:     "The kind of finish, then coats, sheen or the name on the tin if you like: hardwax oil, 2 coats, satin. Care and curing go by the kind.",
		proposal: earlier("finish.family"),
		moot:     has("finish"),
		take:     finish,
	}, {
		ask:     "What do you ask for it?",
		example: func(iv *Interview) string { return strings.TrimSpace("1450 " + iv.Currency) },
		more:    "The figure alone, or with its currency: 1450 GBP. \"skip\" when it is not for sale, or not yet.",
		moot:    has("price"),
		take:    price,
	},
}

// Most is how many questions there are of a piece, at most.
func Most() int { return len(ofPiece) }

func fixed(text string) func(*Interview) string { return func(*Interview) string { return text } }

// text is what the spec holds at a path, or "".
func (iv *Interview) text(path string) string { return textAt(iv.Known, path) }

// textAt is the one value that stands at a path, or "".
func textAt(w *piece.Written, path string) string {
	if v := w.Find(path); v != nil && v.Single {
		return v.Text
	}
	return ""
}

// has reports whether something stands at a path already.
func has(path string) func(*Interview) bool {
	return func(iv *Interview) bool { return iv.Known.Find(path) != nil }
}

// earlier proposes what the earlier piece has.
func earlier(path string) func(*Interview) string {
	return func(iv *Interview) string {
		if iv.Earlier == nil {
			return ""
		}
		return textAt(iv.Earlier, path)
	}
}

// outlined reports whether the shape of the top is known.
func outlined(iv *Interview) bool {
	o := iv.Known.Find("top.outline")
	if o == nil {
		return false
	}
	return o.Key("diameter") != nil || o.Key("points") != nil || o.Key("photo") != nil || o.Key("length") != nil && (o.Key("width") != nil || o.Key("widths") != nil)
}

// plain takes an answer as it is.
func plain(path string) func(*Interview, string) said {
	return func(iv *Interview, text string) said {
		if like := piece.ReadsLike(text); like != "" && iv.insisted != text {
			iv.insisted = text
			return refused("write it in words; or say it again to keep it as it is", "%q reads like %s", text, like)
		}
		return iv.put(map[string]*piece.Written{path: piece.Plain(text)})
	}
}

// kind takes the kind of piece, as the parser reads it.
func kind(iv *Interview, text string) said {
	values := map[string]*piece.Written{"quantity": nil, "work": nil}
	maps.Copy(values, iv.also)
	iv.also = nil
	beside := map[string]*piece.Written{}
	read := func(text string) (string, string, error) {
		k, note, err := piece.ReadKind(text)
		if k.Count > 1 {
			beside["quantity"] = piece.Plain(strconv.Itoa(k.Count))
		}
		if k.Work != "" {
			beside["work"] = piece.Plain(k.Work)
		}
		maps.Copy(values, beside)
		return k.Kind, note, err
	}
	s := iv.word(text, read, values, "kind")
	if s.problem != nil {
		iv.also = beside
		return s
	}
	const slip = 3 // fewer letters than these tell one name from another
	if iv.called = text; spelling.Distance(spelling.Plain(text), spelling.Plain(iv.text("kind")), slip) < slip {
		iv.called = ""
	}
	if iv.text("kind") == "serving board" { // that it is for cutting is not proposed: its papers say the opposite
		iv.called = ""
	}
	if n := iv.text("quantity"); n != "" && values["quantity"] != nil {
		s.notes = append(s.notes, n+" of them: sizes and weights are those of one")
	}
	if w := iv.text("work"); w != "" && values["work"] != nil {
		s.notes = append(s.notes, w+", so no paper says that you made it")
	}
	return s
}

// word puts a word of the spec, as the parser reads it, beside other values. What
// was read is said where more than hyphens and capitals differ.
func (iv *Interview) word(text string, parse func(string) (string, string, error), values map[string]*piece.Written, path string) said {
	read, note, err := parse(text)
	if wrong, ok := err.(*piece.SetError); ok {
		return said{problem: wrong}
	}
	values[path] = piece.Plain(read)
	s := iv.put(values)
	if note != "" && spelling.Plain(read) != spelling.Plain(text) {
		s.notes = append(s.notes, note)
	}
	return s
}

func capital(text string) string {
	if text == "" || text == "other" {
		return ""
	}
	return spelling.Capital(text)
}

// refused is an answer that was not understood.
func refused(remedy, format string, args ...any) said {
	return said{problem: &piece.SetError{Message: fmt.Sprintf(format, args...), Remedy: remedy}}
}
