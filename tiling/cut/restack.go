package cut

import (
	"slices"

	"markout/layout/geom"
)

// Stacked is a stack that stands already: of each layer from the floor up the sides of its boxes as they lie (along the top's length,
// along its width, high), and the plates of its packing.
type Stacked struct {
	Layers [][3]float64
	Plates []float64
}

// Restack returns the plan of a top on a stack that stands already. It reports false where the boxes are none of the stock, could not
// lie so under the top or on one another, or stand too high, and where plates are not at hand or thicker than the packing.
func Restack(stock []Box, top Top, s Stacked, opt BlockOptions) (TopPlan, bool) {
	if checkBlocks(stock, []Top{top}, opt) != nil {
		return TopPlan{}, false
	}
	j := newBlockJob(stock, []Top{top}, opt)
	ways := j.layers(top)
	out := TopPlan{ID: top.ID, Count: top.Count}
	height := int64(0)
	for i, sides := range s.Layers {
		k := slices.IndexFunc(ways, func(l Layer) bool { return sameSides(sides, [3]float64{l.Length, l.Width, l.Height}) })
		if k < 0 || i > 0 && !ways[k].restsOn(&out.Layers[i-1]) {
			return TopPlan{}, false
		}
		out.Layers = append(out.Layers, ways[k])
		out.Boxes += ways[k].boxes()
		height += units(ways[k].Height)
	}
	rest := units(top.Height) - height
	if rest < 0 {
		return TopPlan{}, false
	}
	out.Packing = float64(rest) * geom.Tolerance
	plates := int64(0)
	for _, p := range s.Plates {
		if !slices.Contains(j.opt.Plates, p) {
			return TopPlan{}, false
		}
		plates += units(p)
	}
	if plates > rest {
		return TopPlan{}, false
	}
	out.Plates = slices.Clone(s.Plates)
	if out.Left = out.Packing - float64(plates)*geom.Tolerance; out.Left <= geom.Tolerance {
		out.Left = 0
	}
	out.Bare = out.Packing > j.opt.Packing+geom.Tolerance
	return out, true
}

func sameSides(a, b [3]float64) bool {
	for i := range a {
		if d := a[i] - b[i]; d > geom.Tolerance || d < -geom.Tolerance {
			return false
		}
	}
	return true
}
