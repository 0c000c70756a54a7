package pixels

import (
	"bytes"
	"encoding/binary"
)

// entropy gives the bits of coded data: the zero after each 0xff is taken out, and a marker ends the stretch.
//
// Bits are read in place: pos counts bits from buf's start, and whoever reads looks at 64 of them at a time. buf
// goes on for slack bytes past its end, so that a block can be read without asking after each code; that pos has not
// passed the end is asked once a block.
type entropy struct {
	s      *source
	buf    []byte
	end    int  // bytes of buf that are data
	pos    int  // next bit
	marker byte // the marker that ended the stretch, 0 while it goes on
	over   bool // the file ended
}

// slack is more than a block can take: 64 codes of 16 bits, each with 15 bits after it, and the last look.
const slack = 64*31/8 + 16

// window is the next 57 or more bits, at the top.
func (e *entropy) window() uint64 {
	return binary.BigEndian.Uint64(e.buf[e.pos>>3:]) << (e.pos & 7)
}

// bits takes n of at most 32 bits.
func (e *entropy) bits(n uint) uint32 {
	w := e.window()
	e.pos += int(n)
	return uint32(w >> 32 >> (32 - n))
}

// drop forgets the bytes that have been read; places in buf change.
func (e *entropy) drop() {
	n := min(e.pos>>3, e.end)
	left := copy(e.buf, e.buf[n:e.end])
	e.end = left
	e.pos -= 8 * n
	e.pad()
}

// pad clears the slack behind the data.
func (e *entropy) pad() {
	if cap(e.buf) < e.end+slack {
		grown := make([]byte, e.end, 2*e.end+slack+sourceRoom)
		copy(grown, e.buf[:e.end])
		e.buf = grown
	}
	e.buf = e.buf[:e.end+slack]
	clear(e.buf[e.end:])
}

// ready makes sure that a block's worth of data stands ready, or all that there is.
func (e *entropy) ready() error {
	if e.end-e.pos>>3 >= slack || e.marker != 0 || e.over {
		return nil
	}
	return e.fill()
}

func (e *entropy) fill() error {
	e.buf = e.buf[:e.end]
	for len(e.buf)-e.pos>>3 < slack && e.marker == 0 && !e.over {
		if err := e.s.fill(); err != nil {
			if err != errEnd {
				return err
			}
			e.over = true
			break
		}
		chunk := e.s.buf[e.s.i:]
		n := bytes.IndexByte(chunk, 0xff)
		if n < 0 {
			n = len(chunk)
		}
		e.buf = append(e.buf, chunk[:n]...)
		if e.s.i += n; n == len(chunk) {
			continue
		}
		if err := e.escaped(); err != nil {
			return err
		}
	}
	e.end = len(e.buf)
	e.pad()
	return nil
}

// escaped reads on from a 0xff: a zero behind it makes it data, more of them are filling, anything else is a marker.
func (e *entropy) escaped() error {
	b := byte(0xff)
	for first := true; b == 0xff; first = false {
		next, err := e.s.byte()
		if err == nil && first {
			next, err = e.s.byte()
		}
		if err == errEnd {
			e.over = true
			return nil
		}
		if err != nil {
			return err
		}
		if b = next; b == 0 {
			e.buf = append(e.buf, 0xff)
			return nil
		}
	}
	e.marker = b
	return nil
}

// passed reports whether more bits were read than there are.
func (e *entropy) passed() bool { return e.pos > 8*e.end }

// where is about the place of the next bit in the file.
func (e *entropy) where() int64 { return max(0, e.s.offset()-int64(max(0, e.end-e.pos>>3))) }

// short is the error for a block that reads past the data.
func (e *entropy) short() error {
	if e.over {
		return jpegError(e.s.size, "the file is cut off in the middle of its pixels").hint(saveAgain)
	}
	return jpegError(e.where(), "the pixels end too early, at marker %#x", e.marker).hint(saveAgain)
}

// again passes the restart marker number n (0 to 7) and begins the next stretch.
func (e *entropy) again(n int) error {
	e.pos = (e.pos + 7) &^ 7
	for e.marker == 0 && !e.over && e.pos>>3 == e.end {
		if err := e.fill(); err != nil {
			return err
		}
	}
	if e.marker != markRST0+byte(n) || e.pos>>3 != e.end {
		return jpegError(e.where(), "restart marker %d is missing or out of its place", n).hint(saveAgain)
	}
	e.marker = 0
	return nil
}

// finish leaves the source at the marker that ends the scan. Data that nothing needs is passed over.
func (e *entropy) finish() {
	if e.marker != 0 {
		e.s.seek(e.s.offset() - 2)
	} else {
		e.s.seek(e.s.offset() - int64(max(0, e.end-(e.pos+7)>>3)))
	}
}
