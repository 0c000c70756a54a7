package sheet

import (
	"context"
	"fmt"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/set"
)

// manyParts is a set of 300 elements.
func manyParts() []part {
	var out []part
	for i := range 300 {
		out = append(out, part{fmt.Sprintf("part%03d", i), i % 5, i % 7, i % 200})
	}
	return out
}

// BenchmarkModelOf300 lays the model of 300 elements anew, and with an earlier issue of which one element has changed; the latter
// also as a whole document.
func BenchmarkModelOf300(b *testing.B) {
	parts := manyParts()
	first := openText(b, textOf(parts))
	opt := onPaper(b, first, "A4", 10)
	opt.Stop = nil
	lay := func(b *testing.B, s *set.Set, opt ModelOptions) *CardModel {
		m, list := develop.Develop(s, develop.Options{})
		require.False(b, list.HasErrors())
		c, _, err := LayModel(context.Background(), s, m, opt)
		require.NoError(b, err)
		return c
	}
	was := lay(b, first, opt)
	keep := opt
	keep.Since = recorded(b, was)
	parts[101].size += 2
	second := openText(b, textOf(parts))
	for _, k := range []struct {
		name string
		opt  ModelOptions
	}{{"anew", opt}, {"kept", keep}} {
		b.Run(k.name, func(b *testing.B) {
			for range b.N {
				c := lay(b, second, k.opt)
				b.ReportMetric(float64(len(c.Model.Pieces)), "pieces")
				b.ReportMetric(float64(c.Kept), "kept")
			}
		})
	}
	b.Run("kept, the book", func(b *testing.B) {
		c := lay(b, second, keep)
		for range b.N {
			bookOf(b, c)
		}
	})
}
