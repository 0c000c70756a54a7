package element

import (
	"math"

	"markout/layout/artwork"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// size works out the finished width and height.
func (cloth) size(e *elem, out *set.Cloth) bool {
	w, ok1 := e.given0("width")
	h, ok2 := e.given0("height")
	if !ok1 || !ok2 {
		return false
	}
	ratio := out.Crop.W() / out.Crop.H()
	if n := e.arg("within"); n != nil {
		for _, word := range [...]string{"width", "height", "fit"} {
			if e.has(word) {
				return e.clash("within", word, "`within` makes it as large as fits")
			}
		}
		mw, mh, ok := e.size(n, "within")
		if !ok {
			return false
		}
		out.Width, out.Height = min(mw, mh*ratio), min(mh, mw/ratio)
		return true
	}
	switch {
	case w == 0 && h == 0:
		return e.hint(e.st.NameSpan, "`"+e.name+"` needs its `width` or its `height`", "write `width 9000`; the other follows from the artwork")
	case h == 0:
		h = w / ratio
	case w == 0:
		w = h * ratio
	}
	out.Width, out.Height = w, h
	if e.cornerFills(out) {
		return true
	}
	const slack = 1 // millimetre, over the whole cloth
	if math.Abs(h*ratio-w) > slack && math.Abs(w/ratio-h) > slack && out.Fit == "" {
		return e.hint(e.place("height"), "the cloth is "+proportion(w/h)+" as wide as it is high, and its artwork "+proportion(ratio),
			"say how it goes on: `fit whole`, `fit fill` or `fit stretch`; or leave out one of width and height")
	}
	return true
}

// proportion writes a ratio as people say it.
func proportion(x float64) string { return unit.FormatNumber(x, 0.001) + " times" }

// cornerFills reports whether only a corner of the artwork was given, and the cloth's proportions say how much from there is used.
func (e *elem) cornerFills(out *set.Cloth) bool {
	a := e.attr("crop")
	return a != nil && !a.Args.Has("size") && e.has("width") && e.has("height") && (out.Fit == "" || out.Fit == "fill")
}

// lay works out how the artwork lies on the face.
func (cloth) lay(e *elem, out *set.Cloth) {
	w, h := out.Width, out.Height
	kx, ky := w/out.Crop.W(), h/out.Crop.H()
	switch {
	case e.cornerFills(out) || out.Fit == "fill":
		kx = max(kx, ky)
		ky = kx
		used := geom.Point{X: w / kx, Y: h / ky}
		from := out.Crop.Min
		if !e.cornerFills(out) {
			from = out.Crop.Mid().Sub(used.Mul(0.5))
		}
		out.Crop = geom.Rect{Min: from, Max: from.Add(used)}
	case out.Fit == "whole":
		kx = min(kx, ky)
		ky = kx
	}
	mid := out.Crop.Mid()
	out.Frame = artwork.Matrix{A: kx, D: ky, E: -kx * mid.X, F: h/2 - ky*mid.Y}
	onFace := func(r geom.Rect) geom.Rect {
		return geom.Rect{Min: out.Frame.Apply(r.Min), Max: out.Frame.Apply(r.Max)}
	}
	out.Shown = shown(out.Finished(), out.Whole(), onFace(out.Crop), onFace(geom.Rect{Max: geom.Point{X: out.Art.Picture.W, Y: out.Art.Picture.H}}))
}

// shown is the part of the face that artwork covers: what was asked for and, on each side on which that reaches the cloth's own edge,
// what goes on beyond it over the allowance, as far as the artwork has any.
func shown(finished, whole, asked, all geom.Rect) geom.Rect {
	const slack = 1e-6 // millimetres
	out := asked
	if asked.Min.X <= finished.Min.X+slack {
		out.Min.X = max(whole.Min.X, all.Min.X)
	}
	if asked.Min.Y <= finished.Min.Y+slack {
		out.Min.Y = max(whole.Min.Y, all.Min.Y)
	}
	if asked.Max.X >= finished.Max.X-slack {
		out.Max.X = min(whole.Max.X, all.Max.X)
	}
	if asked.Max.Y >= finished.Max.Y-slack {
		out.Max.Y = min(whole.Max.Y, all.Max.Y)
	}
	return out
}
