package piece

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"slabfolio/listing/piece/yamltext"
)

// explain puts the error of an edit into a maker's words.
func (a *Assignment) explain(file string, err error) error {
	edit := "change it in " + file
	switch {
	case errors.Is(err, yamltext.ErrSlips):
		return &SetError{file + " has slips that have to be mended first", "slabfolio check says which"}
	case errors.Is(err, yamltext.ErrRemarks):
		return &SetError{fmt.Sprintf("there are remarks (#) among the lines of %s, which would be lost", a.Path), edit}
	case errors.Is(err, yamltext.ErrNoGroup):
		return &SetError{fmt.Sprintf("%s cannot be put in: one value stands where it needs keys", a.Path), edit}
	case errors.Is(err, yamltext.ErrWhich):
		return &SetError{fmt.Sprintf("%s can be any of several entries", a.Path), "say which, counted from 1, like this: " + a.numbered()}
	case errors.Is(err, yamltext.ErrNoEntry):
		return &SetError{fmt.Sprintf("there is no entry %s", a.Path), edit}
	case errors.Is(err, yamltext.ErrNotSound) && a.remove:
		return &SetError{fmt.Sprintf("%s cannot be taken out without changing something else", a.Path), edit}
	case errors.Is(err, yamltext.ErrNotSound):
		return &SetError{fmt.Sprintf("%s cannot be put in without changing something else", a.Path), edit}
	}
	return err
}

// beside puts a value beside one that stands for its whole group: a share beside the
// species of wood: white oak, which becomes wood: {species: white oak, share: 60 %}. It
// returns the error that it was called for where nothing of the kind stands there.
func (a *Assignment) beside(ctx context.Context, data []byte, known func(key string) bool, was error) (*yamltext.Change, error) {
	at := strings.LastIndexByte(a.Path, '.')
	if at < 0 || a.Path[:at] != "top.wood" {
		return nil, was
	}
	w, err := ParseWritten("", data)
	if err != nil || w.Find("top.wood") == nil || !w.Find("top.wood").Single {
		return nil, was
	}
	group, err := yamltext.Set(ctx, data, a.way[:len(a.way)-1], "{species: "+yamltext.Quote(w.Find("top.wood").Text, true, "")+"}", true, known)
	if err != nil {
		return nil, was
	}
	c, err := yamltext.Set(ctx, group.Data, a.way, a.Value, a.raw, known)
	if err == nil {
		c.Before = group.Before
	}
	return c, err
}

// numbered is the path with a number behind its first list.
func (a *Assignment) numbered() string {
	keys, out := pieceKeys, []string{}
	counted := false
	for _, part := range strings.Split(a.Path, ".") {
		k := find(keys, part)
		if k != nil && k.Many == oneOrList && !counted {
			part, counted = part+"[1]", true
		}
		if out = append(out, part); k != nil {
			keys = k.Keys
		}
	}
	return strings.Join(out, ".")
}
