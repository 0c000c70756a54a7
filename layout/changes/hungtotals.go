package changes

import (
	"math"
	"strconv"

	"markout/layout/geom"
	"markout/layout/overhead"
	"markout/layout/set"
	"markout/layout/unit"
)

// TotalChange is a weight of a panel, or of all that hangs in a room, that is another now.
type TotalChange struct {
	Room  string
	Panel string // empty for all
	Words string // all: 192.5 kg → 201 kg
}

// Totals returns the totals that changed, room by room in the new set's order and panel by panel, all last; then those of rooms that
// hang no more.
func Totals(old, new *set.Set) []TotalChange {
	return TotalsIn(overhead.Rooms(old), overhead.Rooms(new), new)
}

// TotalsIn is Totals of rooms that are worked out already, the new ones of s.
func TotalsIn(old, new []*overhead.Room, s *set.Set) []TotalChange {
	var out []TotalChange
	now := map[string]bool{}
	for _, r := range new {
		now[r.Element.Name] = true
		was := roomOf(old, r.Element.Name)
		if was == nil {
			was = &overhead.Room{}
		}
		out = append(out, totals(r.Element.Name, was, r, s)...)
	}
	for _, r := range old {
		if !now[r.Element.Name] {
			out = append(out, totals(r.Element.Name, r, &overhead.Room{}, s)...)
		}
	}
	return out
}

func roomOf(rooms []*overhead.Room, name string) *overhead.Room {
	for _, r := range rooms {
		if r.Element.Name == name {
			return r
		}
	}
	return nil
}

func totals(name string, was, is *overhead.Room, s *set.Set) []TotalChange {
	var out []TotalChange
	compare := func(panel, called string, a, b *overhead.Total) {
		if words := totalWords(a, b, s); words != "" {
			out = append(out, TotalChange{name, panel, called + ": " + words})
		}
	}
	called := func(name string) string { return orNone(name, "in no panel") }
	none := &overhead.Total{}
	for i := range is.Panels {
		b := &is.Panels[i]
		a := panelOf(was, b.Panel)
		if a == nil {
			a = none
		}
		compare(b.Panel, called(b.Panel), a, b)
	}
	for i := range was.Panels {
		if a := &was.Panels[i]; panelOf(is, a.Panel) == nil {
			compare(a.Panel, called(a.Panel), a, none)
		}
	}
	compare("", "all", &was.All, &is.All)
	return out
}

func panelOf(r *overhead.Room, name string) *overhead.Total {
	for i := range r.Panels {
		if r.Panels[i].Panel == name {
			return &r.Panels[i]
		}
	}
	return nil
}

// totalWords says how a total changed: its weight, how far it is known, and its centre of gravity; nothing where it did not.
func totalWords(a, b *overhead.Total, s *set.Set) string {
	var says []string
	was, is := weightOf(a, s), weightOf(b, s)
	if was != is || math.Abs(a.Weight-b.Weight) > leastWeight {
		says = append(says, was+" → "+is)
	}
	if a.Weight > 0 && b.Weight > 0 && a.Centre.Dist(b.Centre) >= leastShift {
		d := b.Centre.Sub(a.Centre)
		says = append(says, "centre of gravity moves "+wayWords(s, geom.Vec{X: d.X, Y: d.Y}))
	}
	return joinWords(says...)
}

// leastShift is how far a centre of gravity moves before it is said, in millimetres: half a step of the figures.
const leastShift = 0.5

// weightOf says a total as far as it is known: at least 188.5 kg, 1 piece not weighed.
func weightOf(t *overhead.Total, s *set.Set) string {
	kg := unit.FormatWeight(t.Weight, s.Units, 0.01)
	if !t.AtLeast() {
		return kg
	}
	n := strconv.Itoa(len(t.NotKnown)) + " pieces"
	if len(t.NotKnown) == 1 {
		n = "1 piece"
	}
	return "at least " + kg + " (" + n + " not weighed)"
}
