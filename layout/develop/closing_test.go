package develop_test

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/develop"
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/set"
)

// The closing test: pieces are taken as a maker has them (the cut outline, the edges cut back, the folds, the rolls),
// put where they stand in the made model, and looked at as solids of real thickness. Every joint's two lines must be one
// line within 0.01 mm, no two solids may have any place in common, and what they enclose must be as large as the element
// is, inside its outside sizes.
//
// A kind is added by a test that calls everyWay with its text and with what it must come to at a scale and a card, by
// formula: the volume enclosed and the outside sizes, worked out from the element's measures and never from its pieces.
// everyWay makes it of every card at every scale with -closing.all, of each card and at each scale once without. Flat
// pieces and strips of panels side by side, folded or rolled round the piece's y axis, are rebuilt by solidOf; a kind that
// bends its card otherwise adds a function to builders (solid_test.go), which makes cells of one piece: the corners of
// its outer and of its inner face, one to one, in facets of at most the angle `facet`.

type texts map[string]string

func (t texts) Open(name string) (io.ReadCloser, error) {
	s, ok := t[name]
	if !ok {
		return nil, fs.ErrNotExist
	}
	return io.NopCloser(bytes.NewReader([]byte(s))), nil
}

func open(t testing.TB, text string) *set.Set {
	t.Helper()
	s, list := layout.Open(texts{"m": text}, "m", layout.Options{})
	require.Empty(t, printed(list))
	return s
}

func printed(list *diag.List) string {
	var b bytes.Buffer
	list.Print(&b, 1000)
	return b.String()
}

// closing is what an element must come to.
type closing struct {
	volume float64       // model cubic millimetres, enclosed
	size   geom.Vec      // outside
	shut   []geom.Region // what stands beside it and closes it
	rough  float64       // share of the volume by which curves in facets may be off, and of a tenth of the plan's box overlap
	loose  float64       // square millimetres by which edges cut straight may stand into rolled faces at a level
	face   *geom.Region  // where not all that is gone round is enclosed: what is, in x and y, or in x and z of a board that stands
	stands bool          // it is cut in slices parallel to its face
}

// requireClosed is the closing test of a model of one element.
func requireClosed(t *testing.T, m *develop.Model, want closing) {
	t.Helper()
	require.NotEmpty(t, m.Pieces)
	requireJoints(t, m)
	var solids []solid
	low, high := geom.Vec{X: math.Inf(1), Y: math.Inf(1), Z: math.Inf(1)}, geom.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: math.Inf(-1)}
	for i := range m.Pieces {
		requireOnCard(t, &m.Pieces[i])
		solids = append(solids, solidOf(&m.Pieces[i]))
		for v := range solids[i].corners {
			low = geom.Vec{X: min(low.X, v.X), Y: min(low.Y, v.Y), Z: min(low.Z, v.Z)}
			high = geom.Vec{X: max(high.X, v.X), Y: max(high.Y, v.Y), Z: max(high.Z, v.Z)}
		}
	}
	slack := 1e-5 + want.rough*want.size.X
	require.InDelta(t, want.size.X, high.X-low.X, slack, "outside width")
	require.InDelta(t, want.size.Y, high.Y-low.Y, slack, "outside depth")
	require.InDelta(t, want.size.Z, high.Z-low.Z, slack, "outside height")

	if want.stands {
		for _, s := range solids {
			for v := range s.corners {
				v.Y, v.Z = v.Z, v.Y
			}
		}
	}
	var inside func(geom.Point) bool
	if want.face != nil {
		inside = want.face.Contains
	}
	zs := levels(solids)
	volume := 0.0
	for i := 1; i < len(zs); i++ {
		// Sections between two levels are quadratic in the height: two Gauss points take them exactly.
		mid, half := (zs[i-1]+zs[i])/2, (zs[i]-zs[i-1])/2
		var last []cut
		var a areas
		for _, g := range [2]float64{-1, 1} {
			z := mid + g*half/math.Sqrt(3)
			cuts := sectionOf(solids, z)
			if len(cuts) == 0 {
				continue
			}
			if !slices.EqualFunc(cuts, last, cut.like) {
				all := slices.Clone(cuts)
				for k, r := range want.shut {
					all = cutsOfRegion(r, shutting, -1-k, all)
				}
				a = areasOf(all, inside)
			}
			last = cuts
			if a.sum-a.together > 1e-3+1e-7*a.sum+want.loose+want.rough*max(a.sum, 0.1*want.size.X*want.size.Y) {
				t.Fatalf("solids overlap at level %v by %.5f mm² of %.5f: %s", z, a.sum-a.together, a.sum, pairs(solids, z))
			}
			volume += half * a.enclosed
		}
	}
	require.InDelta(t, want.volume, volume, want.volume*(1e-6+want.rough), "enclosed volume")
}

// corners yields all corners of the solid's cells.
func (s solid) corners(yield func(*geom.Vec) bool) {
	for _, c := range s.cells {
		for _, l := range c.loops() {
			for i := range l {
				if !yield(&l[i]) {
					return
				}
			}
		}
	}
}

// levels returns the heights at which corners lie.
func levels(solids []solid) []float64 {
	var zs []float64
	for _, s := range solids {
		for v := range s.corners {
			zs = append(zs, v.Z)
		}
	}
	slices.Sort(zs)
	return slices.CompactFunc(zs, func(a, b float64) bool { return math.Abs(b-a) < 1e-5 })
}

// sectionOf cuts the solids at a level.
func sectionOf(solids []solid, z float64) []cut {
	var cuts []cut
	cell := 0
	for i, s := range solids {
		for _, c := range s.cells {
			cuts = c.cutsOf(z, i, cell, cuts)
			cell++
		}
	}
	return cuts
}

// pairs names the solids that overlap at a level.
func pairs(solids []solid, z float64) string {
	words := ""
	for i, a := range solids {
		for _, b := range solids[:i] {
			if cuts := sectionOf([]solid{a, b}, z); len(cuts) > 0 {
				if x := areasOf(cuts, nil); x.sum-x.together > 1e-4 {
					words += fmt.Sprintf("%s in %s by %.4f mm²; ", a.name, b.name, x.sum-x.together)
				}
			}
		}
	}
	return words
}
