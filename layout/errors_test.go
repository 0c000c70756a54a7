package layout_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
)

// wrong runs a text in which each place that is wrong stands between « and »; want holds the messages of those
// places in order. Each want is the message, and after a | the hint where one is wanted.
func wrong(t *testing.T, text string, want ...string) {
	t.Helper()
	clean, spans := marked(text)
	_, list := layout.Open(texts{"main.markout": clean}, "main.markout", layout.Options{})
	got := list.Sorted()
	require.Len(t, got, len(want), printed(list))
	require.Len(t, spans, len(want), "places marked")
	for i, d := range got {
		message, hint, _ := strings.Cut(want[i], "|")
		require.Contains(t, d.Message, message, printed(list))
		if hint != "" {
			require.Contains(t, d.Hint, hint, printed(list))
		}
		require.Equal(t, clean[spans[i][0]:spans[i][1]], clean[d.Span.From:d.Span.To], printed(list))
		require.Equal(t, [2]int{int(d.Span.From), int(d.Span.To)}, spans[i], printed(list))
	}
}

// marked takes the marks out of a text and returns where they stood.
func marked(text string) (clean string, spans [][2]int) {
	var b strings.Builder
	for text != "" {
		before, rest, found := strings.Cut(text, "«")
		b.WriteString(before)
		if !found {
			break
		}
		inside, after, _ := strings.Cut(rest, "»")
		spans = append(spans, [2]int{b.Len(), b.Len() + len(inside)})
		b.WriteString(inside)
		text = after
	}
	return b.String(), spans
}

// deck is a piece for others to stand by.
const deck = "platform deck\n    outline rect 3600 x 2400\n    height 450\n"

// lines makes a statement of its words and its lines.
func lines(head string, attributes ...string) string {
	return head + "\n    " + strings.Join(attributes, "\n    ") + "\n"
}

func TestValueErrors(t *testing.T) {
	let := func(s string) string { return "let v = " + s + "\n" }
	height := func(s string) string { return lines("post p", "diameter 60", "height "+s) }
	for name, c := range map[string]struct{ text, want string }{
		"angle and length":         {let("«90deg + 20mm»"), "an angle and a length cannot be added"},
		"angle and bare":           {let("«90deg + 20»"), "an angle and a plain number cannot be added|write `20deg`"},
		"weight less length":       {let("«3kg - 20mm»"), "a weight and a length cannot be subtracted"},
		"area times length":        {let("«2m * 2m * 2m»"), "an area times a length is nothing"},
		"area where length wanted": {height("«2m * 2m»"), "`height` wants a length, and this is an area|of two factors one is a plain number"},
		"angle where length":       {height("«30°»"), "`height` wants a length, and this is an angle"},
		"zero":                     {height("«0»"), "`height` is more than 0, and this is 0 mm"},
		"negative":                 {height("«100 - 300»"), "`height` is more than 0, and this is -200 mm"},
		"division by zero":         {let("3 / «(2 - 2)»"), "this divides by zero"},
		"division by zero length":  {let("3m / «(2m - 2m)»"), "this divides by zero"},
		"bare by length":           {let("«1200 / 150mm»"), "a plain number cannot be divided by a length|a count needs a unit on both: write `1200mm`"},
		"too long":                 {height("«10001m»"), "this is more than 10 km, the limit"},
		"too long by reckoning":    {height("«6000m + 6000m»"), "this is more than 10 km, the limit"},
		"too long when wanted":     {height("«20000000»"), "this is more than 10 km, the limit"},
		"unknown":                  {"let rise = 150\n" + height("«ris» * 2"), "there is no `ris`|did you mean `rise`?"},
		"unknown, none near":       {height("«quux» * 2"), "there is no `quux`"},
		"piece for value":          {deck + height("«deck»"), "`deck` is a piece, and one value is wanted here"},
		"place for value":          {deck + height("deck.«front»"), "`deck.front` is a place, and one value is wanted here"},
		"unknown measure":          {deck + height("deck.«heigth»"), "`deck` has no `heigth`|did you mean `deck.height`?"},
		"missing measure":          {deck + height("«deck.deck»"), "`deck` has no `deck` in its lines"},
		"circle of one":            {let("«v» + 1"), "these lean on one another in a circle: v → v"},
		"turn without unit":        {lines("post p", "diameter 60", "height 700", "turn «30»"), "`turn` wants an angle, and this is a plain number|write `30deg`"},
		"let asked":                {"let rise = 150\n" + height("«rise.top»"), "`rise` is a value and has nothing to ask for"},
		"count of a length":        {lines("post p", "diameter 60", "height 700", "repeat «2400mm / 600» by 600, 0"), "`repeat` wants a plain number, and this is a length|write `600mm`"},
		"count of a bare let":      {"let gap = 600\n" + lines("post p", "diameter 60", "height 700", "repeat «2400mm / gap» by 600, 0"), "`repeat` wants a plain number, and this is a length|write `let gap = 600mm`"},
		"count of halves":          {lines("post p", "diameter 60", "height 700", "repeat «5 / 2» by 600, 0"), "`repeat` is a whole number, and this is 2.5"},
		"count of none":            {lines("post p", "diameter 60", "height 700", "repeat «0» by 600, 0"), "`repeat` is at least 1, and this is 0"},
		"count too great":          {lines("post p", "diameter 60", "height 700", "repeat «10000000» by 600, 0"), "`repeat` is more than 10000, the limit"},
		"digits":                   {let("«" + strings.Repeat("9", 300) + "»"), "a number has at most 40 digits"},
		"number too great":         {let("«" + strings.Repeat(strings.Repeat("9", 40)+" * ", 7) + strings.Repeat("9", 40) + "»"), "more than `markout` reckons with"},
	} {
		t.Run(name, func(t *testing.T) { wrong(t, c.text, c.want) })
	}
}

func TestCircles(t *testing.T) {
	wrong(t, lines("platform deck", "outline rect 100 x 100", "height front.rise")+
		lines("steps front", "meets deck.front", "risers 3", "rise «deck.height»", "going 300", "width 900"),
		"these lean on one another in a circle: deck.height → front.rise → deck.height")
	wrong(t, lines("platform deck", "outline rect 100 x 100", "«height 3 * front.rise»")+
		lines("steps front", "meets deck.front", "risers 3", "going 300", "width 900"),
		"deck.height → front.rise → front.total → deck.top → deck.height")
	wrong(t, "let a = b\nlet b = c\nlet c = «a»\nlet d = a\n", "a → b → c → a")
	wrong(t, lines("platform a", "outline rect 100 x 100", "height 10", "at b.centre")+
		lines("platform b", "outline rect 100 x 100", "height 10", "at «a.centre»"), "a.at → b.at → a.at")
	wrong(t, lines("platform a", "outline rect 100 x 100", "height 10", "«on b»")+
		lines("platform b", "outline rect 100 x 100", "height 10", "on a"), "a.on → b.on → a.on")
	_, list := layout.Open(texts{"m": "let a = a\nlet b = a\n" + lines("post p", "diameter a", "height b")}, "m", layout.Options{})
	require.Len(t, list.Sorted(), 1, "reported once")
}
