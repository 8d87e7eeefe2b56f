package archive

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"golang.org/x/text/unicode/norm"
)

// aliases finds files whose names a system has spelt anew: with accents composed
// or taken apart. RFC 8493, section 6.1.3 wants that borne.
func (b *bag) aliases() {
	listed := map[string]bool{}
	for _, m := range slices.Concat(b.payload, b.tags) {
		for _, e := range m.entries {
			listed[e.path] = true
		}
	}
	there := map[string][]string{}
	for name := range b.files {
		if !listed[name] {
			there[norm.NFC.String(name)] = append(there[norm.NFC.String(name)], name)
		}
	}
	for name := range listed {
		found := there[norm.NFC.String(name)]
		if _, ok := b.files[name]; !ok && len(found) == 1 && b.odd[name] == "" {
			b.alias[name] = found[0]
		}
	}
	for _, name := range slices.Sorted(maps.Keys(b.alias)) {
		b.verdict.warn(Name, name, fmt.Sprintf("%q stands on the disk with its accents written another way; its content decides", clip(name)))
	}
}

// at is where a listed file is.
func (b *bag) at(name string) (string, bool) {
	if a, ok := b.alias[name]; ok {
		name = a
	}
	_, ok := b.files[name]
	return name, ok
}

// complete checks that what is listed is there and that what is there is listed.
func (b *bag) complete() {
	v := b.verdict
	seen := map[string]string{} // folded name to a listed name that is there
	for _, m := range b.payload {
		for _, e := range m.entries {
			if _, ok := b.at(e.path); ok {
				seen[folded(e.path)] = e.path
			}
		}
	}
	reported := map[string]bool{}
	counted := b.countProvesPresence()
	for _, m := range slices.Concat(b.payload, b.tags) {
		for _, e := range m.entries {
			if _, ok := b.at(e.path); ok || reported[e.path] || b.odd[e.path] != "" {
				continue
			}
			reported[e.path] = true
			twin := seen[folded(e.path)]
			switch {
			case twin != "" && m.sums[twin] == e.sum && (sameName(twin, e.path) || counted):
				b.absent[e.path] = true
				v.warn(Name, e.path, fmt.Sprintf("%q and %q are listed and only one is there: they differ only in case or in how accents are written, and some systems take them for one", clip(e.path), clip(twin)))
			case litter(e.path):
				b.absent[e.path] = true
				v.warn(Missing, e.path, fmt.Sprintf("%q is missing, a file that systems strew and clear away by themselves", clip(e.path)))
			case b.fetch[e.path]:
				v.fault(Holey, e.path, fmt.Sprintf("%q is not in the bag but to be fetched from elsewhere; nothing is fetched here", clip(e.path)))
			default:
				v.fault(Missing, e.path, fmt.Sprintf("%q is missing", clip(e.path)))
			}
		}
	}
	b.unlisted()
	if b.decl.since(1, 0) {
		b.tagsComplete()
	}
}

// sameName reports whether two names differ only in how their accents are written.
func sameName(a, b string) bool { return norm.NFC.String(a) == norm.NFC.String(b) }

// countProvesPresence reports whether bag-info.txt counts just the payload files that
// are there. Of two listed names that differ only in case one may be missing then:
// the bag was made where both stand for one file. Without such a count a missing
// file is missing.
func (b *bag) countProvesPresence() bool {
	text, err := b.decl.readText(b.fsys, "bag-info.txt")
	if err != nil {
		return false
	}
	info, err := parseInfo(text)
	if err != nil {
		return false
	}
	files, bytes := 0, int64(0)
	for name, size := range b.files {
		if strings.HasPrefix(name, "data/") {
			files, bytes = files+1, bytes+size
		}
	}
	i := slices.IndexFunc(info, func(i Info) bool { return strings.EqualFold(i.Label, "Payload-Oxum") })
	return i >= 0 && info[i].Value == fmt.Sprintf("%d.%d", bytes, files)
}

// unlisted finds payload files that a manifest does not list: since 1.0 every
// manifest must list every file, before that one of them must.
func (b *bag) unlisted() {
	names := make([]string, 0, len(b.files))
	for name, size := range b.files {
		if strings.HasPrefix(name, "data/") {
			names = append(names, name)
			b.verdict.Files++
			b.verdict.Bytes += size
		}
	}
	slices.Sort(names)
	spelt := map[string]string{} // as the disk has it, to as it is listed
	for listed, name := range b.alias {
		spelt[name] = listed
	}
	for _, name := range names {
		var lists, lacks []string
		for _, m := range b.payload {
			listed := cmp.Or(spelt[name], name)
			if _, ok := m.sums[listed]; ok {
				lists = append(lists, m.name)
			} else {
				lacks = append(lacks, m.name)
			}
		}
		switch {
		case len(lists) == 0:
			b.verdict.fault(Extra, name, fmt.Sprintf("%q is in the bag and in no manifest", clip(name)))
		case len(lacks) > 0 && b.decl.since(1, 0):
			b.verdict.fault(Extra, name, fmt.Sprintf("%q is not listed in %s", clip(name), strings.Join(lacks, ", ")))
		}
	}
}

// tagsComplete checks that each tag manifest lists every payload manifest.
func (b *bag) tagsComplete() {
	for _, t := range b.tags {
		for _, m := range b.payload {
			if _, ok := t.sums[m.name]; !ok {
				b.verdict.fault(Manifest, t.name, fmt.Sprintf("%s does not list %s", t.name, m.name))
			}
		}
	}
}
