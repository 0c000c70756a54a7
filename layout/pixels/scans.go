package pixels

// whole reads a file with several scans to its end and returns all coefficients.
func (f *jpegFile) whole() ([]*plane, error) {
	work := *f // scans change the tables
	planes := work.planes()
	r := scanReader{f: &work, planes: planes, scan: work.first, e: entropy{s: newSource(f.r, f.size, f.data)}}
	seen := [4]bool{}
	for {
		for _, c := range r.scan.comps {
			if work.frame != markSOF2 && seen[c.index] {
				return nil, jpegError(r.e.s.offset(), "a channel comes twice").hint(saveJPEGPlain)
			}
			seen[c.index] = true
		}
		if err := r.read(); err != nil {
			return nil, err
		}
		more, err := r.more()
		if err != nil {
			return nil, err
		}
		if !more {
			break
		}
	}
	for i := range f.comps {
		if !seen[i] {
			return nil, jpegError(r.e.s.offset(), "channel %d has no pixels", f.comps[i].id).hint(saveAgain)
		}
	}
	return planes, nil
}

// scanReader reads scans into planes of coefficients: T.81, F.2 and annex G.
type scanReader struct {
	f      *jpegFile
	planes []*plane
	scan   scan
	e      entropy
	pred   [4]int32
	band   int32 // blocks for which the end of band still holds: EOBRUN
}

// more reads on to the next scan; false at the end of the picture.
func (r *scanReader) more() (bool, error) {
	for {
		seg, err := nextSegment(r.e.s)
		if err != nil {
			return false, err
		}
		switch {
		case seg.mark == markEOI:
			return false, nil
		case seg.mark == markSOS:
			r.scan, err = r.f.scanHeader(r.e.s, seg)
			return true, err
		case seg.mark >= markSOF0 && seg.mark <= 0xcf && seg.mark != markDHT && seg.mark != 0xcc:
			return false, jpegError(seg.at, "a second frame header").hint(saveAgain)
		}
		if err := r.f.table(r.e.s, seg); err != nil {
			return false, err
		}
	}
}

// read reads one scan. A scan of one component goes over the blocks that show, row by row; one of several over MCUs.
func (r *scanReader) read() error {
	r.e = entropy{s: r.e.s, buf: r.e.buf}
	r.pred, r.band = [4]int32{}, 0
	unit := 0
	begin := func() error {
		if r.f.restart > 0 && unit > 0 && unit%r.f.restart == 0 {
			if err := r.e.again((unit/r.f.restart - 1) % 8); err != nil {
				return err
			}
			r.pred, r.band = [4]int32{}, 0
		}
		unit++
		return nil
	}
	if len(r.scan.comps) == 1 {
		c := r.scan.comps[0]
		p := r.planes[c.index]
		for y := range p.usedY {
			for x := range p.usedX {
				if err := begin(); err != nil {
					return err
				}
				if err := r.block(c, p, y*p.across+x); err != nil {
					return err
				}
			}
		}
	} else {
		for my := range r.f.down {
			for mx := range r.f.across {
				if err := begin(); err != nil {
					return err
				}
				for _, c := range r.scan.comps {
					if err := r.unit(c, mx, my); err != nil {
						return err
					}
				}
			}
		}
	}
	if r.band > 0 {
		return r.damaged()
	}
	r.e.finish()
	return nil
}

// unit reads the blocks that one component has in an MCU.
func (r *scanReader) unit(c scanComponent, mx, my int) error {
	comp, p := r.f.comps[c.index], r.planes[c.index]
	for v := range comp.v {
		for h := range comp.h {
			if err := r.block(c, p, (my*comp.v+v)*p.across+mx*comp.h+h); err != nil {
				return err
			}
		}
	}
	return nil
}

func (r *scanReader) block(c scanComponent, p *plane, b int) error {
	if r.e.end-r.e.pos>>3 < slack {
		r.e.drop()
		if err := r.e.ready(); err != nil {
			return err
		}
	}
	ok := true
	if r.scan.start == 0 {
		ok = r.first(c, p, b)
	}
	if ok && r.scan.end > 0 {
		if r.scan.high == 0 {
			ok = r.details(r.f.ac[c.ac], p, b)
		} else {
			ok = r.refine(r.f.ac[c.ac], p, b)
		}
	}
	switch {
	case r.e.passed():
		return r.e.short()
	case !ok:
		return r.damaged()
	case len(p.far) > mostFar:
		return jpegError(r.e.where(), "it has more strong detail than can be held whole").hint(saveBaseline)
	}
	return nil
}

func (r *scanReader) damaged() error {
	return jpegError(r.e.where(), "the coded pixels are damaged").hint(saveAgain)
}

// first reads a block's first coefficient, or one more bit of it.
func (r *scanReader) first(c scanComponent, p *plane, b int) bool {
	if r.scan.high != 0 {
		p.dc[b] |= int16(r.e.bits(1) << r.scan.low)
		return true
	}
	n, size := r.f.dc[c.dc].look(r.e.window())
	if n == 0 || size > 15 {
		return false
	}
	r.e.pos += int(n)
	r.pred[c.index] += extend(r.e.bits(uint(size)), uint(size))
	v := r.pred[c.index] << r.scan.low
	if r.pred[c.index] > greatestDC || r.pred[c.index] < -greatestDC || v > greatestDC || v < -greatestDC {
		return false
	}
	p.dc[b] = int16(v)
	return true
}

// details reads a block's other coefficients for the first time.
func (r *scanReader) details(ac *huffman, p *plane, b int) bool {
	if r.band > 0 {
		r.band--
		return true
	}
	for k := max(1, r.scan.start); k <= r.scan.end; k++ {
		n, v := ac.look(r.e.window())
		if n == 0 {
			return false
		}
		r.e.pos += int(n)
		run, size := int(v>>4), uint(v&15)
		if size == 0 && run != 15 {
			return r.endBand(run)
		}
		if k += run; k > r.scan.end {
			return false
		}
		if size > 0 {
			value := extend(r.e.bits(size), size) << r.scan.low
			if value > greatestDC || value < -greatestDC {
				return false
			}
			p.set(b, k, value)
		}
	}
	return true
}

// endBand reads for how many blocks an end of band holds, this one taken off.
func (r *scanReader) endBand(run int) bool {
	if r.f.frame != markSOF2 && run > 0 {
		return false
	}
	r.band = 1<<run + int32(r.e.bits(uint(run))) - 1
	return true
}

// refine reads one more bit of a block's coefficients (T.81, G.1.2.3).
func (r *scanReader) refine(ac *huffman, p *plane, b int) bool {
	k, one := r.scan.start, int32(1)<<r.scan.low
	if r.band == 0 {
		for ; k <= r.scan.end; k++ {
			n, v := ac.look(r.e.window())
			if n == 0 {
				return false
			}
			r.e.pos += int(n)
			run, fresh := int(v>>4), int32(0)
			switch v & 15 {
			case 0:
				if run != 15 {
					if !r.endBand(run) {
						return false
					}
					r.band++ // this block's rest is read below
				}
			case 1:
				if fresh = -one; r.e.bits(1) == 1 {
					fresh = one
				}
			default:
				return false
			}
			if r.band > 0 {
				break
			}
			k = r.old(p, b, k, run, one)
			if k > r.scan.end {
				return false
			}
			if fresh != 0 {
				p.set(b, k, fresh)
			}
		}
	}
	if r.band > 0 {
		r.band--
		r.old(p, b, k, -1, one)
	}
	return true
}

// old reads a bit for each coefficient from k on that is not zero, and stops at the zero after so many others; with
// -1 it goes to the end of the band.
func (r *scanReader) old(p *plane, b, k, zeros int, one int32) int {
	for ; k <= r.scan.end; k++ {
		v := p.at(b, k)
		if v == 0 {
			if zeros == 0 {
				break
			}
			zeros--
			continue
		}
		if r.e.bits(1) == 0 {
			continue
		}
		if v > 0 {
			v += one
		} else {
			v -= one
		}
		p.set(b, k, v)
	}
	return k
}
