package nest_test

import (
	"context"
	"flag"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/tiling/nest"
)

var benchTrials = flag.Int("trials", 20_000, "trials made by BenchmarkNest on each instance")

// BenchmarkNest reports the density in percent that a number of trials reaches on published instances.
func BenchmarkNest(b *testing.B) {
	for _, name := range names {
		b.Run(name, func(b *testing.B) {
			pieces, sheets := load(b, name)
			for b.Loop() {
				plan, err := nest.Nest(context.Background(), pieces, sheets, nest.Options{Trials: *benchTrials})
				require.NoError(b, err)
				requireSound(b, pieces, sheets, nest.Options{}, plan)
				b.ReportMetric(density(plan, sheets[0].Height), "density%")
			}
		})
	}
}

// BenchmarkNestCard is a card model as models are: mostly rectangles of any turn with a gap, on sheets of A4.
func BenchmarkNestCard(b *testing.B) {
	for _, e := range []struct {
		name   string
		effort nest.Effort
	}{{"quick", nest.Quick}, {"normal", nest.Normal}} {
		b.Run(e.name, func(b *testing.B) {
			pieces, sheets := card()
			opt := nest.Options{Gap: 2, Effort: e.effort}
			for b.Loop() {
				plan, err := nest.Nest(context.Background(), pieces, sheets, opt)
				require.NoError(b, err)
				b.ReportMetric(float64(len(plan.Sheets)), "sheets")
				b.ReportMetric(plan.Sheets[len(plan.Sheets)-1].Length, "mm")
			}
		})
	}
}
