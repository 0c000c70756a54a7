package pdf

import (
	"encoding/binary"
	"math/bits"
	"slices"

	"markout/layout/lettering"
)

// A subset is a TrueType font file that holds the glyphs of one code page that a document uses, and nothing a
// page description has no use for: no names, no hints. Glyph 0 is the box for what is missing. The font is symbolic:
// its two cmap tables, (1, 0) and (3, 0), lead from a code to a glyph whichever way a reader goes (ISO 32000-1, 9.6.6.4).
// Its dates are those of the face itself.

// Flags of a component of a composite glyph (OpenType 1.8, glyf).
const (
	wordArguments    = 0x0001
	scaled           = 0x0008
	moreComponents   = 0x0020
	scaledXY         = 0x0040
	scaledTwoByTwo   = 0x0080
	haveInstructions = 0x0100
)

// subset returns the font file for the used codes of a page.
func subset(face *lettering.Face, runes *[256]rune, used *[256]bool) []byte {
	s := subsetter{glyf: face.Table("glyf"), loca: face.Table("loca"), number: map[uint16]uint16{}}
	s.add(0)
	var glyphOf [256]uint16
	for code, u := range used {
		if u {
			glyphOf[code] = s.add(face.Glyph(runes[code]))
		}
	}
	var glyf, loca, hmtx []byte
	long := face.Table("hmtx")
	for i := 0; i < len(s.glyphs); i++ { // grows while components are met
		old := s.glyphs[i]
		loca = binary.BigEndian.AppendUint16(loca, uint16(len(glyf)/2))
		glyf = append(glyf, s.outline(old)...)
		for len(glyf)%4 != 0 {
			glyf = append(glyf, 0)
		}
		hmtx = append(hmtx, long[4*int(old):4*int(old)+4]...)
	}
	loca = binary.BigEndian.AppendUint16(loca, uint16(len(glyf)/2))
	return assemble(face, []fontTable{
		{"cmap", symbolCmap(&glyphOf)},
		{"glyf", glyf},
		{"head", nil},
		{"hhea", hhea(face, len(s.glyphs))},
		{"hmtx", hmtx},
		{"loca", loca},
		{"maxp", maxp(face, len(s.glyphs))},
	})
}

type subsetter struct {
	glyf, loca []byte
	glyphs     []uint16          // the face's number of each glyph
	number     map[uint16]uint16 // the other way round
}

// add gives a glyph of the face its number in the subset.
func (s *subsetter) add(old uint16) uint16 {
	n, ok := s.number[old]
	if !ok {
		n = uint16(len(s.glyphs))
		s.glyphs = append(s.glyphs, old)
		s.number[old] = n
	}
	return n
}

// outline returns a glyph's outline without its instructions, its components renumbered.
func (s *subsetter) outline(old uint16) []byte {
	at := 2 * int(binary.BigEndian.Uint16(s.loca[2*int(old):])) // the faces have short offsets
	end := 2 * int(binary.BigEndian.Uint16(s.loca[2*int(old)+2:]))
	if at == end {
		return nil
	}
	g := slices.Clone(s.glyf[at:end])
	contours := int(int16(binary.BigEndian.Uint16(g)))
	if contours >= 0 {
		length := 10 + 2*contours
		n := int(binary.BigEndian.Uint16(g[length:]))
		binary.BigEndian.PutUint16(g[length:], 0)
		return slices.Delete(g, length+2, length+2+n)
	}
	for p := 10; ; {
		flags := binary.BigEndian.Uint16(g[p:])
		binary.BigEndian.PutUint16(g[p:], flags&^haveInstructions)
		binary.BigEndian.PutUint16(g[p+2:], s.add(binary.BigEndian.Uint16(g[p+2:])))
		p += 6
		if flags&wordArguments != 0 {
			p += 2
		}
		switch {
		case flags&scaled != 0:
			p += 2
		case flags&scaledXY != 0:
			p += 4
		case flags&scaledTwoByTwo != 0:
			p += 8
		}
		if flags&moreComponents == 0 {
			return g[:p]
		}
	}
}

func hhea(face *lettering.Face, glyphs int) []byte {
	t := slices.Clone(face.Table("hhea"))
	binary.BigEndian.PutUint16(t[34:], uint16(glyphs))
	return t
}

func maxp(face *lettering.Face, glyphs int) []byte {
	t := slices.Clone(face.Table("maxp"))
	binary.BigEndian.PutUint16(t[4:], uint16(glyphs))
	binary.BigEndian.PutUint16(t[14:], 1) // one zone: nothing is hinted
	clear(t[16:28])
	return t
}

// symbolCmap leads from codes to glyphs: format 0 for (1, 0), format 4 at 0xf000 for (3, 0). The glyphs of
// codes have the subset's first numbers, so they fit format 0's bytes.
func symbolCmap(glyphOf *[256]uint16) []byte {
	const header, bytes = 4 + 2*8, 262
	b := binary.BigEndian.AppendUint16(nil, 0)
	b = binary.BigEndian.AppendUint16(b, 2)
	for _, record := range [2][3]uint16{{1, 0, header}, {3, 0, header + bytes}} {
		b = binary.BigEndian.AppendUint16(b, record[0])
		b = binary.BigEndian.AppendUint16(b, record[1])
		b = binary.BigEndian.AppendUint32(b, uint32(record[2]))
	}
	for _, v := range []uint16{0, bytes, 0} {
		b = binary.BigEndian.AppendUint16(b, v)
	}
	for _, g := range glyphOf {
		b = append(b, byte(g))
	}
	first, last := 255, firstCode
	for code, g := range glyphOf {
		if g != 0 {
			first, last = min(first, code), max(last, code)
		}
	}
	first = min(first, last)
	n := last - first + 1
	for _, v := range []uint16{
		4, uint16(16 + 8*2 + 2*n), 0, 4, 4, 1, 0,
		0xf000 + uint16(last), 0xffff, 0, // where segments end
		0xf000 + uint16(first), 0xffff, // where they begin
		0, 1, // what is added to a glyph's number
		4, 0, // how far from here the numbers stand
	} {
		b = binary.BigEndian.AppendUint16(b, v)
	}
	for _, g := range glyphOf[first : last+1] {
		b = binary.BigEndian.AppendUint16(b, g)
	}
	return b
}

type fontTable struct {
	tag  string
	data []byte
}

// assemble joins tables, in order of their tags, to a font file. The table head is the face's own with what must change.
func assemble(face *lettering.Face, tables []fontTable) []byte {
	n := len(tables)
	out := append(make([]byte, 0, 1<<14), 0, 1, 0, 0)
	search := 16 << (bits.Len(uint(n)) - 1)
	for _, v := range []int{n, search, bits.Len(uint(n)) - 1, 16*n - search} {
		out = binary.BigEndian.AppendUint16(out, uint16(v))
	}
	at := 12 + 16*n
	head := 0
	for i := range tables {
		t := &tables[i]
		if t.tag == "head" {
			t.data = slices.Clone(face.Table("head"))
			binary.BigEndian.PutUint32(t.data[8:], 0)  // the whole file's sum, when it is known
			binary.BigEndian.PutUint16(t.data[50:], 0) // short offsets
			head = at
		}
		out = append(out, t.tag...)
		out = binary.BigEndian.AppendUint32(out, checksum(t.data))
		out = binary.BigEndian.AppendUint32(out, uint32(at))
		out = binary.BigEndian.AppendUint32(out, uint32(len(t.data)))
		at += (len(t.data) + 3) &^ 3
	}
	for _, t := range tables {
		out = append(out, t.data...)
		for len(out)%4 != 0 {
			out = append(out, 0)
		}
	}
	binary.BigEndian.PutUint32(out[head+8:], 0xb1b0afba-checksum(out))
	return out
}

// checksum is the sum of the big-endian words of a table, zeros after its end.
func checksum(b []byte) uint32 {
	var sum uint32
	for ; len(b) >= 4; b = b[4:] {
		sum += binary.BigEndian.Uint32(b)
	}
	var tail [4]byte
	copy(tail[:], b)
	return sum + binary.BigEndian.Uint32(tail[:])
}
