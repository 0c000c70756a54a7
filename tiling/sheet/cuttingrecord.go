package sheet

import (
	"fmt"

	"markout/layout/takeoff"
	"markout/tiling/cut"
)

// Cuts is what issue.json keeps of what is cut, so that a later issue can leave boards and bars as they are: some are cut already.
// Numbers of items, boards and bars are written on wood, and none is given twice.
type Cuts struct {
	Free     bool          `json:"free,omitempty"`    // pieces lie so that no cut from edge to edge parts them
	Stopped  bool          `json:"stopped,omitempty"` // a search was ended early
	LastItem int           `json:"last_item"`         // the greatest number that an item has had, here or before
	Strips   int           `json:"strips"`            // how many places of the sheets of bars have been given out
	Lists    int           `json:"lists"`             // how many cutting lists there have been
	Items    []ItemRecord  `json:"items"`
	Boards   []BoardsOf    `json:"boards"` // by material, and those of earlier issues too
	Bars     []BarsOf      `json:"bars"`
	Blocks   []BlockRecord `json:"blocks,omitempty"`
	Rough    bool          `json:"blocks_unproven,omitempty"`
	Patched  bool          `json:"blocks_patched,omitempty"`
}

// ItemRecord is a piece, or several alike: its number, its label, what it is of, and the digest of its shape and of the ways that it
// may lie.
type ItemRecord struct {
	Item    int    `json:"item"`
	Element string `json:"element"`
	Piece   string `json:"piece"`
	Of      string `json:"of"`
	Shape   string `json:"shape"`
	Count   int    `json:"count"`
}

// BoardsOf is the boards of one material.
type BoardsOf struct {
	Name     string        `json:"of"`
	Size     [2]float64    `json:"size_mm"`
	Thick    float64       `json:"thickness_mm"`
	Kerf     float64       `json:"kerf_mm"`
	Grain    string        `json:"grain,omitempty"`
	Last     int           `json:"last_board"` // the greatest number that a board of it has had
	Unproven bool          `json:"unproven,omitempty"`
	Patched  bool          `json:"patched,omitempty"`     // kept and new ones together: laid anew all may take fewer
	Free     int           `json:"free_boards,omitempty"` // how many do where pieces lie free; 0 for no fewer
	Boards   []BoardRecord `json:"boards"`                // by number
}

// BoardRecord is one board and what is cut from it, in the order in which it is freed. Sheet is the number of the first of the boards
// that one drawing shows, and List says which of the cutting lists has it, from 1.
type BoardRecord struct {
	Number int         `json:"board"`
	Sheet  int         `json:"sheet"`
	List   int         `json:"list"`
	Cuts   []CutRecord `json:"cuts"`
	Part   *PartRecord `json:"part,omitempty"` // how cuts from edge to edge part it
}

// CutRecord is where a piece of an item lies on its board, as BoardCut has it.
type CutRecord struct {
	Item int        `json:"item"`
	At   [2]float64 `json:"at_mm"`
	Turn float64    `json:"turn_deg"`
}

// PartRecord is a part of a board: it is cut across or along at a measure, or is the piece with an index in the board's cuts, or is
// waste.
type PartRecord struct {
	Across float64     `json:"across_mm,omitempty"`
	Along  float64     `json:"along_mm,omitempty"`
	Near   *PartRecord `json:"near,omitempty"`
	Far    *PartRecord `json:"far,omitempty"` // nil where the saw leaves nothing
	Piece  *int        `json:"piece,omitempty"`
}

// BarsOf is the bars of one length.
type BarsOf struct {
	Name     string      `json:"of"`
	Section  [2]float64  `json:"section_mm"`
	Long     float64     `json:"long_mm"`
	Kerf     float64     `json:"kerf_mm"`
	Last     int         `json:"last_bar"`
	Unproven bool        `json:"unproven,omitempty"`
	Patched  bool        `json:"patched,omitempty"`
	Bars     []BarRecord `json:"bars"`
}

// BarRecord is one bar, its cuts from the datum end, and its place on the sheets of bars, from 0.
type BarRecord struct {
	Number int            `json:"bar"`
	Strip  int            `json:"strip"`
	List   int            `json:"list"`
	Cuts   []BarCutRecord `json:"cuts"`
}

// BarCutRecord is where a piece of an item begins on its bar.
type BarCutRecord struct {
	Item int     `json:"item"`
	From float64 `json:"from_mm"`
}

// BlockRecord is what stands under the top of a block, or under several alike.
type BlockRecord struct {
	Item    int          `json:"item"`
	Element string       `json:"element"`
	Block   string       `json:"block"`
	Size    [3]float64   `json:"top_mm"` // across, along, carried at
	Count   int          `json:"count"`
	Layers  [][3]float64 `json:"layers_mm"` // the sides of each layer's boxes as they lie, from the floor up
	Plates  []float64    `json:"packing_mm,omitempty"`
}

// Record returns what a later issue needs to leave everything as it is.
func (c *Cutting) Record() *Cuts {
	r := &Cuts{Free: c.opt.Free, Stopped: c.Stopped, LastItem: c.lastItem, Strips: c.strips, Lists: c.lists, Items: []ItemRecord{},
		Boards: []BoardsOf{}, Bars: []BarsOf{}, Rough: c.rough, Patched: c.restacked}
	for i := range c.Taken.Pieces {
		p := &c.Taken.Pieces[i]
		r.Items = append(r.Items, ItemRecord{p.Item, c.then(p.Element), p.Name, c.material(p), cutShape(p), p.Count})
	}
	for b := range c.set.Boards {
		m := c.boardsOf(b)
		for i := range c.Boards {
			if c.Boards[i].Board == b {
				m.Boards = append(m.Boards, c.boardRecord(&c.Boards[i]))
			}
		}
		r.Boards = append(r.Boards, m)
	}
	for b := range c.set.Lengths {
		m := c.barsOf(b)
		for i := range c.Bars {
			if k := &c.Bars[i]; k.Bar == b {
				one := BarRecord{Number: k.Number, Strip: k.strip, List: k.list}
				for _, x := range k.Cuts {
					one.Cuts = append(one.Cuts, BarCutRecord{c.Taken.Pieces[x.Piece].Item, x.From})
				}
				m.Bars = append(m.Bars, one)
			}
		}
		r.Bars = append(r.Bars, m)
	}
	c.goneMaterials(r)
	if c.Blocks == nil {
		return r
	}
	for i := range c.Blocks.Tops {
		t := &c.Blocks.Tops[i]
		top := &c.Taken.Tops[t.Top]
		one := BlockRecord{Item: c.topItems[i], Element: c.then(top.Element), Block: top.Name, Size: [3]float64{top.Length, top.Width, top.Height},
			Count: t.Count, Layers: [][3]float64{}, Plates: t.Plates}
		for _, l := range t.Layers {
			one.Layers = append(one.Layers, [3]float64{l.Length, l.Width, l.Height})
		}
		r.Blocks = append(r.Blocks, one)
	}
	return r
}

// boardsOf is the record of a board's material without its boards.
func (c *Cutting) boardsOf(b int) BoardsOf {
	m, s := &c.set.Boards[b], &c.boards[b]
	return BoardsOf{Name: m.Name, Size: [2]float64{m.Length, m.Width}, Thick: m.Thick, Kerf: m.Kerf, Grain: string(m.Grain),
		Last: s.last, Unproven: s.unproven, Patched: s.patched, Free: s.free, Boards: []BoardRecord{}}
}

func (c *Cutting) barsOf(b int) BarsOf {
	m, s := &c.set.Lengths[b], &c.bars[b]
	return BarsOf{Name: m.Name, Section: [2]float64{m.Width, m.Depth}, Long: m.Long, Kerf: m.Kerf,
		Last: s.last, Unproven: s.unproven, Patched: s.patched, Bars: []BarRecord{}}
}

func (c *Cutting) boardRecord(b *CutBoard) BoardRecord {
	out := BoardRecord{Number: b.Number, Sheet: b.sheet, List: b.list, Part: partRecord(b.Part)}
	for _, k := range b.Cuts {
		out.Cuts = append(out.Cuts, CutRecord{c.Taken.Pieces[k.Piece].Item, [2]float64{k.At.X, k.At.Y}, k.Turn})
	}
	return out
}

// goneMaterials adds the materials of the earlier issue that the set has no more, so that their numbers are not given again should they
// come back.
func (c *Cutting) goneMaterials(r *Cuts) {
	if c.opt.Since == nil {
		return
	}
	have := map[string]bool{}
	for i := range r.Boards {
		have[r.Boards[i].Name] = true
	}
	for i := range r.Bars {
		have[r.Bars[i].Name] = true
	}
	used := map[*BoardsOf]bool{}
	for i := range c.boards {
		used[c.boards[i].was] = true
	}
	usedBars := map[*BarsOf]bool{}
	for i := range c.bars {
		usedBars[c.bars[i].wasBars] = true
	}
	for i := range c.opt.Since.Boards {
		if m := c.opt.Since.Boards[i]; !used[&c.opt.Since.Boards[i]] && !have[m.Name] {
			m.Boards, m.Unproven, m.Patched, m.Free = []BoardRecord{}, false, false, 0
			r.Boards = append(r.Boards, m)
		}
	}
	for i := range c.opt.Since.Bars {
		if m := c.opt.Since.Bars[i]; !usedBars[&c.opt.Since.Bars[i]] && !have[m.Name] {
			m.Bars, m.Unproven, m.Patched = []BarRecord{}, false, false
			r.Bars = append(r.Bars, m)
		}
	}
}

// material names what a piece is of.
func (c *Cutting) material(p *takeoff.Piece) string {
	if p.Bar >= 0 {
		return c.set.Lengths[p.Bar].Name
	}
	return c.set.Boards[p.Board].Name
}

// cutShape is the digest of what decides where a piece can lie: its sizes or its outline, and how it may be turned. What it is called
// and how thick its board is are not in it.
func cutShape(p *takeoff.Piece) string {
	switch {
	case p.Bar >= 0:
		return digestText(fmt.Sprintf("%.6f", p.Length))
	case p.Outline != nil:
		return digestText(fmt.Sprintf("%s %v %v", outlineKey(*p.Outline, p.Turns), p.AsIs, p.Turned))
	}
	return digestText(fmt.Sprintf("%.6f %.6f %v %v", p.Length, p.Width, p.AsIs, p.Turned))
}

// partRecord is a part as a record has it.
func partRecord(p *cut.Part) *PartRecord {
	if p == nil {
		return nil
	}
	r := &PartRecord{Near: partRecord(p.Near), Far: partRecord(p.Far)}
	switch {
	case p.Cut == cut.Across:
		r.Across = p.At
	case p.Cut == cut.Along:
		r.Along = p.At
	case p.Placed >= 0:
		piece := p.Placed
		r.Piece = &piece
	}
	return r
}
