package sheet

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"strings"

	"markout/layout/develop"
	"markout/layout/geom"
	"markout/tiling/grid"
)

// Nests is what issue.json keeps of a card model, so that a later issue can leave pieces where they lie and joints their numbers.
type Nests struct {
	Scale    float64           `json:"scale"`    // denominator
	Sheet    [2]float64        `json:"sheet_mm"` // of a roll 0 and its width
	Area     [4]float64        `json:"area_mm"`  // where pieces may lie: left, lower, right, upper; of a roll the right one is 0
	Gap      float64           `json:"gap_mm"`
	Stopped  bool              `json:"stopped,omitempty"` // the search for a denser placement was ended early
	Last     int               `json:"last_sheet"`        // the greatest number that a sheet has had, here or before
	Sheets   []SheetRecord     `json:"sheets"`            // by number
	Elements []ElementRecord   `json:"elements"`          // in the order of the lists
	People   []PersonRecord    `json:"people,omitempty"`
	Apart    bool              `json:"people_apart,omitempty"` // they have pages of their own
	Base     []grid.GridRecord `json:"base,omitempty"`         // the grids of the base sheet
}

// SheetRecord is a sheet of card and what lies on it.
type SheetRecord struct {
	Number int          `json:"sheet"`
	Card   string       `json:"card"`
	Thick  float64      `json:"thickness_mm"`
	Paper  string       `json:"paper"`
	Size   [2]float64   `json:"size_mm"`
	Pieces []LaidRecord `json:"pieces"`
}

// LaidRecord is where a piece lies: its label, the digest of its shape, and its place as Laid has it.
type LaidRecord struct {
	Piece string     `json:"piece"`
	Shape string     `json:"shape"`
	At    [2]float64 `json:"at_mm"`
	Turn  float64    `json:"turn_deg"`
}

// ElementRecord is an element that the model has something of. Shape is a digest of all its copies, which tells it again when it
// is called otherwise.
type ElementRecord struct {
	Element string       `json:"element"`
	Shape   string       `json:"shape"`
	Copies  []CopyRecord `json:"copies,omitempty"` // those with joints
}

// CopyRecord is the joints of one copy in the order of making: the joint's number and those of the two pieces that it joins.
type CopyRecord struct {
	Copy   string   `json:"copy"`
	Joints [][3]int `json:"joints"`
}

// PersonRecord is where a scale figure stands on the base sheet, in the set's axes at the model's scale.
type PersonRecord struct {
	Person string     `json:"person"`
	At     [2]float64 `json:"at_mm"`
}

// Record returns what a later issue needs to leave everything where it is.
func (c *CardModel) Record() *Nests {
	bed := c.bed.record()
	r := &Nests{Scale: c.Model.Scale, Sheet: bed.Sheet, Area: bed.Area, Gap: c.opt.Gap, Last: c.last, Stopped: c.Stopped, Sheets: []SheetRecord{}, Elements: []ElementRecord{}}
	for i := range c.Sheets {
		s := &c.Sheets[i]
		one := SheetRecord{Number: s.Number, Card: s.Card, Thick: s.Thickness, Paper: c.paperOf(s), Size: [2]float64{s.Size.W, s.Size.H}}
		for _, l := range s.Places {
			p := &c.Model.Pieces[l.Piece]
			one.Pieces = append(one.Pieces, LaidRecord{p.Label(), shapeOf(p, c.bed), [2]float64{l.At.X, l.At.Y}, l.Turn})
		}
		r.Sheets = append(r.Sheets, one)
	}
	shapes := elementShapes(c.Model, c.bed)
	at := map[string]int{}
	for _, name := range elementsOf(c.Model) {
		at[name] = len(r.Elements)
		r.Elements = append(r.Elements, ElementRecord{Element: name, Shape: shapes[name]})
	}
	for _, j := range c.Model.Joints {
		e := &r.Elements[at[baseName(j.Element)]]
		if n := len(e.Copies); n == 0 || e.Copies[n-1].Copy != j.Element {
			e.Copies = append(e.Copies, CopyRecord{Copy: j.Element})
		}
		k := &e.Copies[len(e.Copies)-1]
		k.Joints = append(k.Joints, [3]int{j.Number, c.Model.Pieces[j.A.Piece].Number, c.Model.Pieces[j.B.Piece].Number})
	}
	for i := range c.people {
		p := &c.people[i]
		r.People = append(r.People, PersonRecord{p.piece.Label(), [2]float64{p.at.X, p.at.Y}})
	}
	r.Apart = c.apart
	if c.basePlan != nil {
		r.Base = c.basePlan.Grids()
	}
	return r
}

// record is a bed as a record has it.
func (b bed) record() (r Nests) {
	r.Sheet = [2]float64{b.size.W, b.size.H}
	r.Area = [4]float64{b.area.Min.X, b.area.Min.Y, b.area.Max.X, b.area.Max.Y}
	if b.roll {
		r.Sheet[0], r.Area[2] = 0, 0
	}
	return r
}

// shapeOf is the digest of what decides where a piece can lie: its card, its outline with its openings, its half-cuts, and the turns
// that it may have on a sheet. What it is called is not in it.
func shapeOf(p *develop.Piece, b bed) string {
	var w strings.Builder
	fmt.Fprintf(&w, "%.6f %v %s", p.Thickness, p.Lie.EitherSide, outlineKey(p.Outline, p.Turns(grainUp(b))))
	line := func(l develop.Line, front bool) {
		fmt.Fprintf(&w, "%.6f %.6f %.6f %.6f %v;", l.From.X+0, l.From.Y+0, l.To.X+0, l.To.Y+0, front)
	}
	for _, f := range p.Folds {
		line(f.Line, f.Front)
	}
	w.WriteByte('|')
	for _, f := range p.Relief {
		line(f.Line, f.Front)
	}
	return digestText(w.String())
}

// shapeBytes are the bytes of a digest that tell shapes apart.
const shapeBytes = 16

func digestText(s string) string {
	sum := sha256.Sum256([]byte(s))
	return hex.EncodeToString(sum[:shapeBytes])
}

// elementsOf names the elements that a model has something of, in its order.
func elementsOf(m *develop.Model) []string {
	var out []string
	seen := map[string]bool{}
	add := func(name string) {
		if name = baseName(name); !seen[name] {
			seen[name] = true
			out = append(out, name)
		}
	}
	for i := range m.Pieces {
		add(m.Pieces[i].Element)
	}
	for i := range m.Rods {
		add(m.Rods[i].Element)
	}
	for i := range m.Small {
		add(m.Small[i].Element)
	}
	for i := range m.Notes {
		add(m.Notes[i].Element)
	}
	return out
}

// elementShapes are digests of all that the model has of each element.
func elementShapes(m *develop.Model, b bed) map[string]string {
	all := map[string]*strings.Builder{}
	add := func(name, format string, args ...any) {
		name = baseName(name)
		if all[name] == nil {
			all[name] = &strings.Builder{}
		}
		fmt.Fprintf(all[name], format, args...)
	}
	for i := range m.Pieces {
		add(m.Pieces[i].Element, "p%s ", shapeOf(&m.Pieces[i], b))
	}
	for _, r := range m.Rods {
		add(r.Element, "r%s %.6f %.6f %v ", r.Section, r.Diameter, r.Length, r.Hole)
	}
	for _, x := range m.Small {
		add(x.Element, "s%s %.6f ", x.What, x.Size)
	}
	for _, n := range m.Notes {
		add(n.Element, "n%s ", n.Words)
	}
	out := map[string]string{}
	for name, w := range all {
		out[name] = digestText(w.String())
	}
	return out
}

// fits reports whether pieces that lie as the record says can lie so on a bed: at the same scale, on the same sheet with the same
// margins and gap.
func (r *Nests) fits(scale, gap float64, b bed) bool {
	same := func(x, y float64) bool { return x-y <= geom.Tolerance && y-x <= geom.Tolerance }
	own := b.record()
	ok := same(r.Scale, scale) && same(r.Gap, gap)
	for i := range own.Sheet {
		ok = ok && same(r.Sheet[i], own.Sheet[i])
	}
	for i := range own.Area {
		ok = ok && same(r.Area[i], own.Area[i])
	}
	return ok
}
