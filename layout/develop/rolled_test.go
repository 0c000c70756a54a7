package develop_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
)

// rolledLength is what of a piece is rolled, and the degrees it is rolled by, by radius of the seen side.
func rolledLength(p *develop.Piece) (long, sweep float64) {
	for _, r := range p.Rolls {
		long, sweep = long+r.To-r.From, sweep+r.Sweep
	}
	return long, sweep
}

func pieceOf(t *testing.T, m *develop.Model, name string) *develop.Piece {
	t.Helper()
	for i := range m.Pieces {
		if m.Pieces[i].Name == name {
			return &m.Pieces[i]
		}
	}
	var names []string
	for _, p := range m.Pieces {
		names = append(names, p.Name)
	}
	require.Failf(t, "no such piece", "%s among %q", name, names)
	return nil
}

// Sheet-metal handbooks: the stretch-out of a cylinder is π × D (enginemechanics.tpub.com/14119, figure 14-44), of sheet
// with a thickness that of its middle, π × the mean diameter; of part of one its share. Each row is worked out from the
// set's own measures, none from the piece.
func TestStretchOut(t *testing.T) {
	const card = 0.5
	mean := func(outside, share float64) float64 { return math.Pi * (outside - card) * share }
	within := func(inside, share float64) float64 { return math.Pi * (inside + card) * share }
	for name, c := range map[string]struct {
		text, piece string
		long, sweep float64
	}{
		"tube":             {"post mast\n    diameter 600\n    height 3000\n", "tube", mean(60, 1), 360},
		"drum":             {"platform drum\n    outline circle 2400\n    height 450\n", "wall", mean(240, 1), 360},
		"kerb, outside":    {"ring kerb\n    outer 5200\n    inner 4400\n    height 300\n", "wall", mean(520, 1), 360},
		"kerb, inside":     {"ring kerb\n    outer 5200\n    inner 4400\n    height 300\n", "inner wall", within(440, 1), 360},
		"rounded corners":  {"platform pad\n    outline path 300,0 line 2700,0 arc to 3000,300 radius 300 left line 3000,1500 arc to 2700,1800 radius 300 left line 300,1800 arc to 0,1500 radius 300 left line 0,300 arc to 300,0 radius 300 left close\n    height 450\n", "wall", mean(60, 1), 360},
		"quarter, face":    {"flat bay\n    along path 2000,2000 arc to 0,4000 radius 2000 left\n    height 2400\n    thickness 100\n", "face, back and ends", mean(400, 0.25) + within(380, 0.25), 180},
		"quarter, layer":   {"flat bay\n    along path 2000,2000 arc to 0,4000 radius 2000 left\n    height 2400\n", "face", mean(400, 0.25), 90},
		"quarter, hollow":  {"flat bay\n    along path 2000,2000 arc to 0,4000 radius 2000 left\n    height 2400\n    face left\n", "face", within(400, 0.25), 90},
		"an S of two arcs": {"flat ess\n    along path 0,0 arc to 1000,1000 radius 1000 left arc to 2000,2000 radius 1000 right\n    height 2400\n", "face", mean(200, 0.25) + within(200, 0.25), 180},
	} {
		t.Run(name, func(t *testing.T) {
			for _, outside := range []bool{true, false} {
				m, list := develop.Develop(open(t, c.text), develop.Options{Scale: 10, Card: card, PrintOutside: outside})
				require.Empty(t, printed(list))
				p := pieceOf(t, m, c.piece)
				long, sweep := rolledLength(p)
				require.InDelta(t, c.long, long, 1e-9)
				require.InDelta(t, c.sweep, sweep, 1e-9)
				require.Equal(t, develop.Along, p.Grain)
			}
		})
	}
}

// An ellipse has no stretch-out in closed form. Its circumference by Ramanujan's second approximation (Modular equations
// and approximations to π, 1914) is right to 1e-7 at this axis ratio; the middle of the card is a parallel of a convex
// outline, shorter by 2π times half the card.
func TestStretchOutOfAnEllipse(t *testing.T) {
	m, list := develop.Develop(open(t, "platform egg\n    outline ellipse 2400 x 1200\n    height 450\n"), develop.Options{Scale: 10, Card: 0.5})
	require.Empty(t, printed(list))
	long, sweep := rolledLength(pieceOf(t, m, "wall"))
	a, b := 120.0, 60.0
	h := (a - b) * (a - b) / ((a + b) * (a + b))
	around := math.Pi * (a + b) * (1 + 3*h/(10+math.Sqrt(4-3*h)))
	require.InDelta(t, around-math.Pi*0.5, long, 1e-3)
	require.InDelta(t, 360, sweep, 0.1)
}

// A quarter of a cylinder by hand: face of radius 2000 at 1:25, card of 1.5. The face is 2000·π/2/25 long on its line, the
// middle of its card lies 0.75 further in. A door 800 wide is cut 800/25 × (80 − 0.75)/80 wide, which comes to 32 once
// rolled; in the back skin, of radius 72 outside, whose middle is at 72.75, it is 32 × 72.75/80.
func TestCurvedFlatByHand(t *testing.T) {
	m, list := develop.Develop(open(t, "flat bay\n    along path 2000,2000 arc to 0,4000 radius 2000 left\n    height 2400\n    thickness 200\n    opening door at 600 size 800 x 2000\n"), develop.Options{Scale: 25, Card: 1.5, PrintOutside: true})
	require.Empty(t, printed(list))
	require.Empty(t, m.Notes)
	face, back := pieceOf(t, m, "face"), pieceOf(t, m, "back")
	require.InDelta(t, math.Pi/2*79.25, face.Outline.Bounds().W(), 1e-6)
	require.InDelta(t, math.Pi/2*72.75, back.Outline.Bounds().W(), 1e-6)
	require.InDelta(t, 96, face.Outline.Bounds().H(), 1e-6)
	door := func(p *develop.Piece) (from, to float64) {
		n := p.Outline.Outer.Vertices()
		require.Len(t, n, 8, "a rectangle with a notch")
		return n[1].X, n[4].X
	}
	from, to := door(face)
	require.InDelta(t, 24*79.25/80, from, 1e-6)
	require.InDelta(t, 56*79.25/80, to, 1e-6)
	behind, past := door(back) // seen from behind P is on the right
	require.InDelta(t, (math.Pi/2*80-56)*72.75/80, behind, 1e-6)
	require.InDelta(t, (math.Pi/2*80-24)*72.75/80, past, 1e-6)
	for _, name := range []string{"left end", "right end"} {
		b := pieceOf(t, m, name).Outline.Bounds()
		require.InDelta(t, 96, b.H(), 1e-6)
		require.InDelta(t, 8-3, b.W(), 0.02, "between two cards, to their inner faces")
	}
	require.InDelta(t, 80, pieceOf(t, m, "reveal 1, left jamb").Outline.Bounds().H(), 1e-6)
	// The strips are annuli between radii 78.5 and 73.5, less what the ends and jambs take: the textbook's ring sector.
	top := pieceOf(t, m, "top edge")
	whole := math.Pi / 4 * (78.5*78.5 - 73.5*73.5)
	require.InDelta(t, whole-2*5*1.5, top.Outline.Area(), 0.05)
	// Relief cuts stop at the door's head and do not run over it.
	require.NotEmpty(t, face.Relief)
	for _, r := range face.Relief {
		x, low := r.Line.From.X, min(r.Line.From.Y, r.Line.To.Y)
		if x > from && x < to {
			require.InDelta(t, 80, low, 1e-9)
		} else {
			require.InDelta(t, 0, low, 1e-9)
		}
	}
}
