package pixels

import "math/bits"

// recoded gives the bands of a picture whose coefficients are held whole: it writes their bits anew, by the codes
// that make them shortest.
type recoded struct {
	f      *jpegFile
	planes []*plane
	b      *band
	w      bitWriter
	tables []*huffman
	of     []int
	codes  []codes
	row    int
}

func (f *jpegFile) recoded() (*recoded, error) {
	planes, err := f.whole()
	if err != nil {
		return nil, err
	}
	r := &recoded{f: f, planes: planes, b: f.newBand()}
	// Colour is coded apart from lightness and black, since their details differ.
	groups := [2][]*plane{}
	for i, p := range planes {
		g := 0
		if i == 1 || i == 2 {
			g = 1
		}
		groups[g] = append(groups[g], p)
		r.of = append(r.of, g)
	}
	for _, g := range groups {
		if len(g) == 0 {
			continue
		}
		var count [256]int64
		for _, p := range g {
			p.count(&count)
		}
		h := bestCodes(&count)
		r.tables = append(r.tables, h)
		r.codes = append(r.codes, h.codes())
	}
	return r, nil
}

func (r *recoded) coding() ([]*huffman, []int) { return r.tables, r.of }

func (r *recoded) end() error { return nil }

func (r *recoded) next() (*band, error) {
	r.w.start()
	for i, p := range r.planes {
		rows := r.f.comps[i].v
		for j := range rows * p.across {
			n := r.row*rows*p.across + j
			from := r.w.written()
			p.code(n, &r.w, &r.codes[r.of[i]])
			r.b.comps[i][j] = block{int32(p.dc[n]), from, r.w.written() - from}
		}
	}
	r.row++
	r.b.bits = r.w.finish()
	return r.b, nil
}

// symbols goes through a block's coefficients after the first as they are coded: a run of zeros and a size, and the
// size's bits.
func (p *plane) symbols(block int, visit func(symbol byte, bits uint32, size uint)) {
	zeros := 0
	for k := 1; k < 64; k++ {
		v := p.ac[63*block+k-1]
		if v == 0 {
			zeros++
			continue
		}
		for ; zeros > 15; zeros -= 16 {
			visit(0xf0, 0, 0)
		}
		value, size := sized(p.at(block, k))
		visit(byte(zeros<<4)|byte(size), value, size)
		zeros = 0
	}
	if zeros > 0 {
		visit(0, 0, 0)
	}
}

// sized is a number as its size and so many bits (T.81, F.1.2.1).
func sized(v int32) (uint32, uint) {
	if v >= 0 {
		return uint32(v), uint(bits.Len32(uint32(v)))
	}
	n := uint(bits.Len32(uint32(-v)))
	return uint32(v-1) & (1<<n - 1), n
}

func (p *plane) count(count *[256]int64) {
	for b := range p.dc {
		p.symbols(b, func(s byte, _ uint32, _ uint) { count[s]++ })
	}
}

func (p *plane) code(block int, w *bitWriter, c *codes) {
	p.symbols(block, func(s byte, v uint32, size uint) {
		w.put(c.code[s], uint(c.length[s]))
		w.put(v, size)
	})
}
