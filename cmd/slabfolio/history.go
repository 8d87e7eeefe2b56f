package main

import (
	"cmp"
	"context"
	"fmt"
	"strings"

	"slabfolio/listing/trace"
)

// history tells the story of one piece from its sealed bags.
func history(ctx context.Context, c *console, in []string, serial string, jobs int, csv bool) error {
	story, skipped, err := trace.History(ctx, in, serial, jobs)
	if err != nil {
		return err
	}
	switch {
	case c.json:
		for _, ch := range story {
			c.object(struct {
				Type string `json:"type"`
				trace.Chapter
			}{"revision", ch})
		}
		c.object(struct {
			Type      string `json:"type"`
			Revisions int    `json:"revisions"`
			Skipped   int    `json:"skipped"`
		}{"summary", len(story), len(skipped)})
	case csv && len(story) > 0:
		c.result("%s", historyCSV(serial, story))
	case len(story) > 0:
		c.result("%s", historyText(serial, story))
	}
	tellUnread(c, nil, skipped)
	if len(story) == 0 && !c.quiet && !c.json {
		c.say("no sealed bag of %s there; slabfolio archive makes one", printable(serial))
	}
	return nil
}

// historyText tells the revisions as a maker would read them out.
func historyText(serial string, story []trace.Chapter) string {
	var b strings.Builder
	title := story[len(story)-1].Title
	fmt.Fprintf(&b, "%s  %s, %s\n", oneLine(cmp.Or(story[len(story)-1].Serial, serial)), oneLine(title), plural(len(story), "revision"))
	for _, ch := range story {
		fmt.Fprintf(&b, "\n%s\n", chapterLine(ch))
		for _, line := range chapterLines(ch) {
			fmt.Fprintf(&b, "  %s\n", line)
		}
	}
	return strings.TrimSuffix(b.String(), "\n")
}

func chapterLine(ch trace.Chapter) string {
	line := fmt.Sprintf("Revision %d: %s", ch.Revision, oneLine(ch.Bag))
	if ch.Sealed != "" {
		line += ", sealed on " + oneLine(ch.Sealed)
	}
	if ch.Software != "" {
		line += " with " + oneLine(ch.Software)
	}
	return line
}

func chapterLines(ch trace.Chapter) []string {
	lines := []string{ch.Path}
	for _, also := range ch.Also {
		lines = append(lines, "the same bag: "+also)
	}
	if s := linkText(ch); s != "" {
		lines = append(lines, s)
	}
	for _, d := range ch.Doubts {
		lines = append(lines, "doubt: "+printable(d))
	}
	if ch.Unread != "" {
		lines = append(lines, "doubt: what changed in the spec cannot be told: "+printable(ch.Unread))
	}
	for _, l := range ch.Log {
		text := oneLine(l.Date + ": " + l.Did)
		if len(l.Materials) > 0 {
			text += ", with " + oneLine(strings.Join(l.Materials, ", "))
		}
		lines = append(lines, text)
	}
	for _, c := range ch.Changes {
		lines = append(lines, changeText(c))
	}
	if ch.Revision > 1 && len(ch.Log)+len(ch.Changes) == 0 && ch.Unread == "" {
		lines = append(lines, "nothing of the maker's own files differs")
	}
	return lines
}

// linkText says how a revision stands to the one before it.
func linkText(ch trace.Chapter) string {
	before := oneLine(ch.Predecessor)
	switch ch.Link {
	case trace.LinkRight:
		return fmt.Sprintf("follows %s, whose manifest is the one that it names", before)
	case trace.LinkWrong:
		return fmt.Sprintf("doubt: follows %s, but names another manifest than that bag has: one of the two was changed after it was sealed; slabfolio verify says more", before)
	case trace.LinkMissing:
		return fmt.Sprintf("follows %s, which is not here, so that this cannot be checked", before)
	case trace.LinkNone:
		return "doubt: it does not say whose manifest it follows"
	}
	return ""
}

// changeText says one change in a maker's words.
func changeText(c trace.Change) string {
	if c.Of == "file" {
		did := map[string]string{trace.Added: "was added", trace.Removed: "was taken out", trace.Altered: "was replaced by another"}
		return "the file " + oneLine(c.What) + " " + did[c.Kind]
	}
	what := oneLine(strings.ReplaceAll(c.What, ".", ", "))
	switch c.Kind {
	case trace.Added:
		return what + " was added" + tail(c.What, c.After)
	case trace.Removed:
		return what + " was taken out" + tail(c.What, c.Before)
	}
	return fmt.Sprintf("%s was %q, is now %q", what, clip(oneLine(c.Before), 120), clip(oneLine(c.After), 120))
}

// tail is what stood or stands there, without the name that was said already.
func tail(what, text string) string {
	name := what[strings.LastIndex(what, ": ")+1:]
	text = strings.TrimPrefix(oneLine(text), "name:"+name)
	text = strings.TrimPrefix(text, ", ")
	if text == "" || text == strings.TrimSpace(name) {
		return ""
	}
	return ": " + clip(strings.ReplaceAll(text, ": ", " "), 120) // as one says it
}

// historyCSV writes one row for each entry of the log and each change.
func historyCSV(serial string, story []trace.Chapter) string {
	rows := [][]string{{"serial", "revision", "bag", "sealed", "software", "link", "kind", "of", "what", "before", "after"}}
	for _, ch := range story {
		row := func(kind, of, what, before, after string) {
			rows = append(rows, []string{serial, fmt.Sprint(ch.Revision), ch.Bag, ch.Sealed, ch.Software, ch.Link, kind, of, what, before, after})
		}
		row("sealed", "bag", ch.Path, "", "")
		for _, l := range ch.Log {
			row("log", "piece", l.Did, "", l.Date)
		}
		for _, c := range ch.Changes {
			row(c.Kind, c.Of, c.What, c.Before, c.After)
		}
	}
	return writeCSV(rows)
}
