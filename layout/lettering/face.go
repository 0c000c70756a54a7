package lettering

import (
	"encoding/binary"
	"sync"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// Face is one of the two fonts, its tables laid out flat for measuring.
type Face struct {
	data   []byte
	ascii  [128]uint16   // advances
	glyphs [256][]uint16 // by the upper and the lower byte of a character; nil where the face has none of the 256
	widths []uint16      // advance of each glyph
	boxes  [][4]int16    // of each glyph: least x, least y, greatest x, greatest y; none for one without ink
}

var (
	regular = sync.OnceValue(func() *Face { return newFace(goregular.TTF) })
	bold    = sync.OnceValue(func() *Face { return newFace(gobold.TTF) })
)

// Of returns the bold or the regular face. Its tables are laid out the first time it is asked for.
func Of(isBold bool) *Face {
	if isBold {
		return bold()
	}
	return regular()
}

// Data returns the TrueType file, which nobody may change.
func (f *Face) Data() []byte { return f.data }

// Glyph returns the number of the glyph of a character, 0 (the box for what is missing) where the face lacks it.
func (f *Face) Glyph(r rune) uint16 {
	if r < 0 || r > 0xffff {
		return 0
	}
	if block := f.glyphs[r>>8]; block != nil {
		return block[r&0xff]
	}
	return 0
}

// Advance returns how far a glyph moves along the base line, in units of the em; 0 for a number that is no glyph's.
func (f *Face) Advance(glyph uint16) int {
	if int(glyph) >= len(f.widths) {
		return 0
	}
	return int(f.widths[glyph])
}

// Glyphs returns how many glyphs the face has.
func (f *Face) Glyphs() int { return len(f.widths) }

// Table returns a table of the font by its four-letter tag, nil where there is none.
func (f *Face) Table(tag string) []byte {
	n := int(u16(f.data, 4))
	for i := range n {
		record := f.data[12+16*i:]
		if string(record[:4]) == tag {
			at := binary.BigEndian.Uint32(record[8:])
			return f.data[at : at+binary.BigEndian.Uint32(record[12:])]
		}
	}
	return nil
}

// newFace lays out a font's widths and characters. The two fonts are fixed, so it reads exactly what they hold
// (OpenType 1.8: hhea, hmtx, maxp; cmap format 4 for the Basic Multilingual Plane) and checks nothing.
func newFace(data []byte) *Face {
	f := &Face{data: data}
	f.widths = make([]uint16, u16(f.Table("maxp"), 4))
	hmtx, long := f.Table("hmtx"), int(u16(f.Table("hhea"), 34))
	for i := range f.widths {
		f.widths[i] = u16(hmtx, 4*min(i, long-1)) // glyphs after the last long record share its advance
	}
	f.readBoxes()
	f.readCharacters(f.Table("cmap"))
	for c := range f.ascii {
		f.ascii[c] = f.widths[f.Glyph(rune(c))]
	}
	return f
}

// readBoxes reads the box of each glyph's ink (OpenType 1.8: head, loca, glyf).
func (f *Face) readBoxes() {
	loca, glyf := f.Table("loca"), f.Table("glyf")
	long := u16(f.Table("head"), 50) == 1
	place := func(i int) int {
		if long {
			return int(binary.BigEndian.Uint32(loca[4*i:]))
		}
		return 2 * int(u16(loca, 2*i))
	}
	f.boxes = make([][4]int16, len(f.widths))
	for i := range f.boxes {
		if at := place(i); place(i+1) > at {
			for k := range 4 {
				f.boxes[i][k] = int16(u16(glyf, at+2+2*k))
			}
		}
	}
}

// readCharacters fills glyphs from the first subtable of format 4.
func (f *Face) readCharacters(cmap []byte) {
	for i := range int(u16(cmap, 2)) {
		t := cmap[binary.BigEndian.Uint32(cmap[8+8*i:]):]
		if u16(t, 0) != 4 {
			continue
		}
		double := int(u16(t, 6)) // twice the number of segments
		ends, starts, deltas, offsets := 14, 16+double, 16+2*double, 16+3*double
		for s := 0; s < double; s += 2 {
			first, last := int(u16(t, starts+s)), int(u16(t, ends+s))
			delta, offset := u16(t, deltas+s), int(u16(t, offsets+s))
			for c := first; c <= last; c++ {
				glyph := uint16(c)
				if offset != 0 { // counted from the place where it stands
					if glyph = u16(t, offsets+s+offset+2*(c-first)); glyph == 0 {
						continue
					}
				}
				if glyph += delta; glyph == 0 || int(glyph) >= len(f.widths) {
					continue
				}
				if f.glyphs[c>>8] == nil {
					f.glyphs[c>>8] = make([]uint16, 256)
				}
				f.glyphs[c>>8][c&0xff] = glyph
			}
		}
		return
	}
}

func u16(b []byte, at int) uint16 { return binary.BigEndian.Uint16(b[at:]) }
