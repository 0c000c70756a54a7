package cut

import (
	"encoding/binary"
	"errors"
	"math"
	"testing"

	"github.com/stretchr/testify/require"
)

// numbers reads arbitrary bytes as numbers, some of them as they stand, most of them of the size that
// pieces have.
type numbers struct{ b []byte }

func (n *numbers) next() uint16 {
	if len(n.b) < 2 {
		n.b = nil
		return 0
	}
	v := binary.LittleEndian.Uint16(n.b)
	n.b = n.b[2:]
	return v
}

func (n *numbers) length() float64 {
	v := n.next()
	switch v % 37 {
	case 0:
		return math.Float64frombits(uint64(n.next())<<48 | uint64(n.next())<<32)
	case 1:
		return -float64(v)
	case 2:
		return math.NaN()
	case 3:
		return math.Inf(1)
	}
	return float64(v%6000) / 4
}

func (n *numbers) count() int {
	v := n.next()
	switch v % 41 {
	case 0:
		return -int(v)
	case 1:
		return math.MaxInt
	}
	return int(v % 6)
}

func (n *numbers) bit() bool { return n.next()%2 == 1 }

// checkErr holds an error against what callers read of it.
func checkErr(t *testing.T, err error, pieces, stock int) {
	var f Faults
	require.True(t, errors.As(err, &f))
	require.NotEmpty(t, f)
	for _, one := range f {
		require.NotEmpty(t, one.Text)
		require.True(t, one.Piece >= -1 && one.Piece < pieces)
		require.True(t, one.Stock >= -1 && one.Stock < stock)
	}
	require.NotEmpty(t, err.Error())
}

func seeds(f *testing.F) {
	f.Add([]byte{})
	f.Add([]byte("\x01\x00abcdefghijklmnopqrstuvwxyz0123456789"))
	b := make([]byte, 64)
	for i := range b {
		b[i] = byte(i*29 + 11)
	}
	f.Add(b)
}

func FuzzLengths(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, b []byte) {
		n := &numbers{b[:min(len(b), 64)]}
		var stock []Bar
		for range n.next() % 4 {
			stock = append(stock, Bar{Name: "b", Length: n.length(), Count: n.count()})
		}
		kerf := n.length() / 100
		var pieces []Piece
		for len(n.b) > 0 {
			pieces = append(pieces, Piece{ID: "p", Length: n.length(), Count: n.count()})
		}
		p, err := Lengths(stock, pieces, kerf, Options{Effort: Quick})
		if err != nil {
			checkErr(t, err, len(pieces), len(stock))
			return
		}
		checkLengthPlan(t, stock, pieces, kerf, p)
	})
}

func FuzzBoards(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, b []byte) {
		n := &numbers{b[:min(len(b), 48)]}
		var stock []Board
		for range n.next() % 3 {
			stock = append(stock, Board{Name: "b", Length: n.length(), Width: n.length(), Count: n.count()})
		}
		kerf := n.length() / 100
		opt := BoardOptions{Free: n.bit()}
		opt.Effort = Quick
		var pieces []Rect
		for len(n.b) > 0 {
			pieces = append(pieces, Rect{ID: "p", Length: n.length(), Width: n.length(), Count: n.count(), Turn: n.bit()})
		}
		p, err := Boards(stock, pieces, kerf, opt)
		if err != nil {
			checkErr(t, err, len(pieces), len(stock))
			return
		}
		checkBoardPlan(t, stock, pieces, kerf, p)
	})
}

func FuzzBlocks(f *testing.F) {
	seeds(f)
	f.Fuzz(func(t *testing.T, b []byte) {
		n := &numbers{b[:min(len(b), 64)]}
		var stock []Box
		for range n.next() % 4 {
			stock = append(stock, Box{Name: "b", Length: n.length(), Width: n.length(), Height: n.length(), Count: n.count()})
		}
		opt := BlockOptions{Span: n.length(), Edge: n.length() / 10, Out: n.length() / 10, Plates: []float64{n.length() / 50, 18, 6}}
		var tops []Top
		for len(n.b) > 0 {
			tops = append(tops, Top{ID: "t", Length: n.length(), Width: n.length(), Height: n.length(), Count: n.count()})
		}
		p, err := Blocks(stock, tops, opt)
		if err != nil {
			checkErr(t, err, len(tops), len(stock))
			return
		}
		got := make([]int, len(tops))
		sum := 0
		for _, s := range p.Tops {
			got[s.Top] += s.Count
			h := s.Packing
			for _, l := range s.Layers {
				h += l.Height
				sum += s.Count * l.boxes()
			}
			require.InDelta(t, tops[s.Top].Height, h, 1e-4)
		}
		for i, top := range tops {
			require.Equal(t, top.Count, got[i])
		}
		require.Equal(t, sum, p.Boxes)
		require.Len(t, p.Used, len(stock))
	})
}
