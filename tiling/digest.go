package tiling

import (
	"bytes"
	"crypto/sha256"
	"encoding/binary"
	"math"
	"slices"

	"markout/layout/drawing"
	"markout/layout/geom"
)

// Digester works out the digest of what is drawn on a page: SHA-256 of the view, the scale, the set's `sides` and the
// page's window, then of its lines, areas and words, clipped to the window, in whole micrometres, each as bytes, sorted.
// Names, owners and the order of elements are not in it. It is reused page after page.
type Digester struct {
	// Names are what pieces that are called otherwise now were called in an earlier issue, by their names: in a text such a name counts
	// as the earlier one, so that a piece called otherwise changes no digest. Nil where nothing is called otherwise.
	Names map[string]string

	head  []byte
	data  []byte
	items []span
	out   []byte
}

type span struct{ from, to int }

// Reset begins a page. Window is in the view's millimetres.
func (d *Digester) Reset(view, scale, sides string, window geom.Rect) {
	d.data, d.items = d.data[:0], d.items[:0]
	h := d.head[:0]
	for _, s := range [...]string{view, scale, sides} {
		h = binary.BigEndian.AppendUint32(h, uint32(len(s)))
		h = append(h, s...)
	}
	for _, x := range [...]float64{window.Min.X, window.Min.Y, window.Max.X, window.Max.Y} {
		h = appendMicrons(h, x)
	}
	d.head = h
}

// Line adds a polyline clipped to the window, in the view's millimetres. The way that a line without dashes is drawn does not count.
func (d *Digester) Line(m drawing.Mark, t drawing.LineType, width float64, tone drawing.Tone, phase float64, closed bool, points []geom.Point) {
	d.begin('L', m, tone)
	d.data = append(d.data, byte(t), flag(closed))
	d.data = appendMicrons(d.data, width)
	d.data = appendMicrons(d.data, phase)
	at := len(d.data)
	d.points(points)
	if n := len(points); n > 1 && !closed && t == drawing.Continuous {
		// The end that comes first in the bytes' order is where it begins.
		const head, pair = 4, 16
		own := d.data[at+head:]
		if bytes.Compare(own[:pair], own[len(own)-pair:]) > 0 {
			for i, j := 0, len(own)-pair; i < j; i, j = i+pair, j-pair {
				for k := range pair {
					own[i+k], own[j+k] = own[j+k], own[i+k]
				}
			}
		}
	}
	d.end()
}

// Area adds an area clipped to the window.
func (d *Digester) Area(m drawing.Mark, tone drawing.Tone, rings [][]geom.Point) {
	d.begin('A', m, tone)
	for _, r := range rings {
		d.points(r)
	}
	d.end()
}

// Word adds a text that the window shows.
func (d *Digester) Word(m drawing.Mark, t *Text) {
	d.begin('W', m, t.Tone)
	d.data = append(d.data, flag(t.Bold))
	for _, x := range [...]float64{t.At.X, t.At.Y, t.Turn, t.Height} {
		d.data = appendMicrons(d.data, x)
	}
	d.text(t.Text)
	d.end()
}

// text adds a text, with what pieces were called in place of what they are called.
func (d *Digester) text(t string) { d.data = d.called(d.data, t) }

// Called returns a text with what pieces were called in place of what they are called.
func (d *Digester) Called(t string) string {
	if len(d.Names) == 0 {
		return t
	}
	return string(d.called(nil, t))
}

func (d *Digester) called(dst []byte, t string) []byte {
	if len(d.Names) == 0 {
		return append(dst, t...)
	}
	for len(t) > 0 {
		n := 0
		for n < len(t) && inName(t[n]) {
			n++
		}
		word := t[:n]
		if n == 0 {
			n, word = 1, t[:1]
		}
		if was, ok := d.Names[word]; ok {
			word = was
		}
		dst = append(dst, word...)
		t = t[n:]
	}
	return dst
}

// inName reports whether a byte can stand in a name; the bytes of a character beyond ASCII can.
func inName(b byte) bool {
	return b >= 'a' && b <= 'z' || b >= 'A' && b <= 'Z' || b >= '0' && b <= '9' || b == '_' || b >= 0x80
}

// Sum returns the digest.
func (d *Digester) Sum() [sha256.Size]byte {
	slices.SortFunc(d.items, func(a, b span) int { return bytes.Compare(d.data[a.from:a.to], d.data[b.from:b.to]) })
	out := append(d.out[:0], d.head...)
	for _, s := range d.items {
		out = binary.BigEndian.AppendUint32(out, uint32(s.to-s.from))
		out = append(out, d.data[s.from:s.to]...)
	}
	d.out = out
	return sha256.Sum256(out)
}

// Empty reports whether nothing was added since Reset.
func (d *Digester) Empty() bool { return len(d.items) == 0 }

func (d *Digester) begin(kind byte, m drawing.Mark, tone drawing.Tone) {
	d.items = append(d.items, span{from: len(d.data)})
	d.data = append(d.data, kind, byte(m.Layer), byte(m.Role))
	d.data = appendMicrons(d.data, float64(tone))
}

func (d *Digester) end() { d.items[len(d.items)-1].to = len(d.data) }

func (d *Digester) points(ps []geom.Point) {
	d.data = binary.BigEndian.AppendUint32(d.data, uint32(len(ps)))
	for _, p := range ps {
		d.data = appendMicrons(appendMicrons(d.data, p.X), p.Y)
	}
}

func appendMicrons(b []byte, mm float64) []byte {
	return binary.BigEndian.AppendUint64(b, uint64(int64(math.Round(mm*1000))))
}

func flag(b bool) byte {
	if b {
		return 1
	}
	return 0
}

// markLetters leave out 0, O, 1 and I, which eyes take for one another.
const markLetters = "23456789ABCDEFGHJKLMNPQRSTUVWXYZ"

// ContentMark returns the four characters by which eyes tell drawings apart, from the digest's first 20 bits. Programs
// compare the whole digest.
func ContentMark(digest [sha256.Size]byte) string {
	n := binary.BigEndian.Uint32(digest[:])
	return string([]byte{markLetters[n>>27], markLetters[n>>22&31], markLetters[n>>17&31], markLetters[n>>12&31]})
}
