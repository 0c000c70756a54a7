package changes

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"markout/layout/geom"
	"markout/layout/set"
	"markout/layout/unit"
)

// places says where an element goes: its copies that are new or left out, and how each moves in each of its positions.
func (c *comparison) places() []string {
	out := c.copies()
	was := map[int]*set.Copy{}
	for i := range c.old.Copies {
		was[c.old.Copies[i].Number] = &c.old.Copies[i]
	}
	var goes []goer
	there := 0
	for i := range c.new.Copies {
		b := &c.new.Copies[i]
		a := was[b.Number]
		if a == nil {
			continue
		}
		there++
		if words, far := c.copyGoes(a, b); words != "" {
			goes = append(goes, goer{b.Number, words, far})
		}
	}
	return append(out, c.together(goes, there)...)
}

// goer is a copy that moves.
type goer struct {
	number int
	words  string
	far    float64 // that it moves at its first place
}

// mostWays is how many ways of moving are each said in full.
const mostWays = 3

// together says of copies that move alike that they do, and of many that each move otherwise how far.
func (c *comparison) together(goes []goer, there int) []string {
	var ways []string
	by := map[string][]int{}
	for _, g := range goes {
		if by[g.words] == nil {
			ways = append(ways, g.words)
		}
		by[g.words] = append(by[g.words], g.number)
	}
	switch {
	case len(goes) == 0:
		return nil
	case len(ways) == 1 && len(goes) == there:
		switch {
		case there > 1:
			return []string{doWords("all "+strconv.Itoa(there), true, ways[0])}
		case c.new.Repeated() || c.old.Repeated():
			return []string{doWords("copy "+strconv.Itoa(goes[0].number), false, ways[0])}
		}
		return ways
	case len(ways) <= mostWays:
		var out []string
		for _, w := range ways {
			out = append(out, doWords(countedWords("copy", "copies", by[w]), len(by[w]) > 1, w))
		}
		return out
	}
	farthest, nearest := goes[0], goes[0]
	var numbers []int
	for _, g := range goes {
		numbers = append(numbers, g.number)
		if g.far > farthest.far+geom.Tolerance {
			farthest = g
		}
		if g.far < nearest.far {
			nearest = g
		}
	}
	who := countedWords("copy", "copies", numbers)
	if len(goes) == there {
		who = "all " + strconv.Itoa(there)
	}
	far := unit.FormatMeasure(farthest.far, c.set.Units, 0.5)
	if same(farthest.far, nearest.far) {
		return []string{who + " move, each by " + far}
	}
	return []string{who + " move, by up to " + far + " (copy " + strconv.Itoa(farthest.number) + ")"}
}

// doWords says of some copies what they do: copies 3 and 4 move 200 upstage.
func doWords(who string, several bool, words string) string {
	if way, ok := strings.CutPrefix(words, "moves "); ok && several {
		return who + " move " + way
	}
	for _, verb := range [...]string{"moves ", "raised ", "lowered ", "turned "} {
		if strings.HasPrefix(words, verb) {
			return who + " " + words
		}
	}
	return who + ": " + words
}

// copies says which copies are new and which are left out.
func (c *comparison) copies() []string {
	was, is := numbersOf(c.old), numbersOf(c.new)
	var out, in []int
	for _, n := range was {
		if _, ok := slices.BinarySearch(is, n); !ok {
			out = append(out, n)
		}
	}
	for _, n := range is {
		if _, ok := slices.BinarySearch(was, n); !ok {
			in = append(in, n)
		}
	}
	var says []string
	if len(was) != len(is) {
		noun := " copies"
		if len(is) == 1 {
			noun = " copy"
		}
		says = append(says, strconv.Itoa(len(was))+" → "+strconv.Itoa(len(is))+noun)
	}
	// Those at the end of the count need no words beside it.
	if rest := upTo(out, last(is)); len(rest) > 0 {
		says = append(says, countedWords("copy", "copies", rest)+" left out")
	} else if len(out) > 0 && len(was) == len(is) {
		says = append(says, countedWords("copy", "copies", out)+" taken away")
	}
	if rest := upTo(in, last(was)); len(rest) > 0 {
		says = append(says, countedWords("copy", "copies", rest)+" put back")
	} else if len(in) > 0 && len(was) == len(is) {
		says = append(says, countedWords("copy", "copies", in)+" added")
	}
	if len(says) == 0 && c.old.Repeated() != c.new.Repeated() {
		if c.new.Repeated() {
			return []string{"now carries a copy's number"}
		}
		return []string{"no longer carries a copy's number"}
	}
	if len(says) == 0 {
		return nil
	}
	return []string{strings.Join(says, ", ")}
}

func numbersOf(e *set.Element) []int {
	var out []int
	for _, c := range e.Copies {
		out = append(out, c.Number)
	}
	slices.Sort(out)
	return out
}

func last(list []int) int {
	if len(list) == 0 {
		return 0
	}
	return list[len(list)-1]
}

// upTo returns what of a list in order is at most n.
func upTo(list []int, n int) []int {
	i, _ := slices.BinarySearch(list, n+1)
	return list[:i]
}

// copyGoes says how one copy moves in each of its positions, and how far in its first.
func (c *comparison) copyGoes(a, b *set.Copy) (words string, far float64) {
	far = c.placeWay(&a.Places[0], &b.Places[0]).far()
	first := c.placeGoes(&a.Places[0], &b.Places[0])
	var says, alike []string
	if first != "" {
		says = append(says, first)
	}
	found := make([]bool, len(a.Places))
	for i := 1; i < len(b.Places); i++ {
		q := &b.Places[i]
		j := position(a.Places, found, q.Position)
		if j < 0 {
			says = append(says, "also at "+q.Position)
			continue
		}
		found[j] = true
		switch goes := c.placeGoes(&a.Places[j], q); {
		case goes == "":
		case goes == first:
			alike = append(alike, q.Position)
		default:
			says = append(says, q.Position+" "+goes)
		}
	}
	if len(alike) > 0 {
		says[0] += ", and so at " + listWords(alike)
	}
	for j := 1; j < len(a.Places); j++ {
		if !found[j] {
			says = append(says, "no longer at "+a.Places[j].Position)
		}
	}
	return strings.Join(says, ", "), far
}

// position finds a position by its name among those not found before, -1 where there is none.
func position(list []set.Place, found []bool, name string) int {
	for j := 1; j < len(list); j++ {
		if !found[j] && list[j].Position == name {
			return j
		}
	}
	return -1
}

// placeGoes says how a piece gets from one place to another.
func (c *comparison) placeGoes(a, b *set.Place) string {
	var says []string
	switch {
	case a.Over == nil && b.Over != nil:
		return "now hangs overhead"
	case a.Over != nil && b.Over == nil:
		return "no longer hangs overhead"
	}
	way := c.placeWay(a, b)
	if a.Over == nil {
		return c.ends(a, b, way)
	}
	if words := c.ends(a, b, way); words != "" {
		says = append(says, words+" as dressed upright")
	}
	if sameFrame(a.Over.Turn, b.Over.Turn) {
		return strings.Join(says, "")
	}
	// The room turned or hangs elsewhere: what is said is where the piece comes to hang.
	over := way
	was, is := c.setOut()
	over.by = difference(a.Frame, b.Frame, was, is)
	over.turn = turnBetween(a.Frame, b.Frame, 1)
	if words := over.words(c.wording, ""); words != "" {
		says = append(says, "overhead "+words)
	} else if len(says) == 0 {
		says = append(says, "hangs otherwise")
	}
	return strings.Join(says, ", ")
}

// placeWay is the way between two places the right way up.
func (c *comparison) placeWay(a, b *set.Place) passage {
	f, g := a.Upright(), b.Upright()
	was, is := c.setOut()
	p := passage{by: difference(f, g, was, is), turn: turnBetween(f, g, symmetry(c.old.Shape, c.new.Shape))}
	turned := geom.Upright(geom.Point{}, 0, g.TurnDeg()-f.TurnDeg())
	for i := range f.R {
		for j := range f.R[i] {
			x := 0.0
			for k := range f.R {
				x += turned.R[i][k] * f.R[k][j]
			}
			if math.Abs(x-g.R[i][j]) > 1e-9 {
				p.tilt = true
			}
		}
	}
	return p
}
