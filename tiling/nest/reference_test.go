package nest_test

import (
	"context"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/tiling/nest"
)

// instance is a published problem: pieces to be packed into a strip of fixed height and the least length. testdata/SOURCES.md
// says where each comes from.
type instance struct {
	Name   string    `json:"name"`
	Height float64   `json:"strip_height"`
	Turns  []float64 `json:"rotations_deg"`
	Pieces []struct {
		Count   int          `json:"count"`
		Outline [][2]float64 `json:"outline"`
	} `json:"pieces"`
}

func load(t testing.TB, name string) (pieces []nest.Piece, sheets []nest.Sheet) {
	data, err := os.ReadFile(filepath.Join("testdata", name+".json"))
	require.NoError(t, err)
	var in instance
	require.NoError(t, json.Unmarshal(data, &in))
	for _, p := range in.Pieces {
		pts := make([]geom.Point, len(p.Outline))
		for i, q := range p.Outline {
			pts[i] = geom.Point{X: q[0], Y: q[1]}
		}
		pieces = append(pieces, nest.Piece{Name: name, Count: p.Count, Turns: in.Turns, Outline: geom.Region{Outer: geom.Polygon(pts)}})
	}
	return pieces, []nest.Sheet{{Name: "strip", Height: in.Height, Roll: true}}
}

// density is the share in percent of the length used that pieces cover.
func density(p *nest.Plan, height float64) float64 {
	return 100 * p.Sheets[0].Area / (p.Sheets[0].Length * height)
}

var names = []string{"albano", "dagli", "fu", "jakobs1", "marques", "dighe2"}

func TestReferenceDensities(t *testing.T) {
	// fill: measured with exact no-fit polygons, pieces in order of falling area, every turn, the leftmost, then lowest place.
	// best: the densest layouts published (Gardeyn, Vanden Berghe, Wauters 2025; of dighe2 the optimum); more would be an overlap.
	for _, c := range []struct {
		name              string
		fill, quick, best float64
	}{
		{"albano", 76.30, 80, 89.82}, {"dagli", 75.50, 78, 90.17}, {"fu", 76.15, 82, 92.41},
		{"jakobs1", 70.00, 78, 89.26}, {"marques", 83.72, 83.72, 92.02}, {"dighe2", 64.81, 70, 100},
	} {
		t.Run(c.name, func(t *testing.T) {
			pieces, sheets := load(t, c.name)
			for trials, floor := range map[int]float64{1: c.fill, 2000: c.quick} {
				opt := nest.Options{Trials: trials}
				plan, err := nest.Nest(context.Background(), pieces, sheets, opt)
				require.NoError(t, err)
				requireSound(t, pieces, sheets, opt, plan)
				got := math.Round(100*density(plan, sheets[0].Height)) / 100
				require.GreaterOrEqual(t, got, floor, "%d trials", trials)
				require.LessOrEqual(t, got, c.best)
			}
		})
	}
}
