package pixels

// passes are the seven of ISO/IEC 15948, clause 8.2: first column and row, and the steps between columns and rows.
var passes = [7]struct{ x, y, dx, dy int }{
	{0, 0, 8, 8}, {4, 0, 8, 8}, {0, 4, 4, 8}, {2, 0, 4, 4}, {0, 2, 2, 4}, {1, 0, 2, 2}, {0, 1, 1, 2},
}

// interleave reads an interlaced picture whole and returns its rows one after the other, packed as a picture
// without interlacing has them.
func (f *pngFile) interleave() ([]byte, error) {
	rows, err := f.rows()
	if err != nil {
		return nil, err
	}
	stride := f.rowBytes(f.width)
	whole := make([]byte, stride*f.height)
	bits := f.channels() * f.depth
	for _, pass := range passes {
		w, h := (f.width-pass.x+pass.dx-1)/pass.dx, (f.height-pass.y+pass.dy-1)/pass.dy
		if w <= 0 || h <= 0 {
			continue
		}
		rows.start(w)
		for i := range h {
			row, err := rows.next()
			if err != nil {
				return nil, err
			}
			to := whole[(pass.y+i*pass.dy)*stride:][:stride]
			if bits < 8 {
				spreadBits(to, row, w, bits, pass.x, pass.dx)
			} else {
				spreadBytes(to, row, w, bits/8, pass.x, pass.dx)
			}
		}
	}
	return whole, rows.end()
}

func spreadBytes(to, row []byte, w, size, x, dx int) {
	for i := range w {
		copy(to[(x+i*dx)*size:][:size], row[i*size:])
	}
}

// spreadBits places pixels of 1, 2 or 4 bits, the first in the highest bits of a byte; to is empty there.
func spreadBits(to, row []byte, w, bits, x, dx int) {
	mask := byte(1<<bits - 1)
	for i := range w {
		from, at := i*bits, (x+i*dx)*bits
		v := row[from/8] >> (8 - bits - from%8) & mask
		to[at/8] |= v << (8 - bits - at%8)
	}
}
