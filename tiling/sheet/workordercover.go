package sheet

import (
	"fmt"

	"markout/layout/caution"
	"markout/tiling"
)

// workCover says what changed, what becomes of the paper, and how the pages are read.
func (b *binder) workCover(w *WorkChange) {
	s := b.set
	what := tiling.Block{Heading: "What this is", Lines: []string{
		"What each trade has to do to get from issue " + w.Since + " to this one: " + counted(len(w.Orders), "page") + ", one a trade. Give each trade its own.",
	}}
	for i := range b.pages {
		what.Lines = append(what.Lines, b.pages[i].entry.Title+", "+b.pages[i].entry.Paper)
	}
	changed := tiling.Block{Heading: "What changed since " + w.Since, Lines: w.Elements}
	if len(w.Elements) == 0 {
		changed.Lines = []string{"No element changed."}
	}
	blocks := []tiling.Block{what, changed, w.pages()}
	if len(w.Superseded) > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Withdraw these pages", Lines: w.Superseded})
	}
	blocks = append(blocks, tiling.Block{Heading: "In this order", Numbered: true, Lines: w.order()},
		tiling.Block{Heading: "How to read the pages", Lines: []string{
			"Hold each page as its title reads, upright. Work down the first column, then down the next; tick each box when it is done.",
			"On a page that was printed again a bar in the left margin stands beside what is not as in the issue that the bar names. Beside what did not change stands no bar.",
			"Letter and date on a page are those at which its drawing last changed. A page that is kept carries an earlier letter, and is right.",
		}})
	for i := range w.Orders {
		if len(w.Orders[i].Cautions) > 0 {
			blocks = append(blocks, tiling.Block{Heading: "Cautions", Lines: []string{
				caution.Defer, "Each page has the cautions of what it touches at its foot.",
			}})
			break
		}
	}
	if s.Trial && len(s.With) > 0 {
		blocks = append(blocks, tiling.Block{Heading: "Values changed for this trial", Lines: s.With})
	}
	c := newCover(s, s.Name+": work orders", blocks)
	b.covers(c, b.coverFrame())
}

// pages says how many pages are kept, printed again and withdrawn.
func (w *WorkChange) pages() tiling.Block {
	return tiling.Block{Heading: "Paper", Lines: []string{
		fmt.Sprintf("%s to keep: nothing on them changed.", counted(w.Keep, "page")),
		fmt.Sprintf("%s to print, in place of earlier ones or new.", counted(w.Reprint, "page")),
		fmt.Sprintf("%s to withdraw.", counted(w.Withdraw, "page")),
	}}
}

// order is the order in which paper and work are changed over.
func (w *WorkChange) order() []string {
	out := []string{"Print without scaling what is to be printed. Lay a rule along the check bars of each page: if one is wrong, print again."}
	if w.Withdraw > 0 {
		out = append(out,
			"Take in the pages to withdraw before work begins, from floor, benches and walls. Tick them off against the list.",
			"Strike each through from corner to corner, write SUPERSEDED on it, and keep it where nobody works from it.")
	}
	return append(out,
		"Give each trade its page with the new paper, and have it lift, take down or lay aside first what the page says.",
		"Have the page back when all boxes are ticked; a box that is left open says what is still as in issue "+w.Since+".")
}
