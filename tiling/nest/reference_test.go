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

func TestPlainFillReachesPlainFill(t *testing.T) {
	// Measured with exact no-fit polygons, pieces in order of falling area, every turn, the leftmost, then lowest place.
	for name, floor := range map[string]float64{
		"albano": 76.30, "dagli": 75.50, "fu": 76.15, "jakobs1": 70.00, "marques": 83.72, "dighe2": 64.81,
	} {
		t.Run(name, func(t *testing.T) {
			pieces, sheets := load(t, name)
			plan, err := nest.Nest(context.Background(), pieces, sheets, nest.Options{Trials: 1})
			require.NoError(t, err)
			t.Logf("%.3f", density(plan, sheets[0].Height))
			requireSound(t, pieces, sheets, nest.Options{}, plan)
			require.GreaterOrEqual(t, math.Round(100*density(plan, sheets[0].Height))/100, floor)
		})
	}
}
