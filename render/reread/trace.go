package reread

import (
	"bytes"
	"encoding/xml"
	"io"
	"math"
	"strconv"
	"strings"
	"testing"
)

// Page is what MuPDF draws for a page, in order.
type Page struct {
	Number int // from 1
	Size   Size
	Paths  []Path
	Texts  []Line
	Images []Image // pictures made of pixels, masks that are pictures not among them
}

// Image is where a picture made of pixels is drawn.
type Image struct {
	Layer string
	W, H  int // its pixels
	Box   Box // of the place it fills, before any clip
	Clips []Box
}

// Path is one painted path, in millimetres on the page.
type Path struct {
	Layer   string    // of the innermost optional-content group, empty for none
	Filled  bool      // an area; otherwise a line
	Winding string    // of an area: "nonzero" or "eofill"
	Width   float64   // of a line
	Dash    []float64 // of a line, on and off by turns
	Phase   float64   // how far along its dashes the line begins
	Tone    float64   // 0 black, 1 white; of a colour its luma (ITU-R BT.601)
	Colour  []float64 // as the file says it: one number of grey, three of red, green and blue; nil where none is said
	Clips   []Box     // boxes of the paths that it is clipped to, outermost first
	Subs    []Sub
}

// Sub is one run of a path; Points are where its lines and curves end. Handles are those of the curve that ends at the point of the
// same number, equal where a straight line does.
type Sub struct {
	Points  []Point
	Handles [][2]Point
	Closed  bool
	Curved  bool
}

// Line is lettering that runs on without a gap: At is the left end of its base line.
type Line struct {
	Layer  string
	At     Point
	Turn   float64 // degrees, anticlockwise
	Em     float64 // size of type
	Width  float64 // from the first letter's origin to where a next one would stand
	Tone   float64
	Font   string
	Text   string
	Hidden bool
}

// Trace runs MuPDF's trace over pages: "1-N" for all, "3" or "2,5-7". MuPDF prints six figures: what our writer places beyond
// 1000 mm comes back to a hundredth of a millimetre.
func Trace(t testing.TB, pdf, pages string) []Page {
	t.Helper()
	r := traceReader{t: t, d: xml.NewDecoder(bytes.NewReader(run(t, "mutool", "trace", pdf, pages)))}
	for {
		token, err := r.d.Token()
		if err == io.EOF {
			return r.pages
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := token.(type) {
		case xml.StartElement:
			r.start(e)
		case xml.EndElement:
			r.end(e)
		}
	}
}

// traceReader keeps what the elements around the current one have said.
type traceReader struct {
	t      testing.TB
	d      *xml.Decoder
	pages  []Page
	layers []string
	clips  []Box
	matrix [6]float64 // from the object's own units to points, y down from the page's upper edge

	path   *Path
	clip   bool // the path is one to clip to
	text   *Line
	trm    [4]float64
	pen    Point // where the next letter of the run would stand, own units
	newRun bool
}

func (r *traceReader) page() *Page { return &r.pages[len(r.pages)-1] }

// place returns own units as millimetres on the page.
func (r *traceReader) place(x, y float64) Point {
	m := r.matrix
	return Point{(m[0]*x + m[2]*y + m[4]) * millimetres, r.page().Size.H - (m[1]*x+m[3]*y+m[5])*millimetres}
}

// scale is how many millimetres one own unit is.
func (r *traceReader) scale() float64 {
	m := r.matrix
	return math.Sqrt(math.Abs(m[0]*m[3]-m[1]*m[2])) * millimetres
}

func (r *traceReader) numbers(e xml.StartElement, name string) []float64 {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			var v []float64
			for _, s := range strings.Fields(strings.ReplaceAll(a.Value, ",", " ")) {
				v = append(v, number(r.t, s))
			}
			return v
		}
	}
	return nil
}

func word(e xml.StartElement, name string) string {
	for _, a := range e.Attr {
		if a.Name.Local == name {
			return a.Value
		}
	}
	return ""
}

// tone reads how light a colour is, 0 where none is said.
func (r *traceReader) tone(e xml.StartElement) float64 {
	switch c := r.numbers(e, "color"); {
	case len(c) == 0:
		return 0
	case len(c) != 3 || c[0] == c[1] && c[1] == c[2]:
		return c[0]
	default:
		return 0.299*c[0] + 0.587*c[1] + 0.114*c[2]
	}
}

func (r *traceReader) start(e xml.StartElement) {
	if m := r.numbers(e, "transform"); len(m) == 6 {
		r.matrix = [6]float64(m)
	}
	switch name := e.Name.Local; name {
	case "page":
		box := r.numbers(e, "mediabox")
		n, _ := strconv.Atoi(word(e, "number"))
		r.pages = append(r.pages, Page{Number: n, Size: Size{(box[2] - box[0]) * millimetres, (box[3] - box[1]) * millimetres}})
		r.layers, r.clips = nil, nil
	case "layer":
		r.layers = append(r.layers, word(e, "name"))
	case "end_layer":
		r.layers = r.layers[:len(r.layers)-1]
	case "pop_clip":
		r.clips = r.clips[:len(r.clips)-1]
	case "fill_path", "stroke_path", "clip_path", "clip_stroke_path":
		r.path = &Path{Layer: r.layer(), Filled: name == "fill_path", Winding: word(e, "winding"), Tone: r.tone(e), Colour: r.numbers(e, "color"), Clips: append([]Box(nil), r.clips...)}
		r.clip = strings.HasPrefix(name, "clip")
		r.path.Width = attribute(r.t, e, "linewidth") * r.scale()
		r.path.Phase = attribute(r.t, e, "dash_phase") * r.scale()
		for _, v := range r.numbers(e, "dash") {
			r.path.Dash = append(r.path.Dash, v*r.scale())
		}
	case "moveto":
		r.path.Subs = append(r.path.Subs, Sub{})
		r.point(e, "x", "y")
	case "lineto":
		r.point(e, "x", "y")
	case "curveto":
		s := r.sub()
		s.Curved = true
		r.point(e, "x3", "y3")
		s.Handles[len(s.Handles)-1] = [2]Point{
			r.place(attribute(r.t, e, "x1"), attribute(r.t, e, "y1")), r.place(attribute(r.t, e, "x2"), attribute(r.t, e, "y2")),
		}
	case "fill_image":
		r.page().Images = append(r.page().Images, Image{
			Layer: r.layer(), W: int(attribute(r.t, e, "width")), H: int(attribute(r.t, e, "height")),
			Box: boxOf(r.place(0, 0), r.place(1, 0), r.place(1, 1), r.place(0, 1)), Clips: append([]Box(nil), r.clips...),
		})
	case "closepath":
		r.sub().Closed = true
	case "fill_text", "stroke_text", "ignore_text", "clip_text":
		r.text = &Line{Layer: r.layer(), Tone: r.tone(e), Hidden: name == "ignore_text"}
	case "span":
		r.trm = [4]float64(r.numbers(e, "trm"))
		r.text.Font = word(e, "font")
		r.newRun = true
	case "g":
		r.letter(e)
	}
}

func (r *traceReader) layer() string {
	if len(r.layers) == 0 {
		return ""
	}
	return r.layers[len(r.layers)-1]
}

func (r *traceReader) sub() *Sub { return &r.path.Subs[len(r.path.Subs)-1] }

func (r *traceReader) point(e xml.StartElement, x, y string) {
	s := r.sub()
	p := r.place(attribute(r.t, e, x), attribute(r.t, e, y))
	from := p
	if n := len(s.Points); n > 0 {
		from = s.Points[n-1]
	}
	s.Points, s.Handles = append(s.Points, p), append(s.Handles, [2]Point{from, p})
}

// letter adds a letter to the run that it stands at the end of, or begins a run.
func (r *traceReader) letter(e xml.StartElement) {
	x, y := attribute(r.t, e, "x"), attribute(r.t, e, "y")
	size := math.Hypot(r.trm[0], r.trm[1])
	if r.newRun || math.Hypot(x-r.pen.X, y-r.pen.Y) > size/500 {
		along := r.direction(r.trm[0], r.trm[1])
		line := *r.text
		line.At = r.place(x, y)
		line.Turn = math.Atan2(along.Y, along.X) * 180 / math.Pi
		line.Em = size * r.scale()
		r.page().Texts = append(r.page().Texts, line)
		r.newRun = false
	}
	line := &r.page().Texts[len(r.page().Texts)-1]
	line.Text += word(e, "unicode")
	advance := attribute(r.t, e, "adv")
	r.pen = Point{x + r.trm[0]*advance, y + r.trm[1]*advance}
	end := r.place(r.pen.X, r.pen.Y)
	line.Width = math.Hypot(end.X-line.At.X, end.Y-line.At.Y)
}

// direction turns a vector in own units into one on the page.
func (r *traceReader) direction(x, y float64) Point {
	a, b := r.place(0, 0), r.place(x, y)
	return Point{b.X - a.X, b.Y - a.Y}
}

func (r *traceReader) end(e xml.EndElement) {
	switch e.Name.Local {
	case "fill_path", "stroke_path":
		r.page().Paths = append(r.page().Paths, *r.path)
	case "clip_path", "clip_stroke_path":
		r.clips = append(r.clips, bounds(r.path.Subs))
	case "clip_text", "clip_image_mask", "clip_stroke_text", "clip_mask", "end_mask":
		r.clips = append(r.clips, Box{Point{math.Inf(-1), math.Inf(-1)}, Point{math.Inf(1), math.Inf(1)}})
	}
}
