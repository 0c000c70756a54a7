package svg

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"math"

	"markout/layout/artwork"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/tiling"
)

const (
	// mostThumbLines is the most bytes of artwork drawn in lines in a thumbnail; more becomes pixels.
	mostThumbLines = 10 << 10
	// thumbPixels is how many pixels the longer side of artwork has in a thumbnail that shows it as pixels.
	thumbPixels = 96
)

// thumbArt draws what the layers of a page show, small: flat colours in coarse outlines where that says it in few bytes, otherwise a few
// pixels. It needs no ids.
func (pic *picture) thumbArt(p *tiling.Page, minis *Thumbnails) {
	for l := int(drawing.Layers) - 1; l >= 0; l-- {
		for _, s := range p.Layers[l].Shows {
			if s == nil || s.Picture == nil || pic.err != nil {
				continue
			}
			window := s.Window
			if !p.Clip.Empty() && drawing.Layer(l) <= drawing.Notes {
				window = shared(window, p.Clip)
			}
			window = shared(window, geom.Rect{Max: geom.Point{X: p.W, Y: p.H}})
			if _, ok := seen(s); !ok || !(window.W() > 0 && window.H() > 0) {
				continue
			}
			start := len(pic.buf)
			if pic.thumbLines(s, window) {
				continue
			}
			pic.buf = pic.buf[:start]
			pic.thumbDots(s, window, minis)
		}
	}
}

// shared is what two boxes share.
func shared(a, b geom.Rect) geom.Rect {
	return geom.Rect{
		Min: geom.Point{X: max(a.Min.X, b.Min.X), Y: max(a.Min.Y, b.Min.Y)},
		Max: geom.Point{X: min(a.Max.X, b.Max.X), Y: min(a.Max.Y, b.Max.Y)},
	}
}

// thumbLines draws a show in outlines; false where it has what cannot be drawn so, or is too much.
func (pic *picture) thumbLines(s *tiling.Show, window geom.Rect) bool {
	pic.put("<svg")
	y := pic.height - window.Max.Y
	pic.box(window.Min.X, y, window.W(), window.H())
	pic.number(` viewBox="`, window.Min.X)
	pic.number(" ", y)
	pic.number(" ", window.W())
	pic.number(" ", window.H())
	pic.put("\">\n")
	start := len(pic.buf)
	ok := true
	var draw func(nodes []artwork.Node)
	draw = func(nodes []artwork.Node) {
		for _, n := range nodes {
			shape, is := n.(*artwork.Shape)
			if ok = ok && is && len(pic.buf)-start < mostThumbLines; !ok {
				return
			}
			if box := boxThrough(artwork.Bounds(n), s.Frame); box.Overlaps(window) && max(box.W(), box.H())*pic.perUnit > 1 {
				ok = pic.thumbShape(shape, s.Frame)
			}
		}
	}
	draw(s.Picture.Nodes)
	pic.put("</svg>\n")
	return ok
}

// boxThrough is the box of a box's image.
func boxThrough(b geom.Rect, m artwork.Matrix) geom.Rect {
	out := geom.EmptyRect()
	for _, c := range [4]geom.Point{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}} {
		out = out.Include(m.Apply(c))
	}
	return out
}

// thumbShape draws one shape of flat colours; false where its paint is none. Lines have one width in all directions.
func (pic *picture) thumbShape(s *artwork.Shape, m artwork.Matrix) bool {
	if s.Fill != nil && s.Fill.Gradient != nil || s.Stroke != nil && s.Stroke.Gradient != nil {
		return false
	}
	start := len(pic.buf)
	pic.put("<path")
	if s.Fill == nil {
		pic.put(` fill="none"`)
	} else {
		pic.thumbPaint("fill", s.Fill.Paint)
		if s.Fill.EvenOdd {
			pic.put(` fill-rule="evenodd"`)
		}
	}
	if s.Stroke != nil {
		pic.thumbPaint("stroke", s.Stroke.Paint)
		scale := math.Sqrt(math.Abs(m.Det()))
		pic.number(` stroke-width="`, max(s.Stroke.Width*scale, 1/pic.perUnit))
		pic.put(`"`)
		dashes, period := make([]float64, len(s.Stroke.Dashes)), 0.0
		for i, v := range s.Stroke.Dashes {
			dashes[i] = v * scale
			period += dashes[i]
		}
		if period*pic.perUnit > 4 { // shorter ones run together
			pic.dashes(dashes, s.Stroke.Phase*scale)
		}
	}
	pic.put(` d="`)
	drawn := false
	var points []geom.Point
	for _, p := range s.Paths {
		if p.Empty() {
			continue
		}
		points = m.Path(p).Flatten(0.5/pic.perUnit, points[:0])
		drawn = pic.run(points, p.Closed(), geom.Point{}) || drawn
	}
	pic.end(start, drawn)
	return true
}

func (pic *picture) thumbPaint(what string, p artwork.Paint) {
	pic.put(" " + what + `="`)
	pic.colour(p.Colour)
	pic.put(`"`)
	if p.Opacity < 1 {
		pic.put(" " + what + `-opacity="`)
		pic.buf = append(appendFixed(pic.buf, p.Opacity, 2), '"')
	}
}

// thumbDots draws a show as a picture of few pixels on white.
func (pic *picture) thumbDots(s *tiling.Show, window geom.Rect, minis *Thumbnails) {
	k := thumbPixels / max(window.W(), window.H())
	w, h := max(1, int(math.Round(window.W()*k))), max(1, int(math.Round(window.H()*k)))
	sx, sy := float64(w)/window.W(), float64(h)/window.H()
	lay := s.Frame.Then(artwork.Matrix{A: sx, D: -sy, E: -window.Min.X * sx, F: window.Max.Y * sy})
	r := raster{w: w, h: h, lay: lay, minis: minis}
	frame := boxThrough(geom.Rect{Max: geom.Point{X: s.Picture.W, Y: s.Picture.H}}, lay)
	if !finite(frame.Min.X, frame.Min.Y, frame.Max.X, frame.Max.Y) {
		return
	}
	c := newDots(w, h)
	r.nodes(c, s.Picture.Nodes)
	if r.err != nil {
		pic.err = r.err
		return
	}
	inside := r.covered([]*geom.Path{geom.Polygon([]geom.Point{{}, {X: s.Picture.W}, {X: s.Picture.W, Y: s.Picture.H}, {Y: s.Picture.H}})}, false)
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for i, p := range c {
		var v [3]uint8
		for n := range v {
			v[n] = uint8(min(max(p[n]*inside[i]+1-p[3]*inside[i], 0), 1)*255 + 0.5)
		}
		img.SetRGBA(i%w, i/w, color.RGBA{v[0], v[1], v[2], 255})
	}
	kind, data := smaller(img)
	pic.put(`<image preserveAspectRatio="none"`)
	pic.box(window.Min.X, pic.height-window.Max.Y, window.W(), window.H())
	pic.put(` href="data:image/` + kind + `;base64,`)
	pic.buf = base64.StdEncoding.AppendEncode(pic.buf, data)
	pic.put("\"/>\n")
}

// smaller returns a picture as PNG or JPEG, whichever is shorter.
func smaller(img image.Image) (kind string, data []byte) {
	var a, b bytes.Buffer
	_ = png.Encode(&a, img) // into memory, of a size both can say: no error is possible
	_ = jpeg.Encode(&b, img, &jpeg.Options{Quality: 75})
	if a.Len() <= b.Len() {
		return "png", a.Bytes()
	}
	return "jpeg", b.Bytes()
}
