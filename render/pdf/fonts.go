package pdf

import (
	"crypto/sha256"
	"encoding/binary"
	"slices"

	"markout/layout/lettering"
)

// Objects of a font, counted from its own.
const (
	fontDescriptor = 1 + iota
	fontData
	fontUnicode
	fontObjects
)

// appendFonts appends a resource dictionary's fonts, those used.
func (d *document) appendFonts(b []byte, used usage) []byte {
	b = append(b, "<<"...)
	for page := range codes().runes {
		for _, k := range []fontKey{{false, uint8(page)}, {true, uint8(page)}} {
			if used[k] == nil {
				continue
			}
			if d.fonts[k] == 0 {
				d.fonts[k] = d.file.alloc(fontObjects)
			}
			b = appendRef(append(append(append(b, '/'), k.name()...), ' '), d.fonts[k])
		}
	}
	return append(b, ">>"...)
}

// writeFonts writes the fonts of the code pages that the document used.
func (d *document) writeFonts() {
	d.file.object(fonts, d.appendFonts(nil, d.used))
	for page := range codes().runes {
		for _, k := range []fontKey{{false, uint8(page)}, {true, uint8(page)}} {
			if set := d.used[k]; set != nil {
				d.writeFont(d.fonts[k], k, set)
			}
		}
	}
}

// writeFont writes one font: its dictionary, descriptor, file, and the characters that its codes stand for.
func (d *document) writeFont(font ref, k fontKey, used *[256]bool) {
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
	descriptor, data, unicode := font+fontDescriptor, font+fontData, font+fontUnicode

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
	var ranges [][]byte
	for code := firstCode; code < 256; code++ {
		if !used[code] {
			continue
		}
		first, from := code, runes[code]
		if from == missingRune {
			from = '\ufffd'
		}
		// Through codes that are not used too: fewer, longer ranges. Only the last byte counts up (ISO 32000-1, 9.10.3).
		for code < 255 && runes[code+1] == runes[code]+1 && runes[code+1]&0xff != 0 {
			code++
		}
		line := appendHex(nil, []byte{byte(first)})
		line = appendHex(line, []byte{byte(code)})
		ranges = append(ranges, append(appendHex(line, binary.BigEndian.AppendUint16(nil, uint16(from))), '\n'))
	}
	for part := range slices.Chunk(ranges, 100) { // no more than 100 at a time (Adobe technical note 5014)
		b = append(appendInt(b, int64(len(part))), "beginbfrange\n"...)
		for _, line := range part {
			b = append(b, line...)
		}
		b = append(b, "endbfrange\n"...)
	}
	return append(b, end...)
}
