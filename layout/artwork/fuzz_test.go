package artwork

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/diag"
	"markout/layout/geom"
)

// FuzzReadSVG holds that whatever is read, the picture lies in reach and keeps what its types promise, that all that is
// said of it lies in the file, and that it is read in the same way twice.
func FuzzReadSVG(f *testing.F) {
	for _, s := range ownSamples(f) {
		f.Add(s.svg)
	}
	f.Add([]byte(head + `<text>x</text><path d="M0 0L1e30 5"/><use href="#a"/>`))
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<16 {
			return
		}
		list := &diag.List{Sources: &diag.Sources{}}
		file := list.Sources.Add("a.svg", data)
		p, ok := ReadSVG(list, file)
		require.True(t, ok || list.HasErrors(), "no picture without an error")
		require.Equal(t, ok, p != nil)
		for _, d := range list.Sorted() {
			require.Equal(t, file, d.Span.File)
			require.True(t, d.Span.From >= 0 && d.Span.From <= d.Span.To && int(d.Span.To) <= len(data), "%+v", d)
			require.NotEmpty(t, d.Message)
		}
		if ok {
			require.True(t, p.W > 0 && p.H > 0 && p.W <= geom.MostCoordinate && p.H <= geom.MostCoordinate)
			k := keeper{t: t, clips: map[*Clip]bool{}}
			k.nodes(p.Nodes)
		}
		again := &diag.List{Sources: &diag.Sources{}}
		q, _ := ReadSVG(again, again.Sources.Add("a.svg", data))
		require.Equal(t, p, q)
	})
}

// keeper looks whether a picture keeps what the types promise.
type keeper struct {
	t     *testing.T
	clips map[*Clip]bool
}

func (k keeper) nodes(nodes []Node) {
	for _, n := range nodes {
		switch n := n.(type) {
		case *Group:
			k.opacity(n.Opacity)
			require.NotEmpty(k.t, n.Nodes)
			require.True(k.t, n.Clip != nil || n.Mask != nil || n.Opacity < 1)
			k.clip(n.Clip)
			if n.Mask != nil {
				require.NotEmpty(k.t, n.Mask.Nodes)
				k.nodes(n.Mask.Nodes)
			}
			k.nodes(n.Nodes)
		case *Shape:
			require.True(k.t, n.Fill != nil || n.Stroke != nil)
			k.paths(n.Paths)
			if n.Fill != nil {
				k.paint(n.Fill.Paint)
			}
			if n.Stroke != nil {
				k.stroke(n.Stroke)
			}
		case *Image:
			k.opacity(n.Opacity)
			k.matrix(n.Frame)
			require.True(k.t, n.Width > 0 && n.Height > 0 && n.Width*n.Height <= mostPixels)
		}
	}
}

func (k keeper) opacity(x float64) { require.True(k.t, x > 0 && x <= 1, "opacity %v", x) }

func (k keeper) matrix(m Matrix) {
	_, ok := m.Inverse()
	require.True(k.t, ok && m.usable(), "%v", m)
}

func (k keeper) paths(paths []*geom.Path) {
	require.NotEmpty(k.t, paths)
	for _, p := range paths {
		for _, s := range p.Segments() {
			for _, q := range [...]geom.Point{s.From, s.To, s.C1, s.C2, s.Point(0.5)} {
				// Handles may lie a little further out than the curve.
				require.True(k.t, math.Abs(q.X) <= 4*geom.MostCoordinate && math.Abs(q.Y) <= 4*geom.MostCoordinate, "%+v", s)
			}
			require.False(k.t, math.IsNaN(s.RX+s.RY+s.Phi+s.Theta+s.Sweep+s.Centre.X+s.Centre.Y), "%+v", s)
		}
	}
}

func (k keeper) clip(c *Clip) {
	if c == nil || k.clips[c] {
		return
	}
	k.clips[c] = true
	require.NotEmpty(k.t, c.Outlines)
	for _, o := range c.Outlines {
		k.paths(o.Paths)
		k.clip(o.Clip)
	}
	k.clip(c.Clip)
}

func (k keeper) paint(p Paint) {
	k.opacity(p.Opacity)
	g := p.Gradient
	if g == nil {
		return
	}
	k.matrix(g.Frame)
	require.GreaterOrEqual(k.t, len(g.Stops), 2)
	last := 0.0
	for _, s := range g.Stops {
		require.True(k.t, s.At >= last && s.At <= 1 && s.Opacity >= 0 && s.Opacity <= 1, "%+v", g.Stops)
		last = s.At
	}
	if g.Radial {
		require.True(k.t, g.R0 >= 0 && g.R0 < g.R1 && g.From.Dist(g.To) <= (g.R1-g.R0)*(1+1e-9)+1e-9, "%+v", g)
	} else {
		require.NotEqual(k.t, g.From, g.To)
	}
}

func (k keeper) stroke(s *Stroke) {
	k.paint(s.Paint)
	require.True(k.t, s.Width > 0 && s.Width <= geom.MostCoordinate && s.MiterLimit >= 1, "%+v", s)
	require.InDelta(k.t, 1, math.Abs(s.Pen.Det()), 1e-6)
	require.Equal(k.t, 0, len(s.Dashes)%2)
	sum := 0.0
	for _, d := range s.Dashes {
		require.GreaterOrEqual(k.t, d, 0.0)
		sum += d
	}
	require.True(k.t, s.Dashes == nil || sum > 0 && s.Phase >= 0 && s.Phase <= sum, "%+v", s)
}
