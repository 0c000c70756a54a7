package sheet

import (
	"slices"

	"markout/tiling/cut"
)

// keptStack is a stack of the earlier issue that stays, and its record's index.
type keptStack struct {
	cut.TopPlan
	record int
}

// keptStacks returns for each top the stacks that it stands on already: those of its own label, otherwise of another that has gone,
// and whether all of them stay.
func (c *Cutting) keptStacks(boxes []cut.Box, opt cut.BlockOptions) (kept [][]keptStack, whole bool) {
	kept = make([][]keptStack, len(c.Taken.Tops))
	if c.opt.Since == nil {
		return kept, false
	}
	was := c.opt.Since.Blocks
	left := make([]int, len(was)) // how many of each record stand free
	for i := range was {
		left[i] = was[i].Count
	}
	wanted := make([]int, len(kept))
	for i := range wanted {
		wanted[i] = c.Taken.Tops[i].Count
	}
	for _, own := range [2]bool{true, false} {
		for i := range c.Taken.Tops {
			t := &c.Taken.Tops[i]
			for r := range was {
				b := &was[r]
				size := [3]float64{t.Length, t.Width, t.Height}
				if left[r] == 0 || wanted[i] == 0 || own != (b.Element == c.then(t.Element) && b.Block == t.Name) || !own && left[r] != b.Count || !sameTop(b.Size, size) {
					continue
				}
				top := cutTop(t)
				top.Count = min(left[r], wanted[i])
				plan, ok := cut.Restack(boxes, top, cut.Stacked{Layers: b.Layers, Plates: b.Plates}, opt)
				if !ok {
					continue
				}
				left[r], wanted[i] = left[r]-top.Count, wanted[i]-top.Count
				plan.Top = i
				kept[i] = append(kept[i], keptStack{plan, r})
			}
		}
	}
	return kept, !slices.ContainsFunc(left, func(n int) bool { return n > 0 })
}

func sameTop(a, b [3]float64) bool {
	return sameLength(a[0], b[0]) && sameLength(a[1], b[1]) && sameLength(a[2], b[2])
}

// together is the plan of what stays and of what is stacked anew, in the order of the tops; of gives each top of the plan its index.
func (c *Cutting) together(plan *cut.BlockPlan, of []int, kept [][]keptStack) *cut.BlockPlan {
	out := &cut.BlockPlan{Used: make([]int, len(c.set.Stock)), Short: make([]int, len(c.set.Stock)), Proven: plan.Proven, Assumed: plan.Assumed}
	fresh := make([][]cut.TopPlan, len(kept))
	for _, t := range plan.Tops {
		t.Top = of[t.Top]
		fresh[t.Top] = append(fresh[t.Top], t)
	}
	add := func(t cut.TopPlan, record int) {
		out.Tops = append(out.Tops, t)
		out.Boxes += t.Count * t.Boxes
		for _, l := range t.Layers {
			out.Used[l.Box] += t.Count * l.AlongLength * l.AlongWidth
		}
		c.topRecords = append(c.topRecords, record)
	}
	for i := range kept {
		for _, k := range kept[i] {
			add(k.TopPlan, k.record)
		}
		for _, t := range fresh[i] {
			add(t, -1)
		}
	}
	for i, b := range c.set.Stock {
		if b.Count > 0 {
			out.Short[i] = max(0, out.Used[i]-b.Count)
		}
	}
	return out
}

// numberTops gives every stack its item number: the earlier issue's, or the next unused one.
func (c *Cutting) numberTops() {
	if c.Blocks == nil {
		return
	}
	used := map[int]bool{}
	for _, r := range c.topRecords {
		item := 0
		if r >= 0 {
			item = c.opt.Since.Blocks[r].Item
		}
		if item == 0 || used[item] {
			c.lastItem++
			item = c.lastItem
		}
		used[item] = true
		c.topItems = append(c.topItems, item)
	}
}
