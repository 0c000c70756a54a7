package cli

import (
	"fmt"
	"regexp"
	"strings"

	"markout/layout/diag"
)

// wrong says what is wrong with a picture, or with the flags that say how large it becomes: these as they were typed, and as misuse; what
// stands in the picture's own file at its place there.
func (p *pictureFlags) wrong(a *app, list *diag.List, main string) error {
	var flags, lacking, reading []string
	for _, d := range list.Sorted() {
		if d.Severity != diag.Error {
			continue
		}
		if d.Span.IsZero() || list.Sources.Name(d.Span.File) != main {
			return a.errors(list)
		}
		word := lineWord(list.Sources, d.Span)
		text := asFlags(d.Message)
		if d.Hint != "" {
			text += "; " + asFlags(d.Hint)
		}
		if word == "artwork" {
			reading = append(reading, text)
			continue
		}
		if v, ok := p.values[word]; ok {
			flags = append(flags, fmt.Sprintf("--%s %s: %s", flagOf(word), *v, text))
		} else {
			lacking = append(lacking, text)
		}
	}
	switch {
	case len(reading) > 0: // what the flags lack is not known without the picture
		return fmt.Errorf("%s", strings.Join(reading, "\nmarkout: "))
	case len(flags) > 0: // nor is it where one of them is not understood
		return refuse("%s", strings.Join(flags, "\nmarkout: "))
	}
	return refuse("%s", strings.Join(lacking, "\nmarkout: "))
}

// lineWord returns the first word of the line in which a place lies.
func lineWord(s *diag.Sources, at diag.Span) string {
	text := string(s.Text(at.File))
	from := strings.LastIndexByte(text[:at.From], '\n') + 1
	line, _, _ := strings.Cut(text[from:], "\n")
	word, _, _ := strings.Cut(strings.TrimSpace(line), " ")
	return word
}

var asWritten = regexp.MustCompile("`(width|height|within|fit|crop|allow|grid|pounce)(?: ([^`]*))?`")

// asFlags puts flags in place of the file's own words.
func asFlags(text string) string {
	return asWritten.ReplaceAllStringFunc(text, func(found string) string {
		m := asWritten.FindStringSubmatch(found)
		flag, value := flagOf(m[1]), m[2]
		if from, ok := strings.CutPrefix(value, "from "); ok { // of a crop
			value = strings.NewReplacer(", ", ",", " size ", ",", " x ", ",").Replace(from)
		}
		value = strings.ReplaceAll(value, " x ", "x")
		switch {
		case value == "":
			return "--" + flag
		case strings.Contains(value, " "):
			return "--" + flag + ` "` + value + `"`
		}
		return "--" + flag + " " + value
	})
}

// flagOf returns the flag that gives an attribute.
func flagOf(word string) string {
	for _, l := range pictureLines {
		if l.word == word {
			return l.flag
		}
	}
	return word
}
