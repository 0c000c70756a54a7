// Package enlarge reckons what a scenic artist wants to know of artwork on a cloth: how coarse its pixels are on the wall and from
// where they disappear, where the lines of a squaring-up grid are snapped, and where the dots of a pounce pattern are pricked.
package enlarge

import (
	"fmt"
	"math"

	"markout/layout/artwork"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// minutes is how many times as far away as it is wide a pixel is seen under one minute of arc, what an eye of ordinary acuity
// parts: 1 / tan(1/60°) = 3437.7467.
var minutes = 1 / math.Tan(math.Pi/180/60)

// inch in millimetres.
const inch = 25.4

// Facts are what is known of artwork on a cloth.
type Facts struct {
	// PerInchX and PerInchY are the real pixels per inch on the cloth, across and up, of the coarsest picture made of pixels that it
	// shows; 0 where all is drawn in lines.
	PerInchX, PerInchY float64
	Pitch              float64 // size of a pixel on the cloth in millimetres, the greater way; 0 likewise
	Distance           float64 // millimetres from which on an eye no longer parts the pixels; 0 likewise
	// Kept counts the pictures whose own bytes are cut into blocks, Stored those that are decoded strip by strip and stored without
	// loss, Whole those of either that have to be held whole to be read.
	Kept, Stored, Whole int
	Words               []string // whole sentences that say all of this
}

// Of returns the facts of a cloth, lengths in words as u has them.
func Of(c *set.Cloth, u unit.System) Facts {
	var f Facts
	f.look(c.Art.Picture.Nodes, c)
	f.Words = f.words(c, u)
	return f
}

// look takes in the pictures made of pixels among nodes.
func (f *Facts) look(nodes []artwork.Node, c *set.Cloth) {
	for _, n := range nodes {
		switch n := n.(type) {
		case *artwork.Group:
			f.look(n.Nodes, c)
		case *artwork.Image:
			m := n.Frame.Then(c.Frame)
			box := geom.EmptyRect()
			for _, q := range [4]geom.Point{{}, {X: 1}, {X: 1, Y: 1}, {Y: 1}} {
				box = box.Include(m.Apply(q))
			}
			if !box.Overlaps(c.Shown) {
				continue
			}
			f.add(n, m)
		}
	}
}

// add takes in one picture made of pixels that m takes from the unit square to the cloth.
func (f *Facts) add(n *artwork.Image, m artwork.Matrix) {
	if n.Format == artwork.JPEG {
		f.Kept++
	} else {
		f.Stored++
	}
	if n.Pixels != nil && n.Pixels.Whole {
		f.Whole++
	}
	x := m.Vector(geom.Point{X: 1}).Mul(1 / float64(n.Width)) // one pixel along a row
	y := m.Vector(geom.Point{Y: 1}).Mul(1 / float64(n.Height))
	// Across and up the cloth, however the picture lies on it.
	w, h := math.Hypot(x.X, y.X), math.Hypot(x.Y, y.Y)
	if pitch := max(w, h); pitch > f.Pitch {
		f.Pitch, f.PerInchX, f.PerInchY, f.Distance = pitch, inch/w, inch/h, pitch*minutes
	}
}

func (f *Facts) words(c *set.Cloth, u unit.System) []string {
	var out []string
	say := func(format string, args ...any) { out = append(out, fmt.Sprintf(format, args...)) }
	length := func(mm, step float64) string { return unit.FormatMeasure(mm, u, step) }
	say("The finished cloth is %s wide and %s high.", length(c.Width, 1), length(c.Height, 1))
	if c.Art.Drawn && f.Pitch == 0 {
		say("The artwork is drawn in lines: they stay sharp at any size.")
		return out
	}
	same := math.Abs(f.PerInchX-f.PerInchY) <= 0.005*f.PerInchX
	switch {
	case f.Pitch == 0:
		return out
	case same:
		say("On the cloth it has %s real pixels per inch: a pixel is %s mm.", FormatPerInch(f.PerInchX), unit.FormatNumber(f.Pitch, 0.01))
	default:
		say("On the cloth it has %s real pixels per inch across and %s up.", FormatPerInch(f.PerInchX), FormatPerInch(f.PerInchY))
	}
	say("Its pixels disappear from about %s away (one minute of arc).", Away(f.Distance, u))
	switch {
	case f.Stored == 0:
		say("At full size its bytes stay as they are, cut on the borders of their blocks: nothing is decoded, nothing is lost.")
	case f.Kept == 0:
		say("At full size its pixels are decoded strip by strip and stored without loss.")
	default:
		say("JPEG pictures in it keep their bytes, cut on the borders of their blocks; others are decoded strip by strip and stored without loss.")
	}
	if f.Whole > 0 {
		say("It is stored in passes or interlaced, so that it has to be held whole to be cut.")
	}
	return out
}

// FormatPerInch writes a number of pixels per inch, to a tenth, and to a hundredth of what is less than one.
func FormatPerInch(perInch float64) string {
	step := 0.1
	if perInch < 1 {
		step = 0.01
	}
	return unit.FormatNumber(perInch, step)
}

// Away is a distance to look from, in metres to a decimetre or in whole feet, which nobody measures.
func Away(mm float64, u unit.System) string {
	if u.Imperial() {
		return unit.FormatNumber(mm/imperialStep, 1) + " ft"
	}
	step := 0.1
	if mm >= 10_000 {
		step = 1
	}
	return unit.FormatNumber(mm/1000, step) + " m"
}
