package grid_test

import (
	"bytes"
	"math"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/table"
	"markout/render/pdf"
	"markout/tiling/grid"
	"markout/tiling/paper"
)

// stage is `sides stage`.
var stage = table.Sides{Plus: "L", Minus: "R", PlusWord: "STAGE LEFT", MinusWord: "STAGE RIGHT", Below: "AUDIENCE"}

var info = grid.Info{Set: "Quayside kiosk", Production: "Low Tide", Letter: "B", Date: "2026-11-20", Sides: stage}

// sketch builds drawings.
type sketch struct{ *drawing.Drawing }

func newFloor() *sketch {
	return &sketch{&drawing.Drawing{
		View: "floor", Title: "floor", Hold: "seen from above, upstage at the top",
		Datum: drawing.Datum{XPlus: "L", XMinus: "R", YPlus: "U", YMinus: "D", Says: "from the centre line and the setting line"},
	}}
}

func (s *sketch) own(name string) int32 {
	s.Owners = append(s.Owners, name)
	return int32(len(s.Owners) - 1)
}

func (s *sketch) cut(owner int32, p *geom.Path) {
	s.Strokes = append(s.Strokes, drawing.Stroke{Mark: drawing.Mark{Layer: drawing.Cut, Owner: owner}, Path: p, Width: drawing.WideLine})
}

func (s *sketch) line(owner int32, t drawing.LineType, ps ...geom.Point) {
	p := geom.NewPath(ps[0])
	for _, q := range ps[1:] {
		p.LineTo(q)
	}
	s.Strokes = append(s.Strokes, drawing.Stroke{Mark: drawing.Mark{Layer: drawing.Notes, Owner: owner}, Path: p, Type: t, Width: drawing.NarrowLine})
}

func (s *sketch) word(owner int32, role drawing.Role, at geom.Point, text string) {
	s.Texts = append(s.Texts, drawing.Text{Mark: drawing.Mark{Layer: drawing.Notes, Role: role, Owner: owner}, At: at, Height: 7, Align: drawing.AlignMiddle, Text: text})
}

func pt(x, y float64) geom.Point { return geom.Point{X: x, Y: y} }

// quay is the kiosk's floor at a scale: an octagon of 4800 across flats about (0, 3600), a flight, a ramp, twelve bollards.
func quay(t testing.TB, k float64) *drawing.Drawing {
	s := newFloor()
	at := func(x, y float64) geom.Point { return pt(x*k, y*k) }
	deck := s.own("deck")
	oct, err := geom.RegularPolygon(8, 4800*k, false)
	require.NoError(t, err)
	s.cut(deck, oct.Transform(geom.Move(at(0, 3600), 0)))
	s.word(deck, drawing.Name, at(0, 1300), "deck")
	s.word(deck, drawing.Word, at(0, 1300).Add(pt(0, -12)), "+450")
	front := s.own("front")
	s.cut(front, geom.Polygon([]geom.Point{at(-900, 600), at(900, 600), at(900, 1200), at(-900, 1200)}))
	s.cut(front, geom.Polygon([]geom.Point{at(-900, 600), at(900, 600), at(900, 900), at(-900, 900)}))
	s.line(front, drawing.Dashed, at(-900, 575), at(900, 575))
	ramp := s.own("ramp")
	s.cut(ramp, geom.Polygon([]geom.Point{at(-600, 6000), at(600, 6000), at(600, 9600), at(-600, 9600)}))
	s.line(ramp, drawing.LongDashDot, at(0, 6000), at(0, 9600))
	bollard := s.own("bollard")
	for i := range 12 {
		p := at(0, 3600).Add(geom.Polar(4200*k, (15+30*float64(i))*math.Pi/180))
		s.cut(bollard, geom.Circle(60).Transform(geom.Move(p, 0)))
		s.word(bollard, drawing.Name, p.Add(pt(60, 40)), "bollard."+strconv.Itoa(i+1))
	}
	return s.Drawing
}

// wall is the face of a flat with a door, at a scale.
func wall(k float64) *drawing.Drawing {
	s := &sketch{&drawing.Drawing{View: "face", Name: "wall", Title: "wall, face", Hold: "seen from the front, P at the left, foot at the bottom",
		Datum: drawing.Datum{Says: "along from P, up from the foot"}}}
	o := s.own("wall")
	s.cut(o, geom.Rectangle(3600*k, 2400*k).Transform(geom.Move(pt(1800*k, 1200*k), 0)))
	s.cut(o, geom.Rectangle(800*k, 2000*k).Transform(geom.Move(pt(1000*k, 1000*k), 0)))
	return s.Drawing
}

// rings is a floor of width × height metres with n rings of 64 corners at pseudo-random places.
func rings(width, height, n int) *drawing.Drawing {
	s := newFloor()
	w, h := width*1000, height*1000
	state := uint64(20261120)
	draw := func() int {
		state = state*6364136223846793005 + 1442695040888963407
		return int(state >> 33)
	}
	for i := range n {
		r := 300 + draw()%601
		x := r + draw()%(w-2*r+1)
		y := r + draw()%(h-2*r+1)
		ps := make([]geom.Point, 64)
		for k := range ps {
			c := geom.Polar(float64(r), 2*math.Pi*float64(k)/64)
			ps[k] = geom.Point{X: float64(x) - float64(w)/2 + math.Round(c.X*1000)/1000, Y: float64(y) + math.Round(c.Y*1000)/1000}
		}
		s.cut(s.own("r"+strconv.Itoa(i+1)), geom.Polygon(ps))
	}
	return s.Drawing
}

func options(t testing.TB, name string) grid.Options {
	p, err := paper.Parse(name)
	require.NoError(t, err)
	return grid.Options{Paper: p, Margins: paper.Even(10), Lap: grid.DefaultLap}
}

func build(t testing.TB, in grid.Info, opt grid.Options, d ...*drawing.Drawing) *grid.Plan {
	p, err := grid.Build(d, in, opt)
	require.NoError(t, err)
	return p
}

// write makes the document's PDF.
func write(t testing.TB, p *grid.Plan) []byte {
	var b bytes.Buffer
	_, err := pdf.Write(&b, p.Document(), pdf.Options{})
	require.NoError(t, err)
	return b.Bytes()
}

// careful is info with cautions.
func careful() grid.Info {
	in := info
	in.Cautions = map[string]string{"front": caution.Defer, "ramp": caution.Defer}
	return in
}
