package artwork

import (
	"strings"

	"markout/layout/diag"
)

// style is what an element hands on to those inside it. A style is never changed once it is made.
type style struct {
	fill, stroke               paintWord
	fillOpacity, strokeOpacity float64
	fillEvenOdd, clipEvenOdd   bool
	width                      length
	cap                        Cap
	join                       Join
	miterLimit                 float64
	dashes                     []length
	dashOffset                 length
	colour                     tint
	hidden                     bool
	em                         float64
	strokeFirst                bool
	crisp                      bool
	markers                    markers
}

// initialStyle is what holds outside the outermost element.
var initialStyle = style{
	fill:        paintWord{kind: plainPaint, tint: tint{opacity: 1}},
	fillOpacity: 1, strokeOpacity: 1,
	width:      length{value: 1},
	miterLimit: 4,
	colour:     tint{opacity: 1},
	em:         mediumType,
}

// paintWord is a paint as it is written.
type paintWord struct {
	kind paintKind
	tint        // of plainPaint, and what otherwise is used where the server is wrong
	link string // of serverPaint: the name of a gradient
	none bool   // of serverPaint: nothing is painted where the server is wrong
}

type paintKind uint8

const (
	noPaint paintKind = iota
	plainPaint
	colourPaint // currentColor, which takes the colour of the place where it is used
	serverPaint
)

// inherit returns the style of an element from that of the one around it. Properties that are not handed on
// are read from d where they are needed.
func (r *reader) inherit(e *element, d *declared, outer *style) *style {
	s := *outer
	v := valueReader{r, e, d}
	if p := pFontSize; v.given(p) {
		l, ok := parseLength(d[p], outer.em)
		switch {
		case ok && l.percent:
			s.em = outer.em * l.value
		case ok && l.value >= 0:
			s.em = l.value
		} // names of sizes, which matter only for lengths in em, keep the outer size
	}
	if p := pColour; v.given(p) {
		if c, _, ok := parseColour(d[p]); ok {
			s.colour = c
		} else if !strings.EqualFold(d[p], "currentcolor") {
			v.wrong(p, "is no colour that is read here")
		}
	}
	v.paint(pFill, &s.fill)
	v.paint(pStroke, &s.stroke)
	v.opacity(pFillOpacity, &s.fillOpacity)
	v.opacity(pStrokeOpacity, &s.strokeOpacity)
	v.choice(pFillRule, words{"nonzero": 0, "evenodd": 1}, func(i int) { s.fillEvenOdd = i == 1 })
	v.choice(pClipRule, words{"nonzero": 0, "evenodd": 1}, func(i int) { s.clipEvenOdd = i == 1 })
	v.choice(pLineCap, words{"butt": 0, "round": 1, "square": 2}, func(i int) { s.cap = Cap(i) })
	v.choice(pLineJoin, words{"miter": 0, "round": 1, "bevel": 2, "miter-clip": 0, "arcs": 0}, func(i int) { s.join = Join(i) })
	v.choice(pVisibility, words{"visible": 0, "hidden": 1, "collapse": 1}, func(i int) { s.hidden = i == 1 })
	v.markers(&s.markers)
	v.length(pStrokeWidth, s.em, &s.width, true)
	v.length(pDashOffset, s.em, &s.dashOffset, false)
	if p := pMiterLimit; v.given(p) {
		if x, ok := numbers(d[p]); ok && len(x) == 1 && x[0] >= 1 {
			s.miterLimit = x[0]
		} else {
			v.wrong(p, "is no number of at least 1")
		}
	}
	if p := pDashes; v.given(p) {
		if dashes, ok := parseDashes(d[p], s.em); ok {
			s.dashes = dashes
		} else {
			v.wrong(p, "is no list of lengths")
		}
	}
	if p := pPaintOrder; v.given(p) {
		fill, stroke := strings.Index(d[p], "fill"), strings.Index(d[p], "stroke")
		s.strokeFirst = stroke >= 0 && (fill < 0 || stroke < fill)
	}
	if p := pRendering; v.given(p) {
		switch d[p] {
		case "optimizeSpeed", "pixelated", "crisp-edges":
			s.crisp = true
		default:
			s.crisp = false
		}
	}
	return &s
}

// parseDashes reads stroke-dasharray; none is nil.
func parseDashes(text string, em float64) ([]length, bool) {
	if text == "none" {
		return nil, true
	}
	var all []length
	s := scanner{text: text}
	for s.space(); !s.done(); s.comma() {
		l, ok := s.length(em)
		if !ok || l.value < 0 {
			return nil, false
		}
		all = append(all, l)
	}
	return all, true
}

// words are the words that a property may have.
type words map[string]int

// valueReader reads single properties of one element.
type valueReader struct {
	*reader
	e *element
	d *declared
}

// given reports whether the element says something of a property other than what it has anyway.
func (v valueReader) given(p property) bool {
	switch v.d[p] {
	case "", "inherit", "unset", "revert":
		return false
	}
	return true
}

// wrong says that a value is not used.
func (v valueReader) wrong(p property, format string, args ...any) {
	v.caution(v.where(p), codeValue, "", "%s %s "+format+"; it is left out", append([]any{p, quote(v.d[p])}, args...)...)
}

func (v valueReader) where(p property) diag.Span { return v.reader.where(v.e, p.String()) }

func (v valueReader) choice(p property, known words, set func(int)) {
	if !v.given(p) {
		return
	}
	if v.d[p] == "initial" {
		set(0)
		return
	}
	i, ok := known[v.d[p]]
	if !ok {
		v.wrong(p, "is not a word it can have")
		return
	}
	set(i)
}

func (v valueReader) opacity(p property, into *float64) {
	if !v.given(p) {
		return
	}
	x, ok := parseShare(v.d[p])
	if !ok {
		v.wrong(p, "is no number from 0 to 1")
		return
	}
	*into = x
}

// parseShare reads a number or a percentage and keeps it within 0 and 1.
func parseShare(text string) (float64, bool) {
	if text == "initial" {
		return 1, true
	}
	s := scanner{text: strings.TrimSpace(text)}
	x, ok := s.number()
	if s.take('%') {
		x /= 100
	}
	return unit(x), ok && s.done()
}

func (v valueReader) length(p property, em float64, into *length, positive bool) {
	if !v.given(p) {
		return
	}
	l, ok := parseLength(v.d[p], em)
	if !ok || positive && l.value < 0 {
		v.wrong(p, "is no length that is read here")
		return
	}
	*into = l
}

// paint reads fill or stroke.
func (v valueReader) paint(p property, into *paintWord) {
	if !v.given(p) {
		return
	}
	text := v.d[p]
	link, rest, ok := parseURL(text)
	if !ok {
		if w, ok := parsePlain(text, p); ok {
			*into = w
			return
		}
		v.wrong(p, "is no paint that is read here")
		return
	}
	w := paintWord{kind: serverPaint, link: link, none: true}
	if rest != "" {
		if second, ok := parsePlain(rest, p); ok && second.kind == plainPaint {
			w.tint, w.none = second.tint, false
		}
	}
	*into = w
}

// parsePlain reads a paint that is not a reference.
func parsePlain(text string, p property) (paintWord, bool) {
	switch strings.ToLower(text) {
	case "none", "context-fill", "context-stroke":
		return paintWord{}, true
	case "currentcolor":
		return paintWord{kind: colourPaint}, true
	case "initial":
		if p == pFill {
			return initialStyle.fill, true
		}
		return initialStyle.stroke, true
	}
	c, _, ok := parseColour(text)
	return paintWord{kind: plainPaint, tint: c}, ok
}

// parseURL reads url(LINK) and returns what follows it as rest.
func parseURL(text string) (link, rest string, ok bool) {
	text = strings.TrimSpace(text)
	if len(text) < 4 || !strings.EqualFold(text[:4], "url(") {
		return "", "", false
	}
	end := strings.IndexByte(text, ')')
	if end < 0 {
		return "", "", false
	}
	return unquote(strings.TrimSpace(text[4:end])), strings.TrimSpace(text[end+1:]), true
}
