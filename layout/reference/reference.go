// Package reference is the language reference: what may stand in a geometry file, from the kinds' own tables and a few
// chapters on what all kinds share, and what every caution means. `markout explain` prints a topic of it as text, the
// documentation carries it whole as Markdown; both are made from the same pages, so that they never differ.
//
// Every example in it is part of a geometry file that works in the set of Surroundings; a test opens each of them.
package reference

import (
	"fmt"
	"slices"
	"strings"

	"markout/layout/notation"
	"markout/layout/rules"
)

// Topics returns every word that Text explains, sorted, but for attributes by their kind (platform.height).
func Topics() []string {
	var out []string
	for _, c := range chapters() {
		out = append(out, c.topic)
	}
	for _, k := range kinds() {
		out = append(out, k.Word)
		out = append(out, attributeWords(&k)...)
	}
	for _, c := range rules.Codes() {
		out = append(out, c.Code)
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// UnknownTopic says that there is nothing to explain under a word, and what may have been meant.
type UnknownTopic struct {
	Topic string
	Near  []string // most likely first; empty where nothing is like it
}

func (e *UnknownTopic) Error() string {
	message := fmt.Sprintf("nothing is explained under %q", e.Topic)
	if len(e.Near) == 0 {
		return message + "; `markout explain` lists the topics"
	}
	return message + "; did you mean " + strings.Join(e.Near, " or ") + "?"
}

// Text returns what there is to say of a topic as text of at most 100 columns that ends with a line end: of a chapter, a
// kind (platform), a kind's attribute (platform.height), an attribute wherever it stands (repeat), a caution's code in any
// letters (STEP-RISE), or without a topic of what the topics are. The error is an *UnknownTopic.
func Text(topic string) (string, error) {
	pages, err := find(strings.TrimSpace(topic))
	if err != nil {
		return "", err
	}
	var b strings.Builder
	for i, p := range pages {
		if i > 0 {
			b.WriteString("\n\n")
		}
		p.text(&b)
	}
	return b.String(), nil
}

// find returns the pages of a topic: one, but where a word is both a kind and an attribute or a chapter.
func find(topic string) ([]page, error) {
	if topic == "" {
		return []page{contents()}, nil
	}
	if c, ok := rules.Find(topic); ok {
		return []page{codePage(c)}, nil
	}
	if word, attribute, ok := strings.Cut(topic, "."); ok {
		k := kindOf(strings.ToLower(word))
		if k == nil {
			return nil, unknown(topic)
		}
		p, ok := attributePage(k, strings.ToLower(attribute))
		if !ok {
			return nil, unknown(topic)
		}
		return []page{p}, nil
	}
	lower := strings.ToLower(topic)
	var out []page
	for _, c := range chapters() {
		if c.topic == lower {
			out = append(out, c)
		}
	}
	if k := kindOf(lower); k != nil {
		out = append(out, kindPage(k))
	}
	if len(out) == 0 {
		if p, ok := sharedPage(lower); ok {
			out = append(out, p)
		}
	}
	if len(out) == 0 {
		return nil, unknown(topic)
	}
	return out, nil
}

func kindOf(word string) *notation.Kind {
	all := kinds()
	for i := range all {
		if all[i].Word == word {
			return &all[i]
		}
	}
	return nil
}

// unknown looks for topics that are like one that is none: by another word for it, by spelling, by what they begin with.
func unknown(topic string) *UnknownTopic {
	e := &UnknownTopic{Topic: topic}
	add := func(s string) {
		if s != "" && len(e.Near) < 3 && !slices.Contains(e.Near, s) {
			e.Near = append(e.Near, s)
		}
	}
	lower := strings.ToLower(topic)
	if word, attribute, ok := strings.Cut(lower, "."); ok {
		k := kindOf(word)
		if k == nil {
			k = kindOf(notation.Suggest(word, kindWords()))
		}
		if k == nil {
			return e
		}
		words := attributeWords(k)
		if slices.Contains(words, attribute) {
			add(k.Word + "." + attribute)
			return e
		}
		if w := notation.Suggest(attribute, words); w != "" {
			add(k.Word + "." + w)
		}
		add(k.Word)
		return e
	}
	add(otherWords[lower])
	all := Topics()
	add(notation.Suggest(lower, kindWords()))
	add(notation.Suggest(lower, all))
	for _, t := range all {
		if len(lower) > 2 && strings.HasPrefix(strings.ToLower(t), lower) {
			add(t)
		}
	}
	return e
}

// otherWords are words under which people look for a chapter.
var otherWords = map[string]string{
	"anchor": "points", "anchors": "points", "tape measure": "points", "unit": "values", "units": "values", "length": "values",
	"number": "values", "numbers": "values", "feet": "values", "inches": "values", "list": "lists", "copy": "copies", "comment": "text",
	"comments": "text", "syntax": "forms", "grammar": "forms", "form": "forms", "place": "placing", "position": "positions",
	"error": "limits", "errors": "limits", "caution": "cautions", "codes": "cautions", "warnings": "cautions", "kind": "kinds",
	"elements": "kinds", "statements": "kinds", "example": "surroundings", "examples": "surroundings", "circle": "outlines",
	"rect": "outlines", "ellipse": "outlines", "polygon": "outlines", "svg": "outlines", "arc": "outlines", "curve": "outlines",
	"measure": "measures", "picture": "artwork", "pictures": "artwork", "drawing": "artwork", "png": "artwork", "jpeg": "artwork", "jpg": "artwork",
	"silhouette": "artwork", "cut-out": "figure", "cutout": "figure", "backcloth": "cloth", "backdrop": "cloth", "spreadsheet": "csv",
}

func kindWords() []string {
	var out []string
	for _, k := range kinds() {
		out = append(out, k.Word)
	}
	return out
}

func attributeWords(k *notation.Kind) []string {
	var out []string
	for i := range k.Attributes {
		out = append(out, k.Attributes[i].Word)
	}
	return out
}

// Markdown returns the whole reference.
func Markdown() string {
	var b strings.Builder
	b.WriteString("# The geometry file\n")
	for _, c := range chapters() {
		c.markdown(&b, 2)
	}
	b.WriteString("\n## Statements and elements\n")
	for _, k := range kinds() {
		kindPage(&k).markdown(&b, 3)
	}
	b.WriteString("\n## What the cautions mean\n")
	for _, c := range rules.Codes() {
		codePage(c).markdown(&b, 3)
	}
	return b.String()
}
