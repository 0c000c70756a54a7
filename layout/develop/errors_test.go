package develop_test

import (
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/develop"
)

// What cannot be made is an error at the element's name, or at the opening, with what would fit.
func TestCannotBeMade(t *testing.T) {
	wall := "flat w\n    from 0, 0 to 2400, 0\n    height 2400\n"
	flight := func(rest string) string { return "steps s\n    starts 0, 0 heading 90deg\n    " + rest + "\n" }
	for text, want := range map[string][2]string{
		"platform deck\n    outline rect 900 x 900\n    height 30\n":                                    {"m:1:10: error: `deck` cannot be made of card 1.5 at 1:25: it is only 1.20 high there\n", "card up to 1.2 would do; this card would do at 1:20"},
		"platform bar\n    outline rect 900 x 60\n    height 300\n":                                     {"m:1:10: error: `bar` cannot be made of card 1.5 at 1:25: ", "card up to 1.1 would do; this card would do at 1:12"},
		"ramp up\n    starts 0, 0 heading 90deg\n    length 3600\n    rise 30\n    width 900\n":         {"m:1:6: error: `up` cannot be made of card 1.5 at 1:25: it rises only 1.20", "card up to "},
		"ramp up\n    starts 0, 0 heading 90deg\n    length 900\n    rise 300\n    width 60\n":          {"m:1:6: error: `up` cannot be made of card 1.5 at 1:25: it is only 2.40 wide", "card up to 1.1 would do"},
		"ring r\n    outer 900\n    inner 850\n    height 300\n":                                        {"m:1:6: error: `r` cannot be made of card 1.5 at 1:25: its walls would run into each other", "card up to 0.4 would do"},
		"post p\n    diameter 60\n    height 900\n    model tube\n":                                     {"m:1:6: error: `p` cannot be made of card 1.5 at 1:25: its walls would run into each other", "card up to "},
		wall + "    opening hole at 0 size 2400 x 2400\n":                                               {"m:4:5: error: `w` cannot be made: its openings leave no card", ""},
		wall + "    opening hole at 900 size 300 x 2400\n":                                              {"m:4:5: error: `w` cannot be made: its openings cut it into separate pieces", "leave card over or under them, or make flats of its parts"},
		flight("rises 20 150 150\n    going 300\n    width 900"):                                        {"m:1:7: error: `s` cannot be made of card 1.5 at 1:25: ", "card up to 0.7 would do; this card would do at 1:12"},
		flight("rises 20 150 150\n    going 300\n    width 900\n    built blocks"):                      {"block 1: it is only 0.80 high there", "card up to 0.8 would do"},
		flight("risers 3\n    rise 150\n    going 300\n    width 70"):                                   {"it is only 2.80 wide", "card up to 1.3 would do"},
		flight("risers 3\n    rise 150\n    going 30\n    width 900"):                                   {"m:1:7: error: `s` cannot be made of card 1.5 at 1:25: ", "card up to "},
		"flat bay\n    along path 0,0 arc to 60,60 radius 60 left\n    height 2400\n    thickness 50\n": {"", ""},
		"flat bay\n    along path 0,0 line 1200,0 1200,30 0,30\n    height 2400\n":                      {"m:1:6: error: `bay` cannot be made of card 1.5 at 1:25: ", "card up to "},
	} {
		s := open(t, text)
		m, list := develop.Develop(s, develop.Options{Scale: 25, Card: 1.5})
		if want[0] == "" {
			require.Empty(t, printed(list), text)
			continue
		}
		require.Contains(t, printed(list), want[0], text)
		require.Empty(t, m.Pieces)
		require.Len(t, m.Base, 1, "its place is shown all the same")
		require.True(t, m.Base[0].NotModelled)
		if want[1] == "" {
			require.NotContains(t, printed(list), "hint")
			continue
		}
		require.Contains(t, printed(list), "hint: "+want[1], text)
		if thick, ok := strings.CutPrefix(want[1], "card up to "); ok && thick != "" {
			requireHintHolds(t, text, printed(list))
		}
	}
}

// requireHintHolds makes the text of the card that the hint speaks of.
func requireHintHolds(t *testing.T, text, list string) {
	t.Helper()
	_, hint, _ := strings.Cut(list, "card up to ")
	words, _, _ := strings.Cut(hint, " ")
	card := 0.0
	for i, digit := range strings.ReplaceAll(words, ".", "") {
		card += float64(digit-'0') * math.Pow10(-i)
	}
	_, again := develop.Develop(open(t, text), develop.Options{Scale: 25, Card: card})
	require.Empty(t, printed(again), "%s of %v", text, card)
}

// What is wrong in the text itself never comes as far as card: it is an error at its line, with what would fit.
func TestWrongBeforeCard(t *testing.T) {
	wall := "flat w\n    from 0, 0 to 2400, 0\n    height 2400\n"
	for text, want := range map[string]string{
		"platform d\n    outline points 0,0 900,900 900,0 0,900\n    height 450\n":                        "m:2:13: error: the outline crosses or touches itself",
		wall + "    opening hole at 0 size 0 x 900\n        sill 300\n":                                   "m:4:28: error: `size` is more than 0",
		wall + "    opening hole at 300 size 900 x 900\n    opening hole at 600 size 900 x 900\n":         "m:5:5: error: this opening overlaps the hole in line 4",
		wall + "    opening hole at 1800 size 900 x 900\n":                                                "hint: `at 1500` fits, or a width of 600",
		wall + "    opening hole at 0 size 900 x 900\n        sill 1800\n":                                "hint: `sill 1500` fits, or a height of 600",
		"flat b\n    along path 0,0 arc to 2000,0 radius 1000 left\n    height 900\n    thickness 1000\n": "m:2:16: error: ",
		"flat b\n    along path 0,0 line 900,0 900,900 400,-400\n    height 900\n":                        "m:2:16: error: the line crosses or touches itself",
		"shape s\n    outline rect 900 x 900\n    hole circle 300 at 400, 0\n":                            "m:3:5: error: this hole does not lie inside the outline",
		"ring r\n    outer 900\n    inner 950\n    height 300\n":                                          "the inner edge does not lie inside the outer one",
	} {
		_, list := layout.Open(texts{"m": text}, "m", layout.Options{})
		require.Contains(t, printed(list), want, text)
	}
}

func TestNothingToMakeItOf(t *testing.T) {
	s := open(t, "platform deck\n    outline rect 900 x 900\n    height 300\n")
	_, list := develop.Develop(s, develop.Options{Card: 1})
	require.Contains(t, printed(list), "the set has no scale")
	_, list = develop.Develop(s, develop.Options{Scale: 25})
	require.Contains(t, printed(list), "the set names no card")
	for _, bad := range []float64{-1, math.NaN(), math.Inf(1)} {
		_, list = develop.Develop(s, develop.Options{Scale: 25, Card: bad})
		require.True(t, list.HasErrors())
		_, list = develop.Develop(s, develop.Options{Scale: bad, Card: 1})
		require.True(t, list.HasErrors())
	}
}
