package pixels

import (
	"encoding/binary"
	"image"
)

// dcCounts are the lengths of the codes for sizes of differences between first coefficients, 0 to 15 in order: tables
// K.3 (lightness) and K.4 (colour) of T.81, drawn on by one code a length from size 12, for pictures whose blocks
// overshoot. Neighbours change when a picture is cut, so the file's own tables may lack a size that is needed.
var dcCounts = [2][16]byte{
	{0, 1, 5, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1},
	{0, 3, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 1},
}

// blockMaker writes JPEG files that are parts of one picture.
type blockMaker struct {
	f      *jpegFile
	acOf   []int // table of each component
	dcOf   []int
	dc     []codes
	common []byte // everything before the frame's header: marks of colour, quantisation
	tables []byte // Huffman tables
	wide   bool   // beyond what baseline allows, so the frame says extended
}

func (f *jpegFile) blockMaker(ac []*huffman, of []int) *blockMaker {
	m := &blockMaker{f: f, acOf: of}
	sizes := make([]byte, 16)
	for i := range sizes {
		sizes[i] = byte(i)
	}
	groups := 1
	for i := range f.comps {
		g := 0
		if i == 1 || i == 2 {
			g, groups = 1, 2
		}
		m.dcOf = append(m.dcOf, g)
	}
	for g := range groups {
		h, _ := newHuffman(dcCounts[g], sizes)
		m.dc = append(m.dc, h.codes())
		m.tables = appendTable(m.tables, byte(g), h)
	}
	for i, h := range ac {
		m.tables = appendTable(m.tables, 0x10|byte(i), h)
	}
	m.wide = len(ac) > 2

	m.common = append(m.common, 0xff, markSOI)
	switch f.colour {
	case Grey, YCbCr:
		density := f.density
		if density == ([5]byte{}) {
			density = [5]byte{0, 0, 1, 0, 1} // square pixels, no size said
		}
		m.common = append(m.common, 0xff, markAPP0, 0, 16, 'J', 'F', 'I', 'F', 0, 1, 2)
		m.common = append(append(m.common, density[:]...), 0, 0)
	default:
		transform := byte(0)
		if f.colour == YCCK {
			transform = 2
		}
		m.common = append(m.common, 0xff, markAPP0+14, 0, 14, 'A', 'd', 'o', 'b', 'e', 0, 100, 0, 0, 0, 0, transform)
	}
	m.quantisation()
	return m
}

// quantisation writes the tables that components use.
func (m *blockMaker) quantisation() {
	done := [4]bool{}
	for _, c := range m.f.comps {
		if done[c.quant] {
			continue
		}
		done[c.quant] = true
		q, wide := m.f.quant[c.quant], false
		for _, v := range q {
			wide = wide || v > 255
		}
		if !wide {
			m.common = append(m.common, 0xff, markDQT, 0, 67, c.quant)
			for _, v := range q {
				m.common = append(m.common, byte(v))
			}
			continue
		}
		m.wide = true
		m.common = append(m.common, 0xff, markDQT, 0, 131, 0x10|c.quant)
		for _, v := range q {
			m.common = binary.BigEndian.AppendUint16(m.common, v)
		}
	}
}

func appendTable(b []byte, id byte, h *huffman) []byte {
	b = append(b, 0xff, markDHT)
	b = binary.BigEndian.AppendUint16(b, uint16(2+17+len(h.values)))
	b = append(b, id)
	b = append(b, h.counts[:]...)
	return append(b, h.values...)
}

// head is everything before the coded data of a part of this size.
func (m *blockMaker) head(size image.Point) []byte {
	n := len(m.f.comps)
	frame := byte(markSOF0)
	if m.wide {
		frame = markSOF1
	}
	b := append([]byte(nil), m.common...)
	b = append(b, 0xff, frame, 0, byte(8+3*n), 8)
	b = binary.BigEndian.AppendUint16(b, uint16(size.Y))
	b = binary.BigEndian.AppendUint16(b, uint16(size.X))
	b = append(b, byte(n))
	for _, c := range m.f.comps {
		b = append(b, c.id, byte(c.h<<4|c.v), c.quant)
	}
	b = append(b, m.tables...)
	b = append(b, 0xff, markSOS, 0, byte(6+2*n), byte(n))
	for i, c := range m.f.comps {
		b = append(b, c.id, byte(m.dcOf[i]<<4|m.acOf[i]))
	}
	return append(b, 0, 63, 0)
}

// growing is one part while its bands come in.
type growing struct {
	block Block
	mcus  image.Rectangle // what it covers, in MCUs
	pred  [4]int32
	w     bitWriter
}

// take adds the part's MCUs of one band.
func (m *blockMaker) take(g *growing, b *band) {
	for x := g.mcus.Min.X; x < g.mcus.Max.X; x++ {
		for i, c := range m.f.comps {
			dc := &m.dc[m.dcOf[i]]
			for v := range c.v {
				at := (v*m.f.across + x) * c.h
				for _, bl := range b.comps[i][at : at+c.h] {
					value, size := sized(bl.dc - g.pred[i])
					g.pred[i] = bl.dc
					g.w.put(dc.code[size]<<size|value, uint(dc.length[size])+size)
					g.w.copy(b.bits, bl.from, bl.bits)
				}
			}
		}
	}
}

// close ends the part's file.
func (g *growing) close() {
	g.w.align()
	g.w.out = append(g.w.out, 0xff, markEOI)
}
