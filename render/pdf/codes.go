package pdf

import (
	"sync"

	"markout/layout/lettering"
)

// Text stands in the file as one byte a character. The faces have more characters than a byte has values, so they
// are spread over code pages, each of which becomes a font of its own where it is used: page 0 holds ASCII, Latin-1 and
// the signs of the trade, the others the rest in order. Where a character stands never depends on what a document
// uses, so that pages can be written before the last text is known.

const (
	firstCode   = 0x20
	missingCode = 0x7f // on page 0: the box for a character that the faces lack
	missingRune = -1   // what stands at missingCode: no character, so no glyph but the box
	perPage     = 256 - firstCode
)

// signs stand at 0x80 to 0x9f of page 0.
const signs = "–—‘’“”′″…•−≤≥≠≈∞√∆∑→←↑↓↔∠⌀"

// place is the code page and the code of a character.
type place struct{ page, code uint8 }

// codeTable is where each character stands.
type codeTable struct {
	places [256][]place // by the upper and the lower byte of a character; nil where the faces have none of the 256
	runes  [][256]rune  // of each page; 0 where a code stands for nothing
}

var codes = sync.OnceValue(newCodeTable)

func newCodeTable() *codeTable {
	t := &codeTable{runes: make([][256]rune, 1)}
	face := lettering.Of(false)
	t.runes[0][missingCode] = missingRune
	for r := rune(firstCode); r <= 0xff; r++ {
		if r != missingCode && (r < 0x80 || r >= 0xa0) && face.Glyph(r) != 0 {
			t.put(r, 0, uint8(r))
		}
	}
	code := 0x80
	for _, r := range signs {
		if face.Glyph(r) != 0 {
			t.put(r, 0, uint8(code))
			code++
		}
	}
	next := perPage // the next page is begun with the first character
	for r := rune(0xa0); r <= 0xffff; r++ {
		if face.Glyph(r) == 0 || t.has(r) {
			continue
		}
		if next == perPage {
			t.runes = append(t.runes, [256]rune{})
			next = 0
		}
		t.put(r, uint8(len(t.runes)-1), uint8(firstCode+next))
		next++
	}
	return t
}

func (t *codeTable) put(r rune, page, code uint8) {
	if t.places[r>>8] == nil {
		t.places[r>>8] = make([]place, 256)
	}
	t.places[r>>8][r&0xff] = place{page, code}
	t.runes[page][code] = r
}

func (t *codeTable) has(r rune) bool {
	return t.places[r>>8] != nil && t.places[r>>8][r&0xff].code != 0
}

// place returns where a character stands; every one that the faces lack stands at missingCode.
func (t *codeTable) place(r rune) place {
	if r >= 0 && r <= 0xffff {
		if block := t.places[r>>8]; block != nil && block[r&0xff].code != 0 {
			return block[r&0xff]
		}
	}
	return place{0, missingCode}
}

// fontKey is a face and one of its code pages.
type fontKey struct {
	bold bool
	page uint8
}

// name is the font's in the resources of pages: R, B, R1, B1 …
func (k fontKey) name() string {
	name := "R"
	if k.bold {
		name = "B"
	}
	if k.page > 0 {
		name += string(rune('0' + k.page)) // the faces' characters fill fewer than ten pages; a test counts them
	}
	return name
}

// usage is which codes of each font a document has used.
type usage map[fontKey]*[256]bool

func (u usage) of(k fontKey) *[256]bool {
	set := u[k]
	if set == nil {
		set = new([256]bool)
		u[k] = set
	}
	return set
}

// add joins what another worker's pages used.
func (u usage) add(v usage) {
	for k, set := range v {
		own := u.of(k)
		for code, used := range set {
			own[code] = own[code] || used
		}
	}
}
