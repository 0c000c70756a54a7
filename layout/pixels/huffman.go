package pixels

// huffman is one table of codes, made for reading: T.81, annex C and F.2.2.3.
type huffman struct {
	counts [16]byte // codes of 1 to 16 bits
	values []byte

	short [1 << shortBits]uint16 // by the next bits: length<<8 | value; 0 where the code is longer or there is none
	limit [17]uint32             // of codes of each length: one past the last, aligned to 16 bits
	base  [17]int32              // value's index minus the code, by length
}

const (
	shortBits = 10
	runBits   = 12
	runEnds   = 1 << 16
)

// newHuffman makes a table from a DHT segment's counts and values; false when there are more codes of a length than
// are left.
func newHuffman(counts [16]byte, values []byte) (*huffman, bool) {
	h := &huffman{counts: counts, values: append([]byte(nil), values...)}
	code, k := uint32(0), 0
	for l := 1; l <= 16; l++ {
		h.base[l] = int32(k) - int32(code)
		for range counts[l-1] {
			if code >= 1<<l {
				return nil, false
			}
			if l <= shortBits {
				first := code << (shortBits - l)
				for i := range uint32(1) << (shortBits - l) {
					h.short[first+i] = uint16(l)<<8 | uint16(values[k])
				}
			}
			code++
			k++
		}
		h.limit[l] = code << (16 - l)
		code <<= 1
	}
	return h, true
}

// look finds the code at the top of 64 bits: its length, 0 when there is none, and its value.
func (h *huffman) look(window uint64) (length uint, value byte) {
	if e := h.short[window>>(64-shortBits)]; e != 0 {
		return uint(e >> 8), byte(e)
	}
	top := uint32(window >> 48)
	for l := uint(1); l <= 16; l++ {
		if top < h.limit[l] {
			return l, h.values[h.base[l]+int32(top>>(16-l))]
		}
	}
	return 0, 0
}

// runs is, by the next runBits bits, as many whole codes of coefficients after the first, each with the bits that
// follow it, as fit: bits 0-7 say how many bits they are, 8-15 how many coefficients they pass, 16 whether an end of
// block is the last of them. 0 where not even one fits.
type runs [1 << runBits]uint32

// runs makes the table for a sequential picture, which has no ends of band.
func (h *huffman) runs() *runs {
	t := new(runs)
	for i := range t {
		window := uint64(i) << (64 - runBits)
		bits, passed, ends := uint(0), 0, uint32(0)
		for ends == 0 {
			l, v := h.look(window)
			n := l + uint(v&15)
			if l == 0 || bits+n > runBits || v&15 == 0 && v != 0 && v != 0xf0 {
				break
			}
			if v == 0 {
				ends = runEnds
			} else {
				passed += int(v>>4) + 1
			}
			bits += n
			window <<= n
		}
		t[i] = ends | uint32(passed)<<8 | uint32(bits)
	}
	return t
}

// extend turns the n bits that follow a code into the number that they mean (T.81, figure F.12).
func extend(bits uint32, n uint) int32 {
	if n == 0 {
		return 0
	}
	v := int32(bits)
	if v < 1<<(n-1) {
		v += -1<<n + 1
	}
	return v
}
