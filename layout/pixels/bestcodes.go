package pixels

import "slices"

// codes are a table's codes by symbol, for writing; a length of 0 is a symbol without a code.
type codes struct {
	code   [256]uint32
	length [256]byte
}

func (h *huffman) codes() codes {
	var c codes
	code, k := uint32(0), 0
	for l := 1; l <= 16; l++ {
		for range h.counts[l-1] {
			c.code[h.values[k]], c.length[h.values[k]] = code, byte(l)
			code++
			k++
		}
		code <<= 1
	}
	return c
}

// bestCodes makes the table that codes symbols that come so often in the fewest bits, none longer than 16 and none
// of ones only (T.81, K.2: two rarest joined again and again, one spare symbol, long codes folded back).
func bestCodes(count *[256]int64) *huffman {
	const spare = 256
	var freq [257]int64
	copy(freq[:], count[:])
	freq[spare] = 1
	if !slices.ContainsFunc(count[:], func(n int64) bool { return n > 0 }) {
		freq[0] = 1 // a table has one code at least
	}
	var size [257]int
	var next [257]int
	for i := range next {
		next[i] = -1
	}
	rarest := func(but int) int {
		found := -1
		for i, n := range freq {
			if n > 0 && i != but && (found < 0 || n <= freq[found]) {
				found = i
			}
		}
		return found
	}
	for {
		a := rarest(-1)
		b := rarest(a)
		if b < 0 {
			break
		}
		freq[a], freq[b] = freq[a]+freq[b], 0
		last := a
		for ; ; last = next[last] {
			size[last]++
			if next[last] < 0 {
				break
			}
		}
		next[last] = b
		for ; b >= 0; b = next[b] {
			size[b]++
		}
	}
	var have [258]int // codes by length
	for _, n := range size {
		if n > 0 {
			have[n]++
		}
	}
	for l := len(have) - 1; l > 16; l-- {
		for have[l] > 0 {
			short := l - 2
			for have[short] == 0 {
				short--
			}
			have[l] -= 2
			have[l-1]++
			have[short+1] += 2
			have[short]--
		}
	}
	longest := 16
	for have[longest] == 0 {
		longest--
	}
	have[longest]-- // the spare one's
	var counts [16]byte
	for l := 1; l <= 16; l++ {
		counts[l-1] = byte(have[l])
	}
	var values []byte
	for l := 1; l < len(have); l++ {
		for s := range 256 {
			if size[s] == l {
				values = append(values, byte(s))
			}
		}
	}
	h, _ := newHuffman(counts, values)
	return h
}
