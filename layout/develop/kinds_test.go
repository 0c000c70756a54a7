package develop_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/layout/set"
)

const wideDeck = "platform deck\n    outline rect 3600 x 2400\n    height 450\n    at 0, 1200\n"

func flightVolume(s *set.Steps, scale float64) float64 {
	v := 0.0
	for _, t := range s.Treads() {
		v += (t.Y1 - t.Y0) * t.Width * t.Top
	}
	return v / (scale * scale * scale)
}

func TestFlightsClose(t *testing.T) {
	for name, text := range map[string]string{
		"meets":   wideDeck + "steps front\n    meets deck.front\n    risers 3\n    going 300\n    width 1800\n",
		"starts":  "steps front\n    starts 0, 0 heading 90deg\n    rises 140 165 150 190\n    goings 300 320 280\n    width 900\n    shift 40 40 40\n",
		"landing": "steps front\n    starts 0, 0 heading 90deg\n    risers 6\n    rise 170\n    going 280\n    landing after 3 depth 1100\n    width 900\n",
	} {
		t.Run(name, func(t *testing.T) {
			everyWay(t, text, 22, func(e *set.Element, scale, card float64) closing {
				s := e.Shape.(*set.Steps)
				treads := s.Treads()
				c := closing{
					volume: flightVolume(s, scale),
					size:   geom.Vec{X: s.Width(0) / scale, Y: s.Run() / scale, Z: treads[len(treads)-1].Top / scale},
				}
				if s.Meets != "" {
					f := e.Copies[0].Places[0].Frame.T
					c.shut = []geom.Region{{Outer: geom.Rectangle(9000, 1).Transform(geom.Isometry{A: 1, D: 1, T: geom.Point{Y: (f.Y+s.Run())/scale + 0.5}})}}
				}
				return c
			})
		})
	}
}

// A carpenter's stringer has a first notch that is short by the tread's thickness, all others rise with the flight; so
// has the side of card (arithmetic of the trade: 150/25 − 1.5 = 4.5).
func TestFlightPieces(t *testing.T) {
	s := open(t, wideDeck+"steps front\n    meets deck.front\n    risers 3\n    going 300\n    width 1800\n    nosing 25\n")
	m, list := develop.Develop(&set.Set{Elements: s.Elements[1:], Sources: s.Sources}, develop.Options{Scale: 25, Card: 1.5, PrintOutside: true})
	require.Empty(t, printed(list))
	names := map[string]*develop.Piece{}
	var order []string
	for i := range m.Pieces {
		names[m.Pieces[i].Name] = &m.Pieces[i]
		order = append(order, m.Pieces[i].Name)
	}
	require.Equal(t, []string{"right side", "left side", "riser 1", "tread 1", "riser 2", "tread 2"}, order)
	size := func(name string, long, high float64) {
		b := names[name].Outline.Bounds()
		require.InDelta(t, long, b.W(), 1e-9, name)
		require.InDelta(t, high, b.H(), 1e-9, name)
	}
	size("riser 1", 4.5, 72)
	size("riser 2", 6-1.5, 72)
	size("tread 1", 12+1+1.5, 72) // going, nosing, and the card of the riser that stands on it
	size("tread 2", 12+1, 72)
	side := names["right side"].Outline.Bounds()
	require.InDelta(t, 24-1.5, side.W(), 1e-9)
	require.InDelta(t, 12-1.5, side.H(), 1e-9)
	requireClosed(t, m, closing{
		volume: flightVolume(s.Elements[1].Shape.(*set.Steps), 25) + 2*1*1.5*72,
		size:   geom.Vec{X: 72, Y: 25, Z: 12},
		shut:   []geom.Region{{Outer: geom.Rectangle(9000, 1).Transform(geom.Isometry{A: 1, D: 1, T: geom.Point{Y: 0.5}})}},
	})
}

func TestBlocksClose(t *testing.T) {
	text := "steps crates\n    starts 0, 1200 heading 90deg\n    rises 140 165 150 190 120 175 160 205 155\n    goings 300 320 280 340 300 360 300 310\n" +
		"    widths 1400 by -50\n    shift 0 60 -40 80 0 -90 50 0\n"
	for name, built := range map[string]string{"blocks": "    built blocks\n", "flight": ""} {
		t.Run(name, func(t *testing.T) {
			everyWay(t, text+built, 20, func(e *set.Element, scale, card float64) closing {
				s := e.Shape.(*set.Steps)
				c := closing{volume: flightVolume(s, scale), size: geom.Vec{Y: s.Run() / scale, Z: 1305 / scale}}
				lo, hi := 0.0, 0.0
				for _, tr := range s.Treads() {
					lo, hi = min(lo, tr.Mid-tr.Width/2), max(hi, tr.Mid+tr.Width/2)
				}
				c.size.X = (hi - lo) / scale
				return c
			})
		})
	}
}

func TestRampsClose(t *testing.T) {
	for name, text := range map[string]string{
		"1 in 8": "ramp up\n    starts 0, 0 heading 90deg\n    length 3600\n    rise 450\n    width 1200\n",
		"steep":  "ramp up\n    starts 0, 0 heading 90deg\n    length 900\n    rise 1200\n    width 1200\n",
	} {
		t.Run(name, func(t *testing.T) {
			everyWay(t, text, 27, func(e *set.Element, scale, card float64) closing {
				r := e.Shape.(*set.Ramp)
				return closing{
					volume: r.Length * r.Rise * r.Width / 2 / (scale * scale * scale),
					size:   geom.Vec{X: r.Width / scale, Y: r.Length / scale, Z: r.Rise / scale},
				}
			})
		})
	}
}

func TestFlatsClose(t *testing.T) {
	openings := "    opening door at 600 size 800 x 2000\n    opening window at 2000 size 900 x 1000\n        sill 900\n" +
		"    opening arch at 3400 size 1000 x 2000\n        arch 300\n    opening hole at 4500 size 400 x 600\n        sill 1500\n        arch 100\n"
	for name, text := range map[string]string{
		"plain":  "flat wall\n    from 0, 0 to 4800, 0\n    height 2400\n    thickness 90\n",
		"square": "flat wall\n    from 0, 0 to 4800, 0\n    height 2400\n    thickness 150\n    opening door at 600 size 800 x 2000\n    opening window at 2000 size 900 x 1000\n        sill 900\n",
		"arches": "flat wall\n    from 0, 0 to 5400, 0\n    height 2400\n    thickness 150\n" + openings,
		"left":   "flat wall\n    from 0, 0 to 5400, 0\n    height 2400\n    thickness 150\n    face left\n" + openings,
	} {
		t.Run(name, func(t *testing.T) {
			everyWay(t, text, 20, func(e *set.Element, scale, card float64) closing {
				f := e.Shape.(*set.Flat)
				face := f.Length * f.Height
				for _, o := range f.Openings {
					face -= openingArea(o)
				}
				thick := f.Thickness / scale
				if thick < 2*card+0.5 { // of one layer or two
					n := 1.0
					if thick >= 1.5*card {
						n = 2
					}
					thick = n * card
				}
				c := closing{volume: face / scale / scale * thick, size: geom.Vec{X: f.Length / scale, Y: thick, Z: f.Height / scale}}
				if len(f.Openings) > 2 {
					c.rough = 1e-4 // arches in facets
				}
				c.stands, c.face, c.shut = true, faceOf(f, scale), []geom.Region{{Outer: boxPath(-1, -1, f.Length/scale+1, 0)}}
				return c
			})
		})
	}
}

// faceOf is a flat's face less its openings, by the overlay library.
func faceOf(f *set.Flat, scale float64) *geom.Region {
	var holes []geom.Region
	for _, o := range f.Openings {
		x0, x1, y0, y1 := o.At/scale, (o.At+o.Width)/scale, o.Sill/scale, (o.Sill+o.Height-o.Arch)/scale
		p := geom.NewPath(geom.Point{X: x0, Y: y0})
		p.LineTo(geom.Point{X: x1, Y: y0})
		p.LineTo(geom.Point{X: x1, Y: y1})
		if o.Arch > 0 {
			centre, sweep, err := geom.ArcThrough(geom.Point{X: x1, Y: y1}, geom.Point{X: (x0 + x1) / 2, Y: y1 + o.Arch/scale}, geom.Point{X: x0, Y: y1})
			if err != nil {
				panic(err)
			}
			p.ArcTo(centre, sweep, geom.Point{X: x0, Y: y1})
		} else {
			p.LineTo(geom.Point{X: x0, Y: y1})
		}
		p.Close()
		holes = append(holes, geom.Region{Outer: p})
	}
	left, err := geom.Difference([]geom.Region{{Outer: boxPath(0, 0, f.Length/scale, f.Height/scale)}}, holes, 1e-4)
	if err != nil || len(left) != 1 {
		panic("a flat in one piece is wanted")
	}
	return &left[0]
}

func boxPath(x0, y0, x1, y1 float64) *geom.Path {
	return geom.Polygon([]geom.Point{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}})
}

// openingArea by the textbook's circular segment: R²(θ − sin θ)/2.
func openingArea(o set.Opening) float64 {
	a := o.Width * (o.Height - o.Arch)
	if o.Arch > 0 {
		r := (o.Width*o.Width/4 + o.Arch*o.Arch) / (2 * o.Arch)
		th := 2 * math.Asin(o.Width/2/r)
		a += r * r * (th - math.Sin(th)) / 2
	}
	return a
}

func TestRoundPiecesClose(t *testing.T) {
	for name, text := range map[string]string{
		"post":      "post mast\n    diameter 600\n    height 3000\n",
		"ring":      "ring kerb\n    outer 5200\n    inner 4400\n    height 300\n",
		"octring":   "ring kerb\n    outer polygon 8 across 5200\n    inner circle 4400\n    height 300\n",
		"drum":      "platform drum\n    outline circle 2400\n    height 450\n",
		"bay":       "platform bay\n    outline path 0,0 line 3000,0 3000,900 arc to 0,900 radius 1500 left close\n    height 450\n",
		"segment":   "platform bay\n    outline path 0,0 line 3000,0 arc to 0,0 radius 1800 left close\n    height 450\n",
		"bite":      "platform bay\n    outline path 0,0 line 3000,0 3000,2400 2200,2400 arc to 800,2400 radius 900 right line 0,2400 close\n    height 450\n",
		"ellipse":   "platform egg\n    outline ellipse 2400 x 1200\n    height 450\n",
		"rounded":   "platform pad\n    outline path 300,0 line 2700,0 arc to 3000,300 radius 300 left line 3000,1500 arc to 2700,1800 radius 300 left line 300,1800 arc to 0,1500 radius 300 left line 0,300 arc to 300,0 radius 300 left close\n    height 450\n",
		"manysided": "platform poly\n    outline polygon 48 across 3600\n    height 450\n",
	} {
		t.Run(name, func(t *testing.T) {
			everyWay(t, text, 15, func(e *set.Element, scale, card float64) closing {
				var c closing
				switch s := e.Shape.(type) {
				case *set.Platform:
					c = upright(s.Outline.Path, s.Height, scale)
				case *set.Post:
					c = upright(s.Outline.Path, s.Height, scale)
				case *set.Ring:
					c = upright(s.Outer.Path, s.Height, scale)
					c.volume -= s.Inner.Path.Area() * s.Height / (scale * scale * scale)
					c.face = &geom.Region{Outer: finely(s.Outer.Path, scale), Holes: []*geom.Path{finely(s.Inner.Path, scale)}}
				}
				if h := c.size.Z; h >= card && h < card+0.5 { // one layer of card
					c.volume, c.size.Z = c.volume*card/h, card
				}
				c.rough = 1e-4 // rolled card in facets of 1°
				if name == "manysided" {
					c.rough = 0
				}
				return c
			})
		})
	}
}

func TestPanelsClose(t *testing.T) {
	for name, text := range map[string]string{
		"lying":    "shape p\n    outline polygon 6 across 1200\n    hole rect 300 x 200\n    thickness 18\n",
		"standing": "shape p\n    outline path 0,0 line 0,600 900,1100 1800,600 3000,600 3000,0 close\n    hole rect 200 x 200 at 900, 400\n    stands from 0, 0 to 3000, 0\n    thickness 150\n",
		"thin":     "shape p\n    outline rect 900 x 600\n    stands from 0, 0 to 900, 0\n",
	} {
		t.Run(name, func(t *testing.T) {
			everyWay(t, text, 22, func(e *set.Element, scale, card float64) closing {
				p := e.Shape.(*set.Panel)
				a := p.Outline.Path.Area()
				for _, h := range p.Holes {
					a -= math.Abs(h.Path.Area())
				}
				thick := p.Thickness / scale
				if thick < 2*card+0.5 {
					n := 1.0
					if thick >= 1.5*card {
						n = 2
					}
					thick = n * card
				}
				b := p.Outline.Path.Bounds()
				c := closing{volume: a / scale / scale * thick, size: geom.Vec{X: b.W() / scale, Y: b.H() / scale, Z: thick}}
				face := geom.Region{Outer: scaledPath(p.Outline.Path, scale)}
				for _, h := range p.Holes {
					face.Holes = append(face.Holes, scaledPath(h.Path, scale))
				}
				c.face = &face
				if p.Stands {
					c.size.Y, c.size.Z = c.size.Z, c.size.Y
					c.stands, c.shut = true, []geom.Region{{Outer: boxPath(b.Min.X/scale-1, -1, b.Max.X/scale+1, 0)}}
				}
				c.rough = 2e-5
				return c
			})
		})
	}
}

func scaledPath(p *geom.Path, scale float64) *geom.Path {
	pts := p.Vertices()
	for i := range pts {
		pts[i] = pts[i].Mul(1 / scale)
	}
	return geom.Polygon(pts)
}

// finely is the path at a scale in short straight runs.
func finely(p *geom.Path, scale float64) *geom.Path {
	pts := p.Flatten(1e-6*p.Length()/math.Pi, nil)
	for i := range pts {
		pts[i] = pts[i].Mul(1 / scale)
	}
	return geom.Polygon(pts)
}
