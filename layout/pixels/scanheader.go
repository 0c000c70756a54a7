package pixels

// scan is the header of a scan: which components, by which tables, and which part of their coefficients.
type scan struct {
	comps      []scanComponent
	start, end int  // coefficients, in zigzag order
	high, low  uint // bits that were said before, and that come now: T.81's Ah and Al
}

// scanComponent is a component's place in the frame and the numbers of its tables.
type scanComponent struct {
	index  int
	dc, ac byte
}

// scanHeader reads an SOS segment and leaves the source at the coded data.
func (f *jpegFile) scanHeader(s *source, seg segment) (scan, error) {
	b, err := seg.contents(s)
	if err != nil {
		return scan{}, err
	}
	wrong := func(what string, args ...any) (scan, error) {
		return scan{}, jpegError(seg.at, what, args...).hint(saveAgain)
	}
	if len(b) < 1 || b[0] < 1 || b[0] > 4 || len(b) != 4+2*int(b[0]) {
		return wrong("a scan's header has the wrong length")
	}
	var sc scan
	taken := [4]bool{}
	blocks := 0
	for i := range int(b[0]) {
		c := scanComponent{index: -1, dc: b[2+2*i] >> 4, ac: b[2+2*i] & 15}
		for j, o := range f.comps {
			if o.id == b[1+2*i] {
				c.index = j
			}
		}
		if c.index < 0 || taken[c.index] {
			return wrong("a scan asks for channel %d, which is not there or was already said", b[1+2*i])
		}
		if c.dc > 3 || c.ac > 3 {
			return wrong("a scan asks for a Huffman table that there cannot be")
		}
		if q := f.comps[c.index].quant; f.quant[q] == nil {
			return wrong("quantisation table %d is missing", q)
		}
		taken[c.index] = true
		blocks += f.comps[c.index].mcu()
		sc.comps = append(sc.comps, c)
	}
	if len(sc.comps) > 1 && blocks > 10 {
		return wrong("a scan has %d blocks in its smallest unit, and 10 is the most", blocks)
	}
	sc.start, sc.end, sc.high, sc.low = 0, 63, 0, 0
	if f.frame != markSOF2 {
		for i, c := range sc.comps {
			// Components are written in blocks in the frame's order.
			if f.dc[c.dc] == nil || f.ac[c.ac] == nil {
				return wrong("a Huffman table is missing")
			}
			if i > 0 && c.index < sc.comps[i-1].index {
				return wrong("a scan has its channels in another order than the frame")
			}
		}
		return sc, nil
	}
	sc.start, sc.end = int(b[len(b)-3]), int(b[len(b)-2])
	sc.high, sc.low = uint(b[len(b)-1]>>4), uint(b[len(b)-1]&15)
	switch {
	case sc.start > sc.end || sc.end > 63 || sc.start == 0 && sc.end != 0:
		return wrong("a scan asks for coefficients %d to %d", sc.start, sc.end)
	case sc.start > 0 && len(sc.comps) > 1:
		return wrong("a scan has details of several channels at once")
	case sc.high != 0 && sc.high != sc.low+1 || sc.low > 13:
		return wrong("a scan asks for bits %d after %d", sc.low, sc.high)
	}
	for _, c := range sc.comps {
		if sc.start == 0 && sc.high == 0 && f.dc[c.dc] == nil || sc.start > 0 && f.ac[c.ac] == nil {
			return wrong("a Huffman table is missing")
		}
	}
	return sc, nil
}
