package sheet

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/caution"
	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/setout"
	"markout/layout/table"
	"markout/layout/unit"
	"markout/tiling"
)

const rest = "`markout changes OLD NEW --format csv`"

// numbered makes n lines that are all different, none part of another.
func numbered(n int, words string) []string {
	out := make([]string, n)
	for i := range out {
		out[i] = fmt.Sprintf("<%d> %s", i+1, words)
	}
	return out
}

// taped is a table of n marks with the kiosk's figures, each called otherwise.
func taped(s *set.Set, n int) *table.Table {
	t := *setout.Lay(s).Table()
	rows := t.Rows
	t.Name, t.Rows = "lay", nil
	for i := range n {
		row := append([]table.Value(nil), rows[i%len(rows)]...)
		row[0] = table.T(fmt.Sprintf("(%d)", i+1))
		t.Rows = append(t.Rows, row)
	}
	return &t
}

// floorOrder is a floor's order with n marks to lift and n to lay.
func floorOrder(s *set.Set, n int) WorkOrder {
	return WorkOrder{
		Trade: "Floor", Takes: []string{counted(n, "mark") + " to lay", "14.2 m of white tape 25 mm", "3 sheets to print"},
		Steps: []WorkStep{
			{Does: "Lift these marks", Lines: numbered(n, "deck corner, white tape 25 mm"), Thing: "mark"},
			{Does: "Lay these marks", Table: taped(s, n), Thing: "mark"},
			{Does: "Check", Lines: []string{"Measure from the first corner of the deck to the fifth."}},
		},
		Cautions: []string{"STEP-RISE, front: rises differ by 37.5; published: 5.", "BLOCK-TIP, climb block 8: 4.2 times as tall as deep.", caution.Defer},
	}
}

func changeOf(orders ...WorkOrder) *WorkChange {
	return &WorkChange{Since: "A, 2026-11-20", Elements: []string{"front: 3 risers → 4, rise 150 → 112.5; held: top and total"},
		Keep: 41, Reprint: 3, Withdraw: 2, Superseded: []string{"floor 3C, letter A", "floor 3D, letter A"}, Orders: orders, Rest: rest}
}

// laidPage is page i of a book.
func laidPage(b *Book, i int) *tiling.Page {
	var p tiling.Page
	p.Reset()
	b.Document.Make(i, &p)
	return &p
}

// textsOf are the texts of a page's notes: all but frame and title strip.
func textsOf(p *tiling.Page) []tiling.Text { return p.Layers[drawing.Notes].Texts }

// said is all that a page says, as one line, so that a sentence is found wherever it was broken.
func said(p *tiling.Page) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(words(p), "\u00a0", " ")), " ")
}

// liveOf is the box inside the frame of a book's last page.
func liveOf(t *testing.T, b *Book, opt Options) geom.Rect {
	frames, err := framesOf(opt)
	require.NoError(t, err)
	for _, f := range frames {
		if f.paper == b.Entries[len(b.Entries)-1].Paper {
			return f.live
		}
	}
	require.Fail(t, "no such frame")
	return geom.Rect{}
}

func headingsOf(t *table.Table) string {
	var b strings.Builder
	for _, c := range t.Columns {
		b.WriteString(t.Heading(c) + "\n")
	}
	return b.String()
}

// requireClean holds of a page of an order: everything within the frame and over the title strip, nothing below 2.5 mm (the least
// that ISO 3098's series has for what is read at arm's length), no two texts one over another, no minus sign before a figure.
func requireClean(t *testing.T, p *tiling.Page, live geom.Rect, headings string) {
	t.Helper()
	live.Min.Y += stripHeight
	var boxes []geom.Rect
	list := textsOf(p)
	for i := range list {
		x := &list[i]
		least := 2.5
		if x.Bold && strings.Contains(headings, x.Text) {
			least = 1.8 // a table that would not stand on the page otherwise
		}
		require.GreaterOrEqual(t, x.Height, least, x.Text)
		require.NotRegexp(t, `(^| )-\d|−`, x.Text)
		b := include(geom.EmptyRect(), x.Corners())
		require.True(t, live.Min.X <= b.Min.X && b.Max.X <= live.Max.X && live.Min.Y <= b.Min.Y && b.Max.Y <= live.Max.Y, "%q at %v is outside %v", x.Text, b, live)
		b.Min.Y, b.Max.Y = x.At.Y, x.At.Y+x.Height // capitals: tails and accents may reach between lines
		for k, o := range boxes {
			apart := b.Max.X <= o.Min.X || o.Max.X <= b.Min.X || b.Max.Y <= o.Min.Y || o.Max.Y <= b.Min.Y
			require.True(t, apart, "%q over %q", x.Text, list[k].Text)
		}
		boxes = append(boxes, b)
	}
}

// Whatever there is to do takes one page, on any paper, in metric and in feet and inches: each line and row stands on it once with
// a box to tick, or is counted.
func TestWorkOrderIsOnePage(t *testing.T) {
	feet := kiosk()
	feet.Units = unit.Foot
	for _, s := range []*set.Set{kiosk(), feet} {
		for _, paper := range []string{"A3", "A4", "Letter"} {
			for _, n := range []int{0, 1, 5, 17, 60, 700} {
				opt := filed(paper)
				b, err := WorkOrders(s, changeOf(floorOrder(s, n)), opt)
				require.NoError(t, err)
				require.Equal(t, "cover", b.Entries[len(b.Entries)-2].View, "one page for the trade")
				p := laidPage(b, len(b.Entries)-1)
				requireClean(t, p, liveOf(t, b, opt), headingsOf(floorOrder(s, 1).Steps[1].Table))
				all := said(p)
				for _, w := range []string{"<%d> deck corner", "(%d)"} {
					shown := 0
					for i := range n {
						times := strings.Count(all, fmt.Sprintf(w, i+1))
						require.LessOrEqual(t, times, 1)
						shown += times
					}
					if shown < n {
						require.Contains(t, all, moreWords(n-shown, "mark", rest), "%s, %d", paper, n)
					}
					if n <= 1 || n <= 17 && paper == "A3" {
						require.Equal(t, n, shown, "%s", paper)
					}
				}
				require.Contains(t, all, "Measure from the first corner of the deck to the fifth.", "the last step stands on the page too")
				for _, c := range []string{"rises differ by 37.5; published: 5.", "4.2 times as tall as deep.", caution.Defer} {
					require.Equal(t, 1, strings.Count(all, c))
				}
				require.True(t, strings.LastIndex(all, caution.Defer) > strings.Index(all, "BLOCK-TIP"))
			}
		}
	}
}

// A box to tick stands before each thing to do that is shown.
func TestWorkOrderBoxes(t *testing.T) {
	s := kiosk()
	b, err := WorkOrders(s, changeOf(floorOrder(s, 12)), filed("A3"))
	require.NoError(t, err)
	ticks := 0
	for _, k := range laidPage(b, 1).Layers[drawing.Notes].Strokes {
		for _, r := range k.Runs {
			if r.Closed && r.Points[0].Dist(r.Points[1]) <= tickBox+geom.Tolerance {
				ticks++
			}
		}
	}
	require.Equal(t, 12+12+1, ticks)
}

// Few things are written large; more of them smaller, in more columns.
func TestWorkOrderLettering(t *testing.T) {
	for _, c := range []struct {
		things int
		height float64
	}{{4, 5}, {60, 5}, {75, 3.5}, {250, 2.5}} {
		o := WorkOrder{Trade: "Rigger", Steps: []WorkStep{{Does: "Hang again", Lines: numbered(c.things, "locker, 2850 over the floor")}}}
		b, err := WorkOrders(kiosk(), changeOf(o), filed("A3"))
		require.NoError(t, err)
		for _, x := range textsOf(laidPage(b, 1)) {
			if strings.HasPrefix(x.Text, "<1>") {
				require.InDelta(t, c.height, x.Height, 0)
			}
		}
	}
}

// Nothing a page is asked to hold makes it fail or run over: long words, long sentences, very many steps, takes and cautions.
func TestWorkOrderHoldsAnything(t *testing.T) {
	long := strings.Repeat("m", 400)
	sentence := strings.Repeat("a sentence that goes on ", 200)
	steps := make([]WorkStep, 400)
	for i := range steps {
		steps[i] = WorkStep{Does: fmt.Sprintf("Step {%d}", i+1), Lines: []string{"one", "two"}}
	}
	wide := &table.Table{Columns: []table.Column{{Heading: "A"}, {Heading: "B"}}, Rows: [][]table.Value{{table.T("a sentence of a few words"), table.T("a sentence " + long)}}}
	for name, o := range map[string]WorkOrder{
		"nothing":    {Trade: "Floor"},
		"long words": {Trade: long, Takes: []string{long}, Steps: []WorkStep{{Does: long, Lines: []string{long, ""}}}, Cautions: []string{long, caution.Defer}},
		"sentences":  {Trade: "Floor", Takes: []string{sentence}, Steps: []WorkStep{{Does: sentence, Lines: []string{sentence, sentence}}}, Cautions: []string{sentence, sentence, sentence, caution.Defer}},
		"steps":      {Trade: "Floor", Steps: steps, Cautions: []string{caution.Defer}},
		"lists":      {Trade: "Floor", Takes: numbered(300, "of tape"), Steps: steps[:2], Cautions: append(numbered(300, "rises differ"), caution.Defer)},
		"too wide":   {Trade: "Floor", Steps: []WorkStep{{Does: "Lay", Table: wide, Thing: "mark"}}},
	} {
		for _, paper := range []string{"A3", "A5"} {
			t.Run(name+" "+paper, func(t *testing.T) {
				opt := filed(paper)
				b, err := WorkOrders(kiosk(), changeOf(o), opt)
				require.NoError(t, err)
				p := laidPage(b, len(b.Entries)-1)
				requireClean(t, p, liveOf(t, b, opt), "")
				if len(o.Cautions) > 0 {
					require.Contains(t, said(p), caution.Defer)
				}
				all := said(p)
				switch name {
				case "steps":
					shown := strings.Count(all, "Step {")
					if shown < len(steps) {
						require.Contains(t, all, moreWords(len(steps)-shown, "step", rest))
					}
				case "lists":
					shown := strings.Count(all, "rises differ")
					require.Contains(t, all, moreWords(300-shown, "caution", rest))
					require.Contains(t, all, moreWords(300-strings.Count(all, "of tape"), "line", rest))
				case "too wide":
					require.Contains(t, all, "a sentence of a few words; B a sentence", "said in words")
				}
			})
		}
	}
}
