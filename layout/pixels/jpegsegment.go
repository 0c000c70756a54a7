package pixels

import "encoding/binary"

// segment is a marker and what follows it.
type segment struct {
	mark   byte
	at     int64 // of its 0xff
	length int   // of its contents, without the two bytes that say it
}

// alone reports whether the marker has no contents.
func (g segment) alone() bool { return g.mark == markEOI || g.mark == markSOI || g.mark == 0x01 }

// nextSegment finds the next marker. Bytes between segments and fill bytes are passed over, as readers in use do; a
// restart marker after the last row is harmless.
func nextSegment(s *source) (segment, error) {
	for {
		b, err := s.byte()
		if err != nil {
			return segment{}, noEnd(s, err)
		}
		if b != 0xff {
			continue
		}
		g := segment{at: s.offset() - 1}
		for b == 0xff {
			if b, err = s.byte(); err != nil {
				return segment{}, noEnd(s, err)
			}
		}
		if b == 0 || b >= markRST0 && b <= markRST7 {
			continue
		}
		g.mark = b
		if g.alone() {
			if b == markEOI {
				return g, nil
			}
			return g, jpegError(g.at, "a marker (%#x) that does not belong here", b).hint(saveAgain)
		}
		var n [2]byte
		if err := s.full(n[:], "a marker's length"); err != nil {
			return g, asJPEG(err)
		}
		if g.length = int(binary.BigEndian.Uint16(n[:])) - 2; g.length < 0 {
			return g, jpegError(g.at, "marker %#x says a length of %d, and 2 is the least", b, g.length+2).hint(saveAgain)
		}
		if end := s.offset() + int64(g.length); end > s.size {
			return g, jpegError(s.size, "the file ends in the middle of marker %#x, which starts at byte %d", b, g.at).hint(saveAgain)
		}
		return g, nil
	}
}

func noEnd(s *source, err error) error {
	if err == errEnd {
		return jpegError(s.offset(), "the file is cut off: its end marker is missing").hint(saveAgain)
	}
	return err
}

func asJPEG(err error) error {
	if e, ok := err.(*Error); ok {
		e.Format = JPEG
	}
	return err
}

// contents reads a segment whole.
func (g segment) contents(s *source) ([]byte, error) {
	b := make([]byte, g.length)
	return b, asJPEG(s.full(b, "a marker's contents"))
}

// skip passes a segment over.
func (g segment) skip(s *source) { s.seek(s.offset() + int64(g.length)) }

// table reads a segment that may stand between scans.
func (f *jpegFile) table(s *source, seg segment) error {
	switch seg.mark {
	case markDQT, markDHT, markDRI:
	case markCOM:
		seg.skip(s)
		return nil
	case 0xcc:
		return jpegError(seg.at, "this is an arithmetically coded JPEG, a kind that is not read").hint(saveJPEGPlain)
	case 0xdc:
		return jpegError(seg.at, "it says its height only after its pixels (marker DNL), which is not read").hint(saveAgain)
	default:
		if seg.mark >= markAPP0 && seg.mark <= markAPPF {
			seg.skip(s)
			return nil
		}
		return jpegError(seg.at, "marker %#x is not one that is read", seg.mark).hint(saveJPEGPlain)
	}
	b, err := seg.contents(s)
	if err != nil {
		return err
	}
	switch seg.mark {
	case markDQT:
		return f.quantisation(b, seg.at)
	case markDHT:
		return f.codes(b, seg.at)
	}
	if len(b) != 2 {
		return jpegError(seg.at, "the restart interval has %d bytes, and should have 2", len(b)).hint(saveAgain)
	}
	f.restart = int(binary.BigEndian.Uint16(b))
	return nil
}

// quantisation reads a DQT segment. Once pixels have begun a table may be said again, but not changed.
func (f *jpegFile) quantisation(b []byte, at int64) error {
	short := jpegError(at, "a quantisation table is cut short or its number is wrong").hint(saveAgain)
	for len(b) > 0 {
		wide, id := int(b[0]>>4), b[0]&15
		if b = b[1:]; wide > 1 || id > 3 || len(b) < 64*(1+wide) {
			return short
		}
		var q [64]uint16
		for i := range q {
			if wide == 1 {
				q[i] = binary.BigEndian.Uint16(b[2*i:])
			} else {
				q[i] = uint16(b[i])
			}
		}
		b = b[64*(1+wide):]
		if f.data != 0 && f.quant[id] != nil && *f.quant[id] != q {
			return jpegError(at, "a quantisation table changes after pixels have begun, which is not read").hint(saveJPEGPlain)
		}
		f.quant[id] = &q
	}
	return nil
}

// codes reads a DHT segment.
func (f *jpegFile) codes(b []byte, at int64) error {
	for len(b) > 0 {
		if len(b) < 17 || b[0]>>4 > 1 || b[0]&15 > 3 {
			return jpegError(at, "a Huffman table is cut short or its number is wrong").hint(saveAgain)
		}
		n := 0
		for _, c := range b[1:17] {
			n += int(c)
		}
		if n == 0 || n > 256 || len(b) < 17+n {
			return jpegError(at, "a Huffman table has %d codes, which does not fit", n).hint(saveAgain)
		}
		h, ok := newHuffman([16]byte(b[1:17]), b[17:17+n])
		if !ok {
			return jpegError(at, "a Huffman table has more codes than there can be").hint(saveAgain)
		}
		if b[0]>>4 == 0 {
			f.dc[b[0]&15] = h
		} else {
			f.ac[b[0]&15] = h
		}
		b = b[17+n:]
	}
	return nil
}
