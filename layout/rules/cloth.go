package rules

import (
	"math"

	"markout/layout/enlarge"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// coarse is the distance in millimetres beyond which pixels that are still parted are worth a word: of who stands close by a cloth, or of
// a lens (common practice, no source).
const coarse = 3000

// covered is the least of a cloth, as a share, that is said of what its artwork loses or leaves bare.
const covered = 0.005

// cloth looks at artwork enlarged: whether its pixels are seen, what its fit does to it, and what of the cloth stays bare.
func (c *checker) cloth(e *set.Element, k *set.Cloth) {
	if k.Art.Picture == nil || k.Finished().Empty() {
		return
	}
	if f := enlarge.Of(k, c.set.Units); f.Distance > coarse {
		c.add(e, finding{code: "CLOTH-PIXELS", figure: enlarge.FormatPerInch(min(f.PerInchX, f.PerInchY)) + " pixels per inch on the cloth",
			limit: "pixels disappear from " + enlarge.Away(f.Distance, c.set.Units), source: arcMinute, at: []string{"artwork", "width", "height", "within"}},
			"coarse on the wall: its pixels are %s mm wide and are seen from nearer than %s; paint from it, trace it, or take a picture with more pixels",
			unit.FormatNumber(f.Pitch, 0.1), enlarge.Away(f.Distance, c.set.Units))
	}
	c.clothFit(e, k)
	c.clothWhite(e, k)
}

// clothFit says what a declared fit does: how far it draws the artwork out of its proportions, or how much it cuts off.
func (c *checker) clothFit(e *set.Element, k *set.Cloth) {
	x, y := k.Frame.Vector(geom.Point{X: 1}), k.Frame.Vector(geom.Point{Y: 1})
	if more := x.Len()/y.Len() - 1; math.Abs(more) > covered {
		way := "wider"
		if more < 0 {
			way, more = "higher", y.Len()/x.Len()-1
		}
		c.add(e, finding{code: "CLOTH-FIT", figure: percent(more) + " " + way, limit: "its own proportions", source: practice, at: []string{"fit"}},
			"`fit stretch` draws the artwork %s %s than it is: circles become ovals and people stout or thin; `fit whole` and `fit fill` keep its proportions", percent(more), way)
	}
	if k.Fit != "fill" {
		return
	}
	if lost := 1 - k.Crop.W()*k.Crop.H()/(k.Art.Picture.W*k.Art.Picture.H); lost > covered {
		c.add(e, finding{code: "CLOTH-CROP", figure: percent(lost) + " cut off", limit: "all of the artwork", source: practice, at: []string{"fit"}},
			"%s of the artwork lies outside the cloth and is cut off by `fit fill`: look at the squaring-up sheet for what is lost; `crop from` says which part stays", percent(lost))
	}
}

// clothWhite says what of a cloth its artwork does not reach: of the finished cloth, or of what is allowed beyond it for hems.
func (c *checker) clothWhite(e *set.Element, k *set.Cloth) {
	part := func(of geom.Rect) float64 {
		shown := k.Shown.Common(of)
		if shown.Empty() {
			return 1
		}
		return 1 - shown.W()*shown.H()/(of.W()*of.H())
	}
	fd := finding{code: "CLOTH-WHITE", limit: "artwork to the edge", source: practice, at: []string{"allow", "fit"}}
	switch bare := part(k.Finished()); {
	case bare > covered:
		fd.figure, fd.at = percent(bare)+" of the finished cloth", []string{"fit"}
		c.add(e, fd, "%s of the finished cloth has no artwork: it stays as the cloth is, or is painted by hand", percent(bare))
	case part(k.Whole()) > 1e-6:
		fd.figure = "the allowance " + c.bareSides(k)
		c.add(e, fd, "the artwork ends at the finished edge %s: the allowance there is bare, and shows where the cloth is hung or hemmed a little out; take a little less of the artwork (`crop`) so that it goes on", c.bareSides(k))
	}
}

// bareSides lists the sides whose allowance the artwork does not fill.
func (c *checker) bareSides(k *set.Cloth) string {
	w := k.Whole()
	var sides []string
	for _, s := range [...]struct {
		bare bool
		word string
	}{
		{k.Shown.Max.Y < w.Max.Y-visibleBare, "above"}, {k.Shown.Min.Y > w.Min.Y+visibleBare, "below"},
		{k.Shown.Min.X > w.Min.X+visibleBare, "at the left"}, {k.Shown.Max.X < w.Max.X-visibleBare, "at the right"},
	} {
		if s.bare {
			sides = append(sides, s.word)
		}
	}
	return names(sides)
}

// visibleBare is the least strip in millimetres that counts as bare.
const visibleBare = 0.5

func percent(share float64) string { return unit.FormatNumber(100*share, 0.1) + " %" }

// arcMinute is where the distance from which pixels disappear is from.
const arcMinute = "one minute of arc, the resolution of an eye of ordinary acuity: 3438 pixel widths"

// clothCodes are the codes of artwork enlarged, by name.
var clothCodes = []Code{
	{"CLOTH-CROP", "artwork that is cut off",
		"`fit fill` makes artwork large enough to fill a cloth of other proportions, and what stands over is cut off on both sides alike. The figure is how much of the artwork's area is lost, what `crop` " +
			"leaves out among it. `crop from X, Y` says which part stays.",
		practice},
	{"CLOTH-FIT", "artwork that is drawn out of its proportions",
		"`fit stretch` makes artwork as wide and as high as the cloth, each by its own measure. The figure says by how much it comes out wider or higher than it was drawn. What people know the shape " +
			"of shows it first: faces, wheels, lettering. Half of a hundredth is said; from what on it matters is for the designer (common practice, no source).",
		practice},
	{"CLOTH-PIXELS", "pixels that are seen on the wall",
		"A picture made of pixels is enlarged so far that its pixels are parted by the eye from more than 3 m away. A pixel disappears where it is seen under less than one minute of arc, which is from 3438 " +
			"times its width on. The distance of 3 m from which on it is said is common practice, no source. A lens may come closer than people do.",
		arcMinute},
	{"CLOTH-WHITE", "a part of a cloth that has no artwork",
		"Artwork does not reach over all of the cloth: with `fit whole` the finished cloth has bare strips, and what is allowed for hems and webbing is bare where the artwork ends at the finished edge. A cloth that is hung or hemmed a " +
			"little out then shows a bare line. Crop the artwork so that some of it goes on beyond the edge.",
		practice},
}
