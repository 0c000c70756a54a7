package trace

import (
	"image"
	"math"

	"golang.org/x/image/vector"

	"markout/layout/geom"
)

// raster returns the exact coverage of the paths (nonzero rule), y up, in a picture of w × h pixels.
func raster(w, h int, paths ...*geom.Path) *Field {
	z := vector.NewRasterizer(w, h)
	to := func(p geom.Point) (float32, float32) { return float32(p.X), float32(float64(h) - p.Y) }
	for _, p := range paths {
		z.MoveTo(to(p.Start()))
		for _, s := range p.Segments() {
			switch s.Kind {
			case geom.Line:
				z.LineTo(to(s.To))
			case geom.Cubic:
				ax, ay := to(s.C1)
				bx, by := to(s.C2)
				cx, cy := to(s.To)
				z.CubeTo(ax, ay, bx, by, cx, cy)
			default:
				for _, q := range s.Flatten(0.002, nil) {
					z.LineTo(to(q))
				}
			}
		}
		z.ClosePath()
	}
	a := image.NewAlpha(image.Rect(0, 0, w, h))
	z.Draw(a, a.Bounds(), image.Opaque, image.Point{})
	f, err := NewField8(w, h, a.Pix)
	if err != nil {
		panic(err)
	}
	return f
}

// hardened returns the field with every sample wholly in or wholly out.
func hardened(f *Field) *Field {
	g := &Field{w: f.w, h: f.h, low: make([]uint8, len(f.low))}
	for i, v := range f.low {
		if v >= 128 {
			g.low[i] = 255
		}
	}
	return g
}

// drawn reads path data in a box 1000 high with y down, as pictures are drawn, to the height in pixels at the margin.
func drawn(d string, height, margin float64) []*geom.Path {
	paths, err := geom.ParsePathData(d)
	if err != nil {
		panic(err)
	}
	k := height / 1000
	var out []*geom.Path
	to := func(p geom.Point) geom.Point { return geom.Point{X: margin + p.X*k, Y: margin + (1000-p.Y)*k} }
	for _, p := range paths {
		q := geom.NewPath(to(p.Start()))
		for _, s := range p.Segments() {
			if s.Kind == geom.Cubic {
				q.CubicTo(to(s.C1), to(s.C2), to(s.To))
				continue
			}
			for _, v := range s.Flatten(0.0005, nil) {
				q.LineTo(to(v))
			}
		}
		q.Close()
		if len(out) > 0 && (q.Area() > 0) == (out[0].Area() > 0) {
			q = q.Reverse() // a hole
		}
		out = append(out, q)
	}
	return out
}

func moved(p *geom.Path, x, y float64) *geom.Path {
	q := geom.NewPath(p.Start().Add(geom.Point{X: x, Y: y}))
	d := geom.Point{X: x, Y: y}
	for _, s := range p.Segments() {
		if s.Kind == geom.Line {
			q.LineTo(s.To.Add(d))
			continue
		}
		for _, v := range s.Flatten(0.0005, nil) {
			q.LineTo(v.Add(d))
		}
	}
	q.Close()
	return q
}

func star(n int, r1, r2, cx, cy float64) *geom.Path {
	var ps []geom.Point
	for i := range 2 * n {
		r := r1
		if i%2 == 1 {
			r = r2
		}
		ps = append(ps, geom.Polar(r, math.Pi/2+float64(i)*math.Pi/float64(n)).Add(geom.Point{X: cx, Y: cy}))
	}
	return geom.Polygon(ps)
}

// Silhouettes of our own, 1000 high, y down; the first path is the outline, the others are holes.
const (
	bird = `M40 150 L190 118 C205 80 260 60 300 85 C345 112 350 170 325 215 C300 262 285 300 300 345 C318 395 380 410 440 430
		C520 455 570 520 600 610 L560 600 C568 620 572 640 574 665 L535 640 C540 660 541 678 540 700 C505 665 470 650 430 655
		C420 690 425 720 432 760 L440 940 C460 950 480 960 500 985 L435 965 L400 985 L418 945 L410 770 C405 735 398 700 392 668
		C380 672 370 674 355 672 C352 700 352 730 350 765 L345 945 C355 955 370 965 376 980 L335 962 L300 980 L322 942 L330 770
		C330 730 328 700 322 668 C270 655 235 610 228 550 C220 490 240 430 250 380 C262 320 255 280 262 240
		C268 200 255 185 230 180 L200 160 Z
		M275 111 C280 111 284 115 284 120 C284 125 280 129 275 129 C270 129 266 125 266 120 C266 115 270 111 275 111 Z
		M330 480 C370 470 430 490 480 540 C430 530 370 520 330 480 Z M320 560 C360 560 410 580 440 610 C400 610 350 600 320 560 Z`
	standing = `M250 40 C290 20 340 20 370 50 L380 95 L420 100 L420 115 L385 118 C388 150 375 180 350 195 L352 225
		C400 235 440 250 455 300 L490 470 C500 520 495 545 480 560 L460 545 C462 520 458 500 450 480 L425 370 L430 560
		C440 620 450 680 455 720 L420 725 L425 920 C450 935 480 950 490 975 L380 975 L372 740 L340 740 L320 975 L215 975
		C222 950 245 935 265 920 L258 725 L225 720 C228 660 232 610 240 560 L232 370 L195 480 C185 515 182 535 188 560
		L165 570 C148 545 142 510 155 470 L200 300 C212 255 250 235 285 225 L284 195 C255 180 240 150 238 118
		L200 115 L200 100 L240 95 Z`
	tower = `M100 1000 L100 960 L130 950 L160 420 L140 400 L140 330 L175 330 L175 360 L205 360 L205 330 L240 330 L240 360
		L255 360 C262 250 280 150 300 0 C320 150 338 250 345 360 L360 360 L360 330 L395 330 L395 360 L425 360 L425 330 L460 330
		L460 400 L440 420 L470 950 L500 960 L500 1000 L345 1000 L345 930 C345 870 255 870 255 930 L255 1000 Z
		M285 480 L285 440 C285 420 315 420 315 440 L315 480 Z M205 560 L205 520 C205 500 235 500 235 520 L235 560 Z
		M365 560 L365 520 C365 500 395 500 395 520 L395 560 Z M285 640 L285 600 C285 580 315 580 315 600 L315 640 Z
		M200 740 L200 690 C200 670 235 670 235 690 L235 740 Z M365 740 L365 690 C365 670 400 670 400 690 L400 740 Z
		M300 700 C312 700 322 710 322 722 C322 734 312 744 300 744 C288 744 278 734 278 722 C278 710 288 700 300 700 Z`
)

type shape struct {
	name   string
	data   string
	height float64
	rings  int
	nodes  float64 // of a mature general-purpose tracer on a like silhouette, per 100 px of outline
}

var shapes = []shape{
	{"bird", bird, 3698, 4, 0.51},
	{"standing", standing, 3501, 1, 0.65},
	{"tower", tower, 1750, 8, 0.78},
}

// picture returns the shape's outlines in pixels and its coverage.
func (s shape) picture() ([]*geom.Path, *Field) {
	k := s.height / 1000
	ps := drawn(s.data, s.height, 20.3)
	return ps, raster(int(640*k)+40, int(1000*k)+41, ps...)
}
