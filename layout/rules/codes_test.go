package rules

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/caution"
	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/set"
)

// everything is a set that gives every caution there is.
func everything(t testing.TB) *set.Set {
	bad := flight([]float64{240, 230, 160, 160, 160, 160, 160, 160, 160, 160, 160, 160, 160, 160, 160}, slices.Repeat([]float64{225}, 14), 800)
	bad.Goings[1], bad.Goings[13] = 240, 500
	bad.Landings = []int{14}
	bad.Nosing, bad.FootOn, bad.FootGap = 40, "", 30
	s := of(
		element("hall", &set.Hall{Outline: rect(9000, 9000), Ceiling: 1000}, place(0, 0, 0, 0)),
		element("bad", bad, place(0, 0, 0, 0)),
		element("ramp", &set.Ramp{Length: 5000, Rise: 1000, Width: 700}, place(5000, 0, 0, 0)),
		element("deck", deckOf(2000, 1000, 1500), place(-5000, 0, 0, 0)),
		element("beam", deckOf(2000, 200, 100), place(0, 1000, 2000, 0)),
		element("clear", &set.Reserve{Outline: circle(3000)}, place(-5000, 0, 0, 0)),
		element("pole", &set.Post{Outline: circle(60), Diameter: 60, Height: 2000}, place(-6200, 0, 0, 0)),
		element("winding", winding(4, 150, 60, 700), place(0, -9000, 0, 0)),
		element("heron", &set.Figure{Bodies: []geom.Region{{Outer: rectAt(0, 900, 20, 1000)}}, Width: 20, Height: 1000, Ground: 400, Others: 2}, place(0, -20000, 0, 0)),
		element("pilot", &set.Figure{Bodies: []geom.Region{{Outer: rectAt(0, 890, 500, 1780)}}, Width: 500, Height: 1780, Hung: true}, place(0, -20000, 5000, 0)),
	)
	s.Keeps = []set.Keep{{A: "pole", B: "deck", AtLeast: 600}}
	s.Boards = []set.Board{{Name: "ply 18", Length: 2440, Width: 1220, Thick: 17.6, Density: 730}}
	deck := s.Find("deck")
	deck.Material, deck.Shape.(*set.Platform).Deck = "ply 18", 18
	return s
}

func TestEveryCodeIsExplainedAndGiven(t *testing.T) {
	given := map[string]bool{}
	for _, s := range append(cloths(t), everything(t), inFeet(everything(t)), crates(), kiosk(t), readOtherwise(), overheads()) {
		for _, c := range append(Check(s), Cutting(s)...) {
			given[c.Code] = true
			code, ok := Find(c.Code)
			require.True(t, ok, c.Code)
			require.Equal(t, c.Code, code.Code)
			require.NotEmpty(t, c.Element)
			require.NotEmpty(t, c.Figure, c.Code)
			require.NotEmpty(t, c.Limit, c.Code)
			require.NotEmpty(t, c.Source, c.Code)
			require.NotContains(t, c.Message, "%!", c.Code)
		}
	}
	for _, c := range Codes() {
		require.True(t, given[c.Code], "%s is never given", c.Code)
		found, ok := Find(strings.ToLower(c.Code))
		require.True(t, ok)
		require.Equal(t, c, found)
	}
	require.True(t, slices.IsSortedFunc(Codes(), func(a, b Code) int { return strings.Compare(a.Code, b.Code) }))
}

// The program warns, it never certifies: no text says the word, and every explanation ends with who decides.
func TestTextsNeverCertify(t *testing.T) {
	word := strings.Join([]string{"sa", "fe"}, "")
	var texts []string
	for _, c := range Codes() {
		text := c.Text()
		require.Equal(t, caution.Defer, text[len(text)-1], c.Code)
		texts = append(texts, text...)
	}
	for _, s := range []*set.Set{everything(t), inFeet(everything(t)), overheads()} {
		for _, c := range append(Check(s), Cutting(s)...) {
			texts = append(texts, c.Message, c.Limit, c.Source)
		}
	}
	for _, text := range texts {
		require.NotContains(t, strings.ToLower(text), word)
		require.NotContains(t, text, "http")
	}
}

func TestOrderAndPlace(t *testing.T) {
	s := everything(t)
	for i, e := range s.Elements {
		e.NameSpan = diag.Span{File: 1, From: int32(100 * i), To: int32(100*i + 4)}
		e.Spans = map[string]diag.Span{"goings": {File: 1, From: int32(100*i + 10), To: int32(100*i + 20)}}
	}
	list := Check(s)
	order := map[string]int{}
	for i, e := range s.Elements {
		order[e.Name] = i
	}
	order[s.Boards[0].Name] = len(s.Elements) // materials come after the elements
	for i, c := range list {
		if c.Code == "STEP-GOING" {
			require.Equal(t, int32(100*order[c.Element]+10), c.Span.From, "at the attribute it speaks of")
		}
		if c.Code == "TALL" {
			require.Zero(t, c.Span.From%100, "at the name where there is none")
		}
		if i > 0 {
			a, b := list[i-1], c
			require.LessOrEqual(t, order[a.Element], order[b.Element])
			if a.Element == b.Element {
				require.LessOrEqual(t, a.Code, b.Code)
			}
		}
	}
	require.Equal(t, list, Check(s), "the same again")
}

// A set of nothing, and shapes that enclose nothing, say nothing and stop nothing.
func TestEmptyShapes(t *testing.T) {
	require.Empty(t, Check(&set.Set{}))
	empty := set.Outline{Form: "points", Path: &geom.Path{}}
	require.Empty(t, Check(of(
		element("a", &set.Platform{Outline: empty}, place(0, 0, 0, 0)),
		element("b", &set.Post{Outline: empty, Height: 10}, place(0, 0, 0, 0)),
		element("c", &set.Ramp{}, place(0, 0, 0, 0)),
		element("d", &set.Steps{FootOn: "floor"}, place(0, 0, 0, 0)),
		element("e", &set.Flat{}, place(0, 0, 0, 0)),
		element("f", &set.Mark{}, place(0, 0, 0, 0)),
		element("g", &set.Reserve{Outline: empty}, place(0, 0, 0, 0)),
		element("h", &set.Figure{Bodies: []geom.Region{{Outer: &geom.Path{}}}}, place(0, 0, 0, 0)),
	)))
}
