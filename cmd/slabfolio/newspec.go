package main

import (
	"fmt"

	"slabfolio/imaging"
	"slabfolio/listing/piece"
	"slabfolio/templates"
)

// files are the spec and the shot list, by name.
func (n *fresh) files() (map[string][]byte, error) {
	words, err := templates.Open("en") // what only the maker reads is in English
	if err != nil {
		return nil, err
	}
	kind := ""
	if k := n.known.Key("kind"); k != nil {
		kind, _, _ = piece.ParseKind(k.Text)
	}
	if n.asked && n.known.Key("finished") == nil {
		n.known.Put("finished", piece.Plain(n.opts.Today.String()))
		n.told = append(n.told, "finished: today, "+n.opts.Today.String()+"; change it in piece.yaml if it was another day")
	}
	shots := piece.Shots(kind, words.Say)
	if n.allKeys && !n.asked && len(n.known.Keys) <= 2 && len(n.bursts) == 0 { // serial and kind are all there is
		return map[string][]byte{"piece.yaml": piece.Starter(kind, n.known.Key("serial").Text, words.Say), "SHOTS.md": shots}, nil
	}
	if !n.asked {
		fresh := piece.FreshAnswers(kind, n.known.Key("serial").Text)
		fresh.Merge(n.known)
		n.known = fresh
	}
	n.putBlends()
	write := piece.Short
	if n.allKeys {
		write = piece.AllKeys
	}
	return map[string][]byte{"piece.yaml": write(n.known, words.Say), "SHOTS.md": shots}, nil
}

// putBlends writes the bursts of the card as blends, unless the answers say
// something of photos themselves.
func (n *fresh) putBlends() {
	if len(n.bursts) == 0 || n.known.Find("photos.blends") != nil {
		return
	}
	list := &piece.Written{}
	taken := map[string]bool{}
	for _, b := range n.bursts {
		name := b.Name()
		for i := 2; taken[name]; i++ {
			name = fmt.Sprintf("%s-%d", b.Name(), i)
		}
		taken[name] = true
		frames := &piece.Written{}
		for _, f := range b.Frames {
			frames.Items = append(frames.Items, piece.Plain(f))
		}
		item := &piece.Written{Keys: []piece.WrittenKey{{Name: "name", Value: piece.Plain(name)}, {Name: "how", Value: piece.Plain(b.How)}, {Name: "frames", Value: frames}}}
		list.Items = append(list.Items, item)
		light := "in another light each"
		if b.How == "bracket" {
			light = "exposed otherwise each"
		}
		n.told = append(n.told, fmt.Sprintf("%d photos show one view, %s: %s to %s; piece.yaml blends them into one, %s. Take its lines under photos: blends out if that is wrong",
			len(b.Frames), light, b.Frames[0], b.Frames[len(b.Frames)-1], name))
	}
	n.known.Put("photos.blends", list)
}

// imagingOptions say how photos are looked at.
func (n *fresh) imagingOptions() *imaging.Options {
	return &imaging.Options{Pure: n.opts.Codecs == "pure", MaxPixels: n.opts.MaxMegapixels * 1_000_000}
}
