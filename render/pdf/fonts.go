package pdf

import (
	"crypto/sha256"
	"encoding/binary"
	"slices"
	"unicode/utf16"

	"markout/layout/lettering"
)

// writeFonts writes the fonts of the code pages that the document used.
func (d *document) writeFonts() {
	b := []byte("<<")
	for page := range codes().runes {
		for _, k := range []fontKey{{false, uint8(page)}, {true, uint8(page)}} {
			if set := d.used[k]; set != nil {
				b = append(append(append(b, '/'), k.name()...), ' ')
				b = appendRef(b, d.writeFont(k, set))
			}
		}
	}
	d.file.object(fonts, append(b, ">>"...))
}

// writeFont writes one font: its dictionary, descriptor, file, and the characters that its codes stand for.
func (d *document) writeFont(k fontKey, used *[256]bool) ref {
	face, runes := lettering.Of(k.bold), &codes().runes[k.page]
	program := subset(face, runes, used)
	name, stem := "GoRegular", 76 // the width of I's stem, measured in the face
	if k.bold {
		name, stem = "GoBold", 150
	}
	name = subsetTag(program) + "+" + name

	first, last := 255, 0
	for code, u := range used {
		if u {
			first, last = min(first, code), max(last, code)
		}
	}
	font := d.file.alloc(4)
	descriptor, data, unicode := font+1, font+2, font+3

	b := append([]byte("<</Type/Font/Subtype/TrueType/BaseFont/"), name...)
	b = append(b, "/FirstChar "...)
	b = appendInt(b, int64(first))
	b = append(b, "/LastChar "...)
	b = appendInt(b, int64(last))
	b = append(b, "/Widths["...)
	for code := first; code <= last; code++ {
		if code > first {
			b = append(b, ' ')
		}
		w := 0.0
		if used[code] {
			w = thousandths(face.Advance(face.Glyph(runes[code])))
		}
		b = appendReal(b, w, 4)
	}
	b = append(b, "]/FontDescriptor "...)
	b = appendRef(b, descriptor)
	b = append(b, "/ToUnicode "...)
	b = append(appendRef(b, unicode), ">>"...)
	d.file.object(font, b)

	head := face.Table("head")
	b = append([]byte("<</Type/FontDescriptor/FontName/"), name...)
	b = append(b, "/Flags 4/FontBBox["...)
	for at := 36; at <= 42; at += 2 {
		b = append(appendReal(b, thousandths(int(int16(binary.BigEndian.Uint16(head[at:])))), 0), ' ')
	}
	b = append(b, "]/ItalicAngle 0/Ascent "...)
	b = appendReal(b, lettering.Ascent*1000/lettering.Em(1), 0)
	b = append(b, "/Descent "...)
	b = appendReal(b, -lettering.Descent*1000/lettering.Em(1), 0)
	b = append(b, "/CapHeight "...)
	b = appendReal(b, 1000/lettering.Em(1), 0)
	b = append(b, "/StemV "...)
	b = appendInt(b, int64(stem))
	b = append(b, "/FontFile2 "...)
	b = append(appendRef(b, data), ">>"...)
	d.file.object(descriptor, b)

	length := appendInt([]byte("/Length1 "), int64(len(program)))
	d.file.stream(data, string(length), d.file.z.deflate(program))
	d.file.stream(unicode, "", d.file.z.deflate(toUnicode(runes, used)))
	return font
}

// thousandths turns the face's units into those of PDF's glyph space.
func thousandths(v int) float64 { return float64(v) * 1000 / lettering.UnitsPerEm }

// subsetTag is six letters by which a subset differs from others of its face.
func subsetTag(program []byte) string {
	sum := sha256.Sum256(program)
	tag := make([]byte, 6)
	for i := range tag {
		tag[i] = 'A' + sum[i]%26
	}
	return string(tag)
}

// toUnicode maps codes back to characters, so that text can be found and copied.
func toUnicode(runes *[256]rune, used *[256]bool) []byte {
	const begin = "/CIDInit/ProcSet findresource begin 12 dict begin begincmap/CIDSystemInfo<</Registry(Adobe)/Ordering(UCS)/Supplement 0>>def" +
		"/CMapName/Adobe-Identity-UCS def/CMapType 2 def 1 begincodespacerange<00><FF>endcodespacerange\n"
	const end = "endcmap CMapName currentdict/CMap defineresource pop end end"
	b := []byte(begin)
	var lines [][]byte
	for code, u := range used {
		if !u {
			continue
		}
		r := runes[code]
		if r == missingRune {
			r = '\ufffd'
		}
		line := appendHex(nil, []byte{byte(code)})
		var u16 []byte
		for _, v := range utf16.Encode([]rune{r}) {
			u16 = binary.BigEndian.AppendUint16(u16, v)
		}
		lines = append(lines, append(appendHex(line, u16), '\n'))
	}
	for part := range slices.Chunk(lines, 100) { // no more than 100 at a time (Adobe technical note 5014)
		b = append(appendInt(b, int64(len(part))), "beginbfchar\n"...)
		for _, line := range part {
			b = append(b, line...)
		}
		b = append(b, "endbfchar\n"...)
	}
	return append(b, end...)
}
