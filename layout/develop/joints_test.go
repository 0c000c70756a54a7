package develop_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/geom"
)

// requireJoints checks that both sides of every joint are one line in the made model, within 0.01 mm, and lie on what is cut.
func requireJoints(t *testing.T, m *develop.Model) {
	t.Helper()
	for _, j := range m.Joints {
		a, b := &m.Pieces[j.A.Piece], &m.Pieces[j.B.Piece]
		require.Equal(t, len(j.A.Line), len(j.B.Line))
		for i := range j.A.Line {
			p, q := beside(a, j.A, i), beside(b, j.B, i)
			d := math.Sqrt((p.X-q.X)*(p.X-q.X) + (p.Y-q.Y)*(p.Y-q.Y) + (p.Z-q.Z)*(p.Z-q.Z))
			require.LessOrEqual(t, d, 0.01, "%s of %s: %s and %s are apart at %v and %v", j.Label(), j.Element, a.Name, b.Name, p, q)
		}
	}
}

// beside is the made place of point i of a joint's side; at a fold that of the panel that the line comes from.
func beside(p *develop.Piece, s develop.Side, i int) geom.Vec {
	q, to := s.Line[i], s.Line[(i+1)%len(s.Line)]
	if i > 0 {
		to = s.Line[i-1]
	}
	if i+1 < len(s.Line) && i > 0 && s.Line[i+1].Dist(q) > 1e-9 && s.Line[i-1].Dist(q) <= 1e-9 {
		to = s.Line[i+1]
	}
	const step = 1e-5
	if l := to.Dist(q); l > step {
		q = q.Lerp(to, step/l)
	}
	return p.Made(q, s.Depth)
}

// requireOnCard checks what can be said of a flat piece by itself.
func requireOnCard(t *testing.T, p *develop.Piece) {
	t.Helper()
	b := p.Outline.Bounds()
	require.InDelta(t, 0, b.Min.X, 1e-9)
	require.InDelta(t, 0, b.Min.Y, 1e-9)
	_, _, _, crosses := p.Outline.Outer.SelfCrossing()
	require.False(t, crosses, "the outline of %s %s crosses itself", p.Label(), p.Name)
	require.Positive(t, p.Outline.Area())
	for _, f := range p.Folds {
		mid := f.Line.From.Lerp(f.Line.To, 0.5)
		require.True(t, p.Outline.Contains(mid), "a fold of %s lies on the card", p.Name)
		require.Positive(t, f.Angle+1)
	}
}
