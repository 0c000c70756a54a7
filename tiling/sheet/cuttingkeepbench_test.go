package sheet

import (
	"context"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/takeoff"
)

// BenchmarkCuttingOf300 lays what is cut of 300 parts anew, and with an earlier issue of which one has changed.
func BenchmarkCuttingOf300(b *testing.B) {
	r := rand.New(rand.NewPCG(1, 1))
	k := &carpentry{row: 2000}
	for range 300 {
		k.parts = append(k.parts, k.fresh(r))
	}
	first := k.set()
	was, err := LayCutting(context.Background(), first, takeoff.Take(first), CuttingOptions{})
	require.NoError(b, err)
	keep := CuttingOptions{Since: recordedCuts(b, was)}
	before := cutDigests(b, was)
	for i := range k.parts {
		if k.parts[i].Of == "ply 18" {
			k.parts[i].Length += 30
			break
		}
	}
	for _, how := range []struct {
		name string
		opt  CuttingOptions
	}{{"anew", CuttingOptions{}}, {"kept", keep}} {
		b.Run(how.name, func(b *testing.B) {
			s := k.set()
			for range b.N {
				c, err := LayCutting(context.Background(), s, takeoff.Take(s), how.opt)
				require.NoError(b, err)
				b.ReportMetric(float64(len(c.Boards)+len(c.Bars)), "boards")
				b.StopTimer()
				reprint := 0
				for label, d := range cutDigests(b, c) {
					if before[label] != d {
						reprint++
					}
				}
				b.ReportMetric(float64(reprint), "reprinted")
				b.StartTimer()
			}
		})
	}
}
