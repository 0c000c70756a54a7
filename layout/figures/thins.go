package figures

import (
	"crypto/sha256"
	"encoding/binary"
	"math"
	"sync"

	"markout/layout/geom"
)

// Thins keeps the thin parts of areas, each area looked at once. Many may use it at one time.
type Thins struct {
	mu    sync.Mutex
	known map[[sha256.Size]byte][]Thin
}

// Parts is ThinParts. What it returns is not to be changed.
func (t *Thins) Parts(r geom.Region, width float64) []Thin {
	key := areaKey(r, width)
	t.mu.Lock()
	parts, ok := t.known[key]
	t.mu.Unlock()
	if ok {
		return parts
	}
	parts = ThinParts(r, width)
	t.mu.Lock()
	defer t.mu.Unlock()
	if t.known == nil {
		t.known = map[[sha256.Size]byte][]Thin{}
	}
	t.known[key] = parts
	return parts
}

// areaKey tells areas and widths apart that differ in any bit.
func areaKey(r geom.Region, width float64) (key [sha256.Size]byte) {
	h := sha256.New()
	var buf []byte
	number := func(list ...float64) {
		for _, x := range list {
			buf = binary.LittleEndian.AppendUint64(buf, math.Float64bits(x))
		}
	}
	number(width, float64(len(r.Holes)))
	for _, p := range append([]*geom.Path{r.Outer}, r.Holes...) {
		number(float64(p.Len()))
		for _, s := range p.Segments() {
			number(float64(s.Kind), s.From.X, s.From.Y, s.To.X, s.To.Y, s.C1.X, s.C1.Y, s.C2.X, s.C2.Y,
				s.Centre.X, s.Centre.Y, s.RX, s.RY, s.Phi, s.Theta, s.Sweep)
		}
		h.Write(buf)
		buf = buf[:0]
	}
	h.Sum(key[:0])
	return key
}
