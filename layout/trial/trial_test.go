package trial_test

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/setout"
	"markout/layout/trial"
)

// folder is where a sample stands; text is a file of its own, whatever its name.
type (
	folder string
	text   string
)

func (f folder) Open(name string) (io.ReadCloser, error) {
	return os.Open(filepath.Join(string(f), name))
}

func (t text) Open(string) (io.ReadCloser, error) {
	return io.NopCloser(strings.NewReader(string(t))), nil
}

func run(t testing.TB, files layout.Files, main string, opt layout.Options, texts ...string) *trial.Result {
	t.Helper()
	opt.Memory = &layout.Memory{}
	as, list := layout.Open(files, main, opt)
	require.False(t, list.HasErrors(), "%v", list.Sorted())
	trials, list := layout.ReadTrials(files, main, opt, texts)
	require.False(t, list.HasErrors(), "%v", list.Sorted())
	r, err := trial.Run(context.Background(), as, trials, func(changes []string) (*set.Set, *diag.List) {
		o := opt
		o.With = slices.Concat(opt.With, changes)
		return layout.Open(files, main, o)
	}, setout.FitMargin, 2, nil)
	require.NoError(t, err)
	return r
}

func sample(t testing.TB, name string, texts ...string) *trial.Result {
	return run(t, folder("../../samples/"+name), name+".markout", layout.Options{}, texts...)
}

// The kiosk's deck is 450 up, its front edge at y 1200, its goings 300 (by hand: rise 450/n, run (n−1)·300, foot 1200 less the
// run). A riser's two ends are marks; those of the risers that stay at their places stay, so that as many are laid or lifted
// as risers are more or less, twice.
func TestKioskRisers(t *testing.T) {
	r := sample(t, "kiosk", "front.risers=2..6")
	require.Equal(t, "front", r.Flight)
	require.Len(t, r.Options, 5)
	for i, o := range r.Options {
		n := float64(i + 2)
		require.Empty(t, o.Error)
		f := o.Flight
		require.InDelta(t, 450/n, f.Rises.Least, 1e-9)
		require.InDelta(t, 450/n, f.Rises.Greatest, 1e-9)
		require.InDelta(t, (n-1)*300, f.Run, 1e-9)
		require.InDelta(t, 0, f.Foot.X, 1e-9)
		require.InDelta(t, 1200-(n-1)*300, f.Foot.Y, 1e-9)
		require.InDelta(t, 2*450/n+300, f.Strides.Greatest, 1e-9)
		require.InDelta(t, 300, f.Goings.Least, 1e-9)
		require.Equal(t, max(0, 3-(i+2))*2, o.Lift)
		require.Equal(t, max(0, i+2-3)*2, o.Lay)
		require.Subset(t, o.Held, []string{"top", "total"})
		require.Zero(t, o.Build)
	}
	require.Equal(t, []string{"top", "total", "run", "foot"}, r.Options[1].Held, "the file's own value")
	require.Empty(t, r.Options[1].New)
	require.Empty(t, r.Options[1].Gone)
}

// Each rise 15 less: of the flight alone its top is held and its foot comes 3 × 15 up; of the let that the deck hangs on too the
// foot is held and the top comes down by as much.
func TestEachRiseLess(t *testing.T) {
	r := sample(t, "kiosk", "front.rise=135")
	o := r.Options[0]
	require.Equal(t, []string{"top", "run"}, o.Held)
	require.InDelta(t, 450, o.Flight.Top, 1e-9)
	require.InDelta(t, 45, o.Flight.Level, 1e-9)
	require.InDelta(t, 45, o.Flight.Gap, 1e-9)
	require.Contains(t, o.New, trial.Raised{Code: "STEP-FOOT", Element: "front"})
	require.Zero(t, o.Lift+o.Lay)

	r = sample(t, "kiosk", "rise=rise - 15")
	o = r.Options[0]
	require.Equal(t, "front", r.Flight, "the only flight")
	require.Equal(t, []string{"run", "foot"}, o.Held)
	require.InDelta(t, 405, o.Flight.Top, 1e-9)
	require.Zero(t, o.Flight.Level)
	require.InDelta(t, 2*135+300, o.Flight.Strides.Least, 1e-9)
}

// Issue B of the crates: top 4 becomes 630, so that rises 4 and 5 become 175 and 135; the overall stays 1460. Block 4 is cut
// down from 645; all marks stay. Block 6 moved by 120 lifts and lays its four corners, but where they are corners of other blocks.
func TestCrates(t *testing.T) {
	r := sample(t, "crates",
		"crates.rises=140 165 150 190 120 175 160 205 155, 140 165 150 175 135 175 160 205 155, 140 165 150 205 105 175 160 205 155",
		"crates.shift=0 60 -40 80 0 -90 50 0, 0 60 -40 80 0 30 50 0")
	require.Len(t, r.Options, 6)
	as, sideways, low, both, high := r.Options[0], r.Options[1], r.Options[2], r.Options[3], r.Options[4]
	require.Equal(t, 0, as.Lift+as.Lay+as.Build)
	// Rises run from 120 to 205, goings from 280 to 360, together 2510; the eighth riser twice and its tread are 2·205 + 300.
	f := r.AsIs.Flight
	require.Equal(t, trial.Span{Least: 120, Greatest: 205, Count: 9}, f.Rises)
	require.Equal(t, trial.Span{Least: 280, Greatest: 360, Count: 8}, f.Goings)
	require.InDelta(t, 710, f.Strides.Greatest, 1e-9)
	require.InDelta(t, 2510, f.Run, 1e-9)
	require.Equal(t, geom.Point{Y: 1200}, f.Foot)
	require.InDelta(t, 1460, f.Top, 1e-9)

	require.Equal(t, []int{1, 1, 0, 0}, []int{low.Build, low.CutDown, low.Lift, low.Lay})
	require.Equal(t, []string{"top", "total", "run", "foot"}, low.Held)
	require.Equal(t, trial.Span{Least: 135, Greatest: 205, Count: 9}, low.Flight.Rises)
	require.Equal(t, []int{0, 4, 4}, []int{sideways.Build, sideways.Lift, sideways.Lay})
	require.Equal(t, []int{1, 4, 4}, []int{both.Build, both.Lift, both.Lay})
	require.Equal(t, []int{1, 0}, []int{high.Build, high.CutDown}, "a block is not made higher")
}

const two = `set "S"
let wide = 900
platform deck
    outline rect 3600 x 2400
    height 450
steps front
    meets deck.front
    risers 3
    going 300
    width wide
steps back
    meets deck.back
    risers 3
    going 300
    width 900
`

// Which flight an option's figures are of.
func TestWhoseFigures(t *testing.T) {
	for _, c := range []struct {
		texts        []string
		flight, says string
	}{
		{[]string{"front.risers=2..3"}, "front", ""},
		{[]string{"front.risers=2", "deck.height=300,450"}, "front", ""},
		{[]string{"front.risers=2", "back.risers=2"}, "", "flights are tried together (front, back)"},
		{[]string{"deck.height=300"}, "", "2 flights change (front, back)"},
		{[]string{"wide=800"}, "front", ""},
		{[]string{"deck.closed="}, "", "no flight of steps changes"},
	} {
		r := run(t, text(two), "m", layout.Options{}, c.texts...)
		require.Equal(t, c.flight, r.Flight, c.texts)
		require.Equal(t, c.says, r.Why, c.texts)
		require.Equal(t, c.flight != "", r.Options[0].Flight != nil)
	}
	one := run(t, text("set \"S\"\npost p\n    diameter 60\n    height 700\n"), "m", layout.Options{}, "p.height=1..2 by 1")
	require.Empty(t, one.Flight+one.Why, "a set without a flight")
}

// What cannot be made says why, in its row; the others are made all the same.
func TestCannotBeMade(t *testing.T) {
	r := run(t, text(two), "m.markout", layout.Options{With: []string{"front.width=1000"}}, "front.risers=0..2", "deck.height=-5,300")
	require.Len(t, r.Options, 6)
	require.Contains(t, r.Options[0].Error, "`risers` is at least 1")
	require.Contains(t, r.Options[2].Error, "`height` is more than 0")
	require.NotContains(t, r.Options[0].Error, "--with")
	require.Empty(t, r.Options[3].Error)
	require.Nil(t, r.Options[0].Flight)
	require.InDelta(t, 300, r.Options[3].Flight.Rises.Least, 1e-9)

	r = run(t, text(two+"keep front to bak at least 5\n"[:0]), "m.markout", layout.Options{}, "wide=900,10deg")
	require.Equal(t, "m.markout:10:11: `width` wants a length, and this is an angle", r.Options[1].Error)
}

// --with is the base that options are compared with.
func TestOnAnotherBase(t *testing.T) {
	r := run(t, text(two), "m", layout.Options{With: []string{"front.risers=4"}}, "front.risers=4..5")
	require.Zero(t, r.Options[0].Lay)
	require.Equal(t, 2, r.Options[1].Lay)
}

// Options do not depend on how many are made at one time.
func TestWorkers(t *testing.T) {
	a := sample(t, "crates", "crates.lid=10..20 by 1", "first_front=1000..1300 by 100")
	b := sample(t, "crates", "crates.lid=10..20 by 1", "first_front=1000..1300 by 100")
	require.Len(t, a.Options, 44)
	require.Equal(t, fmt.Sprint(a.Options[43].Values), fmt.Sprint(b.Options[43].Values))
	for i := range a.Options {
		require.Equal(t, a.Options[i].New, b.Options[i].New)
		require.Equal(t, a.Options[i].Lift, b.Options[i].Lift)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	_, err := trial.Run(ctx, &set.Set{}, a.Trials, func([]string) (*set.Set, *diag.List) { return &set.Set{}, &diag.List{} }, setout.FitMargin, 1, nil)
	if err != nil {
		require.ErrorIs(t, err, context.Canceled)
	}
}

// BenchmarkKiosk tries a hundred options of the sample with five cut-outs.
func BenchmarkKiosk(b *testing.B) {
	for range b.N {
		sample(b, "kiosk", "front.risers=1..100")
	}
}
