package pixels

import "encoding/binary"

// bitWriter puts bits one after the other, the highest first.
type bitWriter struct {
	out    []byte
	acc    uint64
	n      uint // bits in acc that are not in out yet, under 32 between calls
	escape bool // write a zero behind each 0xff, as coded data of a file needs
}

// put adds the lowest n of at most 32 bits; those above are zero.
func (w *bitWriter) put(v uint32, n uint) {
	w.acc = w.acc<<n | uint64(v)
	if w.n += n; w.n < 32 {
		return
	}
	w.n -= 32
	four := uint32(w.acc >> w.n)
	// A byte of ones anywhere: the complement has a byte of zeros.
	if c := ^four; !w.escape || (c-0x01010101)&^c&0x80808080 == 0 {
		w.out = binary.BigEndian.AppendUint32(w.out, four)
		return
	}
	for s := 24; s >= 0; s -= 8 {
		w.byte(byte(four >> s))
	}
}

func (w *bitWriter) byte(b byte) {
	w.out = append(w.out, b)
	if w.escape && b == 0xff {
		w.out = append(w.out, 0)
	}
}

// copy adds n bits of src from bit from; src goes on for 8 bytes behind them.
func (w *bitWriter) copy(src []byte, from, n uint32) {
	for n > 32 {
		v := binary.BigEndian.Uint64(src[from>>3:]) << (from & 7)
		w.put(uint32(v>>32), 32)
		from += 32
		n -= 32
	}
	if n > 0 {
		v := binary.BigEndian.Uint64(src[from>>3:]) << (from & 7)
		w.put(uint32(v>>32>>(32-n)), uint(n))
	}
}

// start begins anew, keeping the room.
func (w *bitWriter) start() { w.out, w.acc, w.n = w.out[:0], 0, 0 }

// written is how many bits there are, of a writer that does not escape.
func (w *bitWriter) written() uint32 { return uint32(8*len(w.out)) + uint32(w.n) }

// align fills the last byte with ones.
func (w *bitWriter) align() {
	if pad := (8 - w.n%8) % 8; pad > 0 {
		w.acc = w.acc<<pad | (1<<pad - 1)
		w.n += pad
	}
	for w.n > 0 {
		w.n -= 8
		w.byte(byte(w.acc >> w.n))
	}
}

// finish aligns and returns all bits with room behind them to be copied from.
func (w *bitWriter) finish() []byte {
	w.align()
	w.out = append(w.out, 0, 0, 0, 0, 0, 0, 0, 0)
	return w.out
}
