package pixels

import "encoding/binary"

// band is one row of MCUs, taken apart into blocks but not into coefficients: of each block its first coefficient
// and the bits that hold the others, as they stand. Those bits mean the same wherever the block goes.
type band struct {
	bits  []byte
	comps [][]block // of each component its blocks, row by row from the left
}

// block is one block of 8 × 8: its first coefficient, and where in the band's bits the others are.
type block struct {
	dc   int32
	from uint32 // first bit
	bits uint32 // how many
}

// bands gives the rows of MCUs from the top down. What a band holds is good until the next call.
type bands interface {
	next() (*band, error)
	// end is called after the last row and looks at what follows it.
	end() error
	// coding says how the bits of coefficients after the first are coded: for each component the number of a table.
	coding() (tables []*huffman, of []int)
}

func (f *jpegFile) newBand() *band {
	b := &band{comps: make([][]block, len(f.comps))}
	for i, c := range f.comps {
		b.comps[i] = make([]block, f.across*c.mcu())
	}
	return b
}

// sequential reads bands straight from a file that has all its channels in one scan.
type sequential struct {
	f     *jpegFile
	e     entropy
	b     *band
	dc    []*huffman
	ac    []*huffman
	runs  []*runs
	pred  [4]int32
	mcus  int // read so far
	total int
	row   int
}

func (f *jpegFile) sequential() *sequential {
	q := &sequential{f: f, e: entropy{s: newSource(f.r, f.size, f.data)}, b: f.newBand(), total: f.across * f.down}
	for i, c := range f.first.comps {
		q.dc, q.ac = append(q.dc, f.dc[c.dc]), append(q.ac, f.ac[c.ac])
		q.runs = append(q.runs, nil)
		for j := range i {
			if q.ac[j] == q.ac[i] {
				q.runs[i] = q.runs[j]
			}
		}
		if q.runs[i] == nil {
			q.runs[i] = q.ac[i].runs()
		}
	}
	return q
}

func (q *sequential) coding() ([]*huffman, []int) {
	var tables []*huffman
	of := make([]int, len(q.ac))
	for i, h := range q.ac {
		of[i] = len(tables)
		for j, t := range tables {
			if t == h {
				of[i] = j
			}
		}
		if of[i] == len(tables) {
			tables = append(tables, h)
		}
	}
	return tables, of
}

func (q *sequential) next() (*band, error) {
	q.e.drop()
	for x := range q.f.across {
		if q.f.restart > 0 && q.mcus > 0 && q.mcus%q.f.restart == 0 {
			if err := q.e.again((q.mcus/q.f.restart - 1) % 8); err != nil {
				return nil, err
			}
			q.pred = [4]int32{}
		}
		for i, c := range q.f.comps {
			blocks := q.b.comps[i]
			for v := range c.v {
				at := (v*q.f.across + x) * c.h
				for h := range c.h {
					if err := q.block(i, &blocks[at+h]); err != nil {
						return nil, err
					}
				}
			}
		}
		q.mcus++
	}
	q.b.bits = q.e.buf
	q.row++
	return q.b, nil
}

// greatestDC is the most that a first coefficient may be, so that the difference of two fits the codes of blocks.
const greatestDC = 1<<14 - 1

// block reads past one block of component i.
func (q *sequential) block(i int, b *block) error {
	e := &q.e
	if err := e.ready(); err != nil {
		return err
	}
	w := e.window()
	n, size := q.dc[i].look(w)
	if n == 0 || size > 15 {
		return q.damaged()
	}
	q.pred[i] += extend(uint32(w<<n>>32>>(32-uint(size))), uint(size))
	if q.pred[i] > greatestDC || q.pred[i] < -greatestDC {
		return q.damaged()
	}
	pos := e.pos + int(n) + int(size)
	from := pos
	end, ok := pass(e.buf, pos, q.ac[i], q.runs[i])
	e.pos = end
	switch {
	case e.passed():
		return e.short()
	case !ok:
		return q.damaged()
	}
	*b = block{q.pred[i], uint32(from), uint32(end - from)}
	return nil
}

// pass finds the end of the coefficients after the first that start at bit pos; false when there is no such code or
// they are more than 63.
func pass(buf []byte, pos int, ac *huffman, fast *runs) (int, bool) {
	for k := 1; k < 64; {
		w := binary.BigEndian.Uint64(buf[pos>>3:]) << (pos & 7)
		// 57 bits are good for three looks at least.
		for range 3 {
			r := fast[w>>(64-runBits)]
			passed := k + int(r>>8&0xff)
			if r == 0 || passed > 63 {
				// One code by itself: a long one, or one near the block's last coefficient, behind which other
				// codes do not belong to the block.
				break
			}
			n := r & 0xff
			w <<= n
			pos += int(n)
			k = passed
			if r&runEnds != 0 {
				return pos, true
			}
		}
		w = binary.BigEndian.Uint64(buf[pos>>3:]) << (pos & 7)
		n, v := ac.look(w)
		switch {
		case n == 0:
			return pos, false
		case v == 0:
			return pos + int(n), true
		case v&15 == 0 && v != 0xf0:
			return pos, false
		}
		pos += int(n) + int(v&15)
		if k += int(v>>4) + 1; k > 64 {
			return pos, false
		}
	}
	return pos, true
}

func (q *sequential) damaged() error {
	return jpegError(q.e.where(), "the coded pixels are damaged in row %d or just below", q.row*8*q.f.comps[0].v).hint(saveAgain)
}

func (q *sequential) end() error {
	q.e.finish()
	for {
		seg, err := nextSegment(q.e.s)
		if err != nil {
			return err
		}
		switch {
		case seg.mark == markEOI:
			return nil
		case seg.mark == markSOS, seg.mark >= markSOF0 && seg.mark <= 0xcf && seg.mark != markDHT:
			return jpegError(seg.at, "there are more pixels after the last row").hint(saveJPEGPlain)
		}
		seg.skip(q.e.s)
	}
}
