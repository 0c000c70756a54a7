package sheet

import (
	"context"
	"slices"
	"sync"

	"markout/layout/develop"
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/table"
	"markout/tiling"
	"markout/tiling/grid"
	"markout/tiling/nest"
)

// ModelOptions say what a model's pieces are laid on and how.
type ModelOptions struct {
	Options          // paper of the cover, the lists and the base sheet, and of the card sheets unless Board is given
	OwnMargins bool  // the margins are a printer's real ones: nothing is printed in them
	Board      Board // what the pieces are laid on in place of the paper
	Gap        float64
	Turns      []float64 // degrees, for all pieces, in place of what the set says; nil for that
	Effort     nest.Effort
	Stop       func() bool // nil for never
	Progress   func(done, total int)
	ScaleWords string   // as people write it: "1:25"
	LeftOut    []string // what could not be made, for the cover

	Since        *Nests   // where an earlier issue has the pieces; nil for none
	Anew         bool     // the pieces are nested anew all the same; the base sheet stays
	People       set.Card // what scale figures are cut from; without a thickness there are none
	PrintOutside bool     // lines are on the side that is seen
}

// Board is a sheet of card or board that pieces are laid on from edge to edge, or a roll of it. The zero Board is none.
type Board struct {
	Name string
	W, H float64 // millimetres; of a roll H is its width and W is 0
	Roll bool
}

// DefaultGap is how far pieces lie from one another in millimetres, for a knife (common practice, no source).
const DefaultGap = 2.0

// CardModel is the pieces of a model laid on sheets of card.
type CardModel struct {
	Model   *develop.Model
	Sheets  []CardSheet // by number
	Kept    int         // how many pieces lie where the earlier issue has them
	Trials  int
	Stopped bool // the search for a denser placement was ended before its time

	set      *set.Set
	opt      ModelOptions
	bed      bed
	last     int         // the greatest number of a sheet
	where    [][2]int    // of each piece: its sheet and its place there
	jointsAt [][]jointAt // of each piece
	glue     []glueFound // of each piece
	holding  map[string]bool
	noting   sync.Mutex // of what sheets are given when they are drawn, and of holding then
	divided  []string   // elements with pieces that are larger than a sheet
	keeps    string     // the flag with which all stay whole, empty where none is known
	people   []standing // on the base sheet
	apart    bool       // they have pages of their own
	anew     bool       // there is an earlier issue, of which nothing can stay
	basePlan *grid.Plan // nil where there is no base sheet
}

// CardSheet is one sheet of card.
type CardSheet struct {
	Number    int     // from 1; with an earlier issue's sheets some may be missing
	Card      string  // the card's name, or its names where several are equally thick; empty for the only one
	Thickness float64 // millimetres
	Size      tiling.Size
	Area      geom.Rect // where pieces may lie
	Used      float64   // how far along x pieces reach, for a roll
	Places    []Laid

	lo    geom.Point // of the bands of paper
	kept  bool       // its pieces lie where the earlier issue has them
	noted bool       // and those too small for their lettering have been given it
}

// Laid is where a piece lies on its sheet: turned by Turn degrees about its own 0,0, which then lies at At, millimetres from
// the sheet's lower left corner.
type Laid struct {
	Piece int // index in Model.Pieces
	At    geom.Point
	Turn  float64

	note *sideNote // lettering that stands beside a piece too small to hold it
}

// move lays the piece's own places on the sheet.
func (l Laid) move() geom.Isometry { return geom.Move(l.At, l.Turn) }

// LayModel lays the pieces of a model on sheets, card by card; what is larger than a sheet is divided. Pieces that an earlier issue
// has keep sheet, place and turn, and all others go onto further sheets; where the scale, the sheet, its margins or the gap are
// others all are nested anew. The list holds the
// pieces that fit no sheet, each at the place of its element in the text; the error is of the paper or of the context.
func LayModel(ctx context.Context, s *set.Set, m *develop.Model, opt ModelOptions) (*CardModel, *diag.List, error) {
	bed, err := bedOf(opt)
	if err != nil {
		return nil, nil, err
	}
	if opt.Turns != nil {
		m = withTurns(m, opt.Turns)
	}
	room := bed.room(opt.Gap)
	whole := m
	m, list := develop.Split(m, room.X, room.Y, opt.Gap)
	c := &CardModel{Model: m, set: s, opt: opt, bed: bed, where: make([][2]int, len(m.Pieces)), holding: map[string]bool{}}
	var earlier *matcher
	if opt.Since != nil && !opt.Anew && opt.Since.fits(m.Scale, opt.Gap, bed) {
		earlier = match(m, opt.Since, bed)
		c.Model = earlier.renumbered()
	}
	c.anew = opt.Since != nil && !opt.Anew && earlier == nil
	c.index()
	c.compare(whole)
	lies := make([]bool, len(m.Pieces))
	if earlier != nil {
		lies = c.keep(earlier)
	}
	for _, k := range cardsOf(c.Model) {
		c.nameKept(k)
		k.pieces = slices.DeleteFunc(k.pieces, func(i int) bool { return lies[i] })
		if err := c.layCard(ctx, k, bed, list); err != nil {
			return nil, nil, err
		}
	}
	for i := range c.Sheets {
		for k, l := range c.Sheets[i].Places {
			c.where[l.Piece] = [2]int{i, k}
		}
	}
	if err := c.standPeople(); err != nil {
		return nil, nil, err
	}
	if c.basePlan, err = c.layBase(); err != nil {
		return nil, nil, err
	}
	return c, list, nil
}

// BaseSheet is the base sheet's name in the contract of the model's table.
const BaseSheet = "base"

// Table lists every piece and where it lies, then the scale figures on the base sheet, and that sheet last; places on it count
// from its lower left corner.
func (c *CardModel) Table() *table.Table {
	size := func(name, heading string, decimals int) table.Column {
		return table.Column{Name: name, Heading: heading, Kind: table.Length, Decimals: decimals, Step: 0.1}
	}
	t := &table.Table{
		Name: "model", Title: "Pieces of card", Sides: table.Sides{Plus: " ", Minus: "left of the sheet"},
		Columns: []table.Column{
			{Name: "piece", Heading: "Piece"}, {Name: "element", Heading: "Element"}, {Name: "card", Heading: "Card"},
			size("width_mm", "Width", 3), size("height_mm", "Height", 3),
			{Name: "area_mm2", Heading: "Area, mm²", Kind: table.Count, Decimals: 2},
			{Name: "sheet", Heading: "Sheet", Kind: table.Count},
			size("x_mm", "Across", 3), size("y_mm", "Up", 3),
			{Name: "turn_deg", Heading: "Turn", Kind: table.Angle, Decimals: 3, Step: 1},
			{Name: "joins", Heading: "Joins"},
		},
	}
	joins := c.joins()
	for i := range c.Model.Pieces {
		p := &c.Model.Pieces[i]
		b := p.Outline.Bounds()
		at := c.where[i]
		l := &c.Sheets[at[0]].Places[at[1]]
		t.Rows = append(t.Rows, []table.Value{
			table.T(p.Label()), table.T(p.Element), table.T(cardName(p)), table.N(b.W()), table.N(b.H()), table.N(p.Outline.Area()),
			table.N(float64(c.Sheets[at[0]].Number)), table.N(l.At.X), table.N(l.At.Y), table.N(l.Turn), table.T(joins[i]),
		})
	}
	if base, ok := c.baseBox(); ok {
		for i := range c.people {
			p := &c.people[i]
			b, at := p.piece.Outline.Bounds(), p.at.Sub(base.Min)
			t.Rows = append(t.Rows, []table.Value{
				table.T(p.piece.Label()), table.T(p.piece.Element), table.T(cardName(&p.piece)), table.N(b.W()), table.N(b.H()), table.N(p.piece.Outline.Area()),
				table.T(BaseSheet), table.N(at.X), table.N(at.Y), table.N(0), table.Blank,
			})
		}
		t.Rows = append(t.Rows, []table.Value{
			table.T(BaseSheet), table.T(BaseSheet), table.Blank, table.N(base.W()), table.N(base.H()), table.N(base.W() * base.H()),
			table.T(BaseSheet), table.N(0), table.N(0), table.N(0), table.Blank,
		})
	}
	return t
}
