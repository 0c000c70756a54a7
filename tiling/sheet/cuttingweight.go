package sheet

import (
	"fmt"
	"strings"

	"markout/layout/set"
	"markout/layout/table"
)

// Weight is what one material weighs, in kilograms.
type Weight struct {
	Material      string
	Weighed       bool // its density is given
	Pieces        int
	PiecesWeigh   float64 // all pieces of it
	Heaviest      float64 // the heaviest piece
	Whole         int     // boards or bars that are cut
	EachWeighs    float64 // one whole board or bar
	WholesWeigh   float64
	Waste         float64 // share of the boards or bars that is no piece
	InHand, Short int     // InHand 0 for any number
}

// Weights returns what every material weighs that something is cut from, boards first. Stock boxes are not weighed.
func (c *Cutting) Weights() []Weight {
	var out []Weight
	for b := range c.set.Boards {
		k := &c.set.Boards[b]
		w := Weight{Material: k.Name, Weighed: k.Density > 0, InHand: k.Count, EachWeighs: k.Weight()}
		area := 0.0
		for i := range c.Boards {
			if c.Boards[i].Board == b {
				w.whole(c.Boards[i].Short)
				area += k.Length * k.Width
				for _, one := range c.Boards[i].Cuts {
					w.piece(c.Taken.Pieces[one.Piece].Volume(), k.Density)
				}
				w.Waste += c.Boards[i].Used
			}
		}
		out = w.add(out, area)
	}
	for b := range c.set.Lengths {
		k := &c.set.Lengths[b]
		w := Weight{Material: k.Name, Weighed: k.Density > 0, InHand: k.Count, EachWeighs: k.Weight()}
		long := 0.0
		for i := range c.Bars {
			if c.Bars[i].Bar == b {
				w.whole(c.Bars[i].Short)
				long += k.Long
				for _, one := range c.Bars[i].Cuts {
					p := &c.Taken.Pieces[one.Piece]
					w.piece(p.Volume(), k.Density)
					w.Waste += p.Length
				}
			}
		}
		out = w.add(out, long)
	}
	return out
}

func (w *Weight) whole(short bool) {
	w.Whole++
	w.WholesWeigh += w.EachWeighs
	if short {
		w.Short++
	}
}

func (w *Weight) piece(volume, density float64) {
	kg := set.Weigh(volume, density)
	w.Pieces++
	w.PiecesWeigh += kg
	w.Heaviest = max(w.Heaviest, kg)
}

// add turns what is used into what is waste and keeps a material that is cut.
func (w *Weight) add(to []Weight, stock float64) []Weight {
	if w.Whole == 0 {
		return to
	}
	w.Waste = 1 - w.Waste/stock
	return append(to, *w)
}

// Total returns what the pieces of all materials weigh, and how many pieces are not weighed: stock boxes are among those.
func (c *Cutting) Total() (kg float64, unweighed int) {
	for _, w := range c.Weights() {
		kg += w.PiecesWeigh
		if !w.Weighed {
			unweighed += w.Pieces
		}
	}
	if c.Blocks != nil {
		unweighed += c.Blocks.Boxes
	}
	return kg, unweighed
}

// TotalWords says the total: "at least" where something is not weighed, and that it is unknown where nothing is.
func (c *Cutting) TotalWords() string {
	kg, n := c.Total()
	if n == 0 {
		return c.kilograms(kg)
	}
	unweighed := counted(n, "piece") + " not weighed"
	if kg == 0 {
		return "an unknown amount; " + unweighed
	}
	return "at least " + c.kilograms(kg) + "; " + unweighed
}

// WeightTable returns the weights by material for people, nil where nothing is cut.
func (c *Cutting) WeightTable() *table.Table {
	weights := c.Weights()
	if len(weights) == 0 {
		return nil
	}
	t := c.table("weights", "Weights", []table.Column{
		{Name: "material", Heading: "Material"}, {Name: "pieces", Heading: "Pieces", Kind: table.Count},
		{Name: "pieces_kg", Heading: "All pieces", Kind: table.Weight, Decimals: 1}, {Name: "heaviest_kg", Heading: "Heaviest piece", Kind: table.Weight, Decimals: 1},
		{Name: "boards", Heading: "Boards or bars", Kind: table.Count}, {Name: "each_kg", Heading: "One whole", Kind: table.Weight, Decimals: 1},
		{Name: "all_kg", Heading: "All whole", Kind: table.Weight, Decimals: 1}, {Name: "waste_percent", Heading: "Waste %", Kind: table.Count},
		{Name: "in_hand", Heading: "In hand", Kind: table.Count}, {Name: "short", Heading: "Short", Kind: table.Count},
	})
	for _, w := range weights {
		kg := func(x float64) table.Value {
			if !w.Weighed {
				return table.Blank
			}
			return table.N(x)
		}
		hand := table.Blank
		if w.InHand > 0 {
			hand = table.N(float64(w.InHand))
		}
		t.Rows = append(t.Rows, []table.Value{table.T(w.Material), table.N(float64(w.Pieces)), kg(w.PiecesWeigh), kg(w.Heaviest),
			table.N(float64(w.Whole)), kg(w.EachWeighs), kg(w.WholesWeigh), table.N(100 * w.Waste), hand, table.N(float64(w.Short))})
	}
	t.Notes = []string{"All pieces together: " + c.TotalWords() + ".", "A material without a density is not weighed. Screws, glue and paint are not counted."}
	return t
}

// Summary says in one line what it takes: boards, bars and boxes by material, and what is short.
func (c *Cutting) Summary() string {
	var out []string
	for _, w := range c.Weights() {
		line := fmt.Sprintf("%d of %s", w.Whole, w.Material)
		if w.Short > 0 {
			line += fmt.Sprintf(" (%d short)", w.Short)
		}
		out = append(out, line)
	}
	if c.Blocks != nil {
		line := counted(c.Blocks.Boxes, "stock box")
		if c.Blocks.Boxes != 1 {
			line = fmt.Sprintf("%d stock boxes", c.Blocks.Boxes)
		}
		short := 0
		for _, n := range c.Blocks.Short {
			short += n
		}
		if short > 0 {
			line += fmt.Sprintf(" (%d short)", short)
		}
		out = append(out, line)
	}
	if len(out) == 0 {
		return "nothing to cut: no piece has a material (`of`)"
	}
	line := strings.Join(out, ", ") + "; pieces weigh " + c.TotalWords()
	if c.Kept > 0 {
		line += fmt.Sprintf("; %s on the boards and bars of the earlier issue", counted(c.Kept, "piece"))
	}
	return line
}
