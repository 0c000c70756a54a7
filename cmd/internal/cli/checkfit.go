package cli

import (
	"cmp"
	"fmt"
	"math"
	"strings"

	"markout/layout/set"
	"markout/layout/setout"
	"markout/layout/unit"
)

// fitHelp is what `markout check --help` says of hall fit.
const fitHelp = `Hall fit: where the set does not stay clear of the hall's walls and pillars by the margin as it stands, check
looks for the least turn about the set's own 0,0, and then for the shortest shift, at which it does; or says
what is too wide for the hall, where the set fits best, and what is outside there and by how much. Everything
that stands on the plan counts, in all its positions, and so does a reserve; marks, ways, braces, and rooms
overhead with what is in them do not. The ceiling is not looked at.`

// fitMargin reads --margin.
func fitMargin(text string) (float64, error) {
	x, err := bareLength("margin", text)
	if err == nil && x < 0 {
		err = refuse("--margin %s: a margin is 0 or more", text)
	}
	return x, err
}

// fitJSON is hall fit: the shift and turn at which the set fits or, where it does not, comes nearest to fitting. clear_mm is how far it
// stays clear there, less than 0 by the worst overhang, null where nothing stands on the plan.
type fitJSON struct {
	Hall    string        `json:"hall"`
	Fits    bool          `json:"fits"`
	Shift   [2]float64    `json:"shift_mm"`
	Turn    float64       `json:"turn_deg"`
	Margin  float64       `json:"margin_mm"`
	Outside []outsideJSON `json:"outside"`
	Clear   *float64      `json:"clear_mm"`
	AsIs    standsJSON    `json:"as_it_stands"`
	// NoTurn is true where every turn is ruled out, false where the set fits or where only those tried are.
	NoTurn bool `json:"no_turn"`
}

type outsideJSON struct {
	Element string  `json:"element"`
	By      float64 `json:"by_mm"`
}

type standsJSON struct {
	Clear   *float64      `json:"clear_mm"`
	Outside []outsideJSON `json:"outside"`
}

func newFitJSON(f *setout.Fit) *fitJSON {
	if f == nil {
		return nil
	}
	outside := func(list []setout.Outside) []outsideJSON {
		out := []outsideJSON{}
		for _, o := range list {
			out = append(out, outsideJSON{o.Element, unit.Round(o.By, 0.1)})
		}
		return out
	}
	length := func(x float64) *float64 {
		if math.IsInf(x, 0) {
			return nil
		}
		x = unit.Round(x, 0.1)
		return &x
	}
	return &fitJSON{
		Hall: f.Hall, Fits: f.Fits, Shift: [2]float64{unit.Round(f.Shift.X, 0.1), unit.Round(f.Shift.Y, 0.1)}, Turn: unit.Round(f.Turn, 0.001),
		Margin: f.Margin, Outside: outside(f.Outside), Clear: length(f.Clear),
		AsIs: standsJSON{length(f.Stands), outside(f.AsItStands)}, NoTurn: f.NoTurn,
	}
}

// fitWords says for people whether a set fits.
type fitWords struct {
	set *set.Set
	*setout.Fit
}

func (w fitWords) length(mm float64) string { return unit.FormatLength(mm, w.set.Units, 0.1) }

func (w fitWords) print(p *printer) {
	p.printf("\nHall fit: %s, margin %s\n", w.Hall, w.length(w.Margin))
	asIs := w.Turn == 0 && w.Shift.Len() == 0
	switch {
	case w.Fits && math.IsInf(w.Clear, 1):
		p.printf("    Nothing that counts stands on the plan.\n")
	case w.Fits && asIs:
		p.printf("    Fits the hall as it stands, %s clear.\n", w.length(w.Clear))
	case w.Fits:
		p.printf("    Fits when %s, %s clear.\n    As it stands: %s.\n", w.moved(), w.length(w.Clear), w.outside(w.AsItStands, w.Stands))
	default:
		w.printWhy(p)
		if asIs {
			p.printf("    It fits best as it stands: %s.\n", w.outside(w.Outside, w.Clear))
			break
		}
		p.printf("    It fits best when %s: %s.\n    As it stands: %s.\n", w.moved(), w.outside(w.Outside, w.Clear), w.outside(w.AsItStands, w.Stands))
	}
	p.printf("    Not counted: marks, ways, braces%s, rooms overhead with what is in them, and the hall's ceiling.\n", count(w.Braced, " (%d)"))
	if w.Inside == 1 {
		p.printf("    1 element was placed in the hall's own axes; it is moved with the rest.\n")
	} else if w.Inside > 1 {
		p.printf("    %d elements were placed in the hall's own axes; they are moved with the rest.\n", w.Inside)
	}
}

func count(n int, format string) string {
	if n == 0 {
		return ""
	}
	return fmt.Sprintf(format, n)
}

// printWhy says that the set does not fit, and how surely.
func (w fitWords) printWhy(p *printer) {
	switch {
	case w.Needs > 0:
		p.printf("    Does not fit at any turn: %s needs %s", cmp.Or(w.Wide, "the set as a whole"), w.length(w.Needs))
		if w.Margin > 0 {
			p.printf(", and %s on either side", w.length(w.Margin))
		}
		p.printf("; the hall is %s where it is narrowest.\n", w.length(w.Width))
	case w.NoTurn:
		p.printf("    Does not fit at any turn.\n")
	default:
		p.printf("    No turn that was tried fits; that there is none is not certain.\n")
	}
}

// moved is: turned 12° anticlockwise about 0,0, and then moved 300 stage left and 120 upstage.
func (w fitWords) moved() string {
	var says []string
	if w.Turn != 0 {
		way := "anticlockwise"
		if w.Turn < 0 {
			way = "clockwise"
		}
		says = append(says, "turned "+unit.FormatAngle(math.Abs(w.Turn), 0.001)+" "+way+" about 0,0")
	}
	names := w.set.SideNames()
	var shift []string
	for _, x := range [2]struct {
		by          float64
		plus, minus string
	}{{w.Shift.X, names.PlusWord, names.MinusWord}, {w.Shift.Y, "upstage", "downstage"}} {
		if unit.Round(x.by, 0.1) == 0 {
			continue
		}
		word := x.plus
		if x.by < 0 {
			word = x.minus
		}
		shift = append(shift, w.length(math.Abs(x.by))+" "+strings.ToLower(word))
	}
	if len(shift) > 0 {
		says = append(says, "moved "+strings.Join(shift, " and "))
	}
	return strings.Join(says, ", and then ")
}

// outside lists what is outside, or says how near a wall or a pillar the set comes.
func (w fitWords) outside(list []setout.Outside, clear float64) string {
	if len(list) == 0 {
		return "nothing is outside, " + w.length(clear) + " clear"
	}
	var says []string
	for i, o := range list {
		if i == optionsPrinted {
			says = append(says, fmt.Sprintf("and %d more", len(list)-i))
			break
		}
		says = append(says, o.Element+" by "+w.length(o.By))
	}
	where := "outside: "
	if h, ok := w.set.Hall.Shape.(*set.Hall); ok && len(h.Pillars) > 0 {
		where = "outside or in a pillar: "
	}
	return where + strings.Join(says, ", ")
}
