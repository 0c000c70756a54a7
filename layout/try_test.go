package layout_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/unit"
)

// tried says what a text tries: of each value its change, and its figure where it is known.
func tried(t *testing.T, file string, texts ...string) (string, string) {
	t.Helper()
	trials, list := layout.ReadTrials(texts0(file), "m", layout.Options{}, texts)
	var out []string
	for _, tr := range trials {
		for _, v := range tr.Values {
			s := v.Change
			if v.Number {
				s += " → " + unit.FormatNumber(v.X, 0)
			}
			out = append(out, s)
		}
	}
	return strings.Join(out, "; "), printed(list)
}

func texts0(file string) texts { return texts{"m": file} }

func TestReadTrials(t *testing.T) {
	inInches := strings.Replace(stepped, "150mm", `6"`, 1)
	inInches = strings.Replace(inInches, "2026-11-20\n", "2026-11-20\n    units in\n", 1)
	for _, c := range []struct{ file, text, want string }{
		{stepped, "front.risers=2..4", "front.risers=2 → 2; front.risers=3 → 3; front.risers=4 → 4"},
		{stepped, "front.risers = 2 .. 6 by 2", "front.risers=2 → 2; front.risers=4 → 4; front.risers=6 → 6"},
		{stepped, "front.rise=150..180 by 15", "front.rise=150mm → 150; front.rise=165mm → 165; front.rise=180mm → 180"},
		{stepped, "front.rise=150..180 by 20", "front.rise=150mm → 150; front.rise=170mm → 170"},
		{stepped, "front.rise=15cm..0.16m by 1/4\"", "front.rise=150mm → 150; front.rise=156.35mm → 156.35"},
		{stepped, "front.rise=135", "front.rise=135 → 135"},
		{stepped, "front.rise=rise - 15, rise", "front.rise=rise - 15 → 135; front.rise=rise → 150"},
		{stepped, "front.rise=rise..rise+20 by 10", "front.rise=150mm → 150; front.rise=160mm → 160; front.rise=170mm → 170"},
		{stepped, "front.rise=deck.height/4", "front.rise=deck.height/4"},
		{stepped, "rise=140..160mm by 10", "rise=140mm → 140; rise=150mm → 150; rise=160mm → 160"},
		{stepped, "rise=135mm, 1..2", "rise=135mm → 135; rise=1 → 1; rise=2 → 2"},
		{stepped, "rise=rise - 15, 2*rise", "rise=135mm → 135; rise=300mm → 300"},
		{stepped, "deck.closed=", "deck.closed="},
		{stepped, "deck.turn=-10deg..10deg by 10deg", "deck.turn=-10deg → -10; deck.turn=0deg → 0; deck.turn=10deg → 10"},
		{stepped, "deck.height=0.1..0.3 by 0.1", "deck.height=0.1mm → 0.1; deck.height=0.2mm → 0.2; deck.height=0.3mm → 0.3"},
		{stepped, "front.built=flight,blocks", "front.built=flight; front.built=blocks"},
		{stepped, "deck.at=(0, 3600), (300, 3600)", "deck.at=0, 3600; deck.at=300, 3600"},
		{stepped, "deck.outline=rect 3600 x 2400, rect 3000 x 2400", "deck.outline=rect 3600 x 2400; deck.outline=rect 3000 x 2400"},
		{stepped, "front.rises=140 165 150, 150 150 150", "front.rises=140 165 150; front.rises=150 150 150"},
		{stepped, "deck.note=\"a, b\", \"c..d\"", "deck.note=\"a, b\"; deck.note=\"c..d\""},
		{inInches, `front.rise=6"..7" by 1/4"`, "front.rise=152.4mm → 152.4; front.rise=158.75mm → 158.75; front.rise=165.1mm → 165.1; front.rise=171.45mm → 171.45; front.rise=177.8mm → 177.8"},
		{inInches, "front.rise=6..7 by 0.5", "front.rise=152.4mm → 152.4; front.rise=165.1mm → 165.1; front.rise=177.8mm → 177.8"},
		{inInches, `rise=6 1/2", 7"`, `rise=6 1/2" → 165.1; rise=7" → 177.8`},
		{cutFrom, "ply 18.thick=17..18 by 0.5", "ply 18.thick=17mm → 17; ply 18.thick=17.5mm → 17.5; ply 18.thick=18mm → 18"},
		{cutFrom, "rail.count=2..3", "rail.count=2 → 2; rail.count=3 → 3"},
		{cutFrom, "ply 18.grain=along,across", "ply 18.grain=along; ply 18.grain=across"},
	} {
		got, wrong := tried(t, c.file, c.text)
		require.Empty(t, wrong, c.text)
		require.Equal(t, c.want, got, c.text)
	}
	// Texts that are changes of a run are opened as such.
	trials, _ := layout.ReadTrials(texts0(stepped), "m", layout.Options{}, []string{"deck.at=(0, 3600)"})
	s := open(t, stepped, trials[0].Values[0].Change)
	require.Equal(t, 3600.0, s.Find("deck").Copies[0].Places[0].Frame.T.Y)
	require.Equal(t, "deck", trials[0].Element)
}

func TestReadTrialsErrors(t *testing.T) {
	for text, want := range map[string]string{
		"front.risers":                  "--try:1:1: error: a trial is written NAME.attribute=values or LET=values",
		"":                              "--try:1:1: error: a trial is written",
		"front.risers=":                 "--try:1:7: error: a value is missing after `risers`",
		"front.risers=2,,3":             "--try:1:15: error: a value is missing after this",
		"frnt.risers=2..4":              "--try:1:1: error: there is no `frnt`",
		"front.riser=2..4":              "--try:1:7: error: `steps` takes no `riser`",
		"front=2..4":                    "--try:1:1: error: `front` is a piece, and one attribute of it is wanted",
		"front.risers=6..2":             "--try:1:14: error: a range goes from the lesser to the greater",
		"front.risers=2..6 by 0":        "--try:1:22: error: a step is more than 0",
		"front.risers=2..6 by -1":       "--try:1:22: error: a step is more than 0",
		"front.risers=2..6 by":          "--try:1:15: error: a range is written",
		"front.risers=2..":              "--try:1:15: error: a range is written",
		"front.risers=..4":              "--try:1:13: error: a value is missing after this",
		"front.risers=1..1001":          "--try:1:14: error: this makes 1001 options, and at most 1000 are tried in one run",
		"front.risers=1..500,1..501":    "--try:1:21: error: this makes 1001 options",
		"front.rise=1..2 by 1/1000000":  "--try:1:12: error: this makes ",
		"front.rise=150..180":           "--try:1:12: error: a range of what is no count needs its step",
		"deck.turn=1deg..2deg":          "--try:1:11: error: a range of what is no count needs its step",
		"front.risers=2..3.5":           "--try:1:14: error: a range of what is no count needs its step",
		"front.rise=150..180deg by 10":  "--try:1:17: error: `rise` wants a length, and this is an angle",
		"front.rise=150..180 by 1deg":   "--try:1:24: error: `rise` wants a length, and this is an angle",
		"front.risers=2mm..4":           "--try:1:14: error: `risers` wants a plain number, and this is a length",
		"rise=1mm..2deg by 1":           "--try:1:11: error: `rise` wants a length, and this is an angle",
		"rise=1:12..1:8 by 1:100":       "--try:1:6: error: `rise` is a slope, and ranges are of counts, lengths, angles and weights",
		"front.rises=1..2":              "--try:1:13: error: `rises` takes more than one value, and a range is of single ones",
		"front.rise=deck.top..200 by 9": "--try:1:12: error: a range goes by figures and lets",
		"front.rise=rize..200 by 9":     "--try:1:12: error: there is no `rize`",
		"front.rise=150,":               "--try:1:15: error: a value is missing after this",
		"front.rise=150,)":              "--try:1:16: error: ",
	} {
		_, wrong := tried(t, stepped, text)
		require.Contains(t, wrong, want, text)
		require.Equal(t, 1, strings.Count(wrong, "error:"), "%s: one thing is said of one slip\n%s", text, wrong)
	}
	_, wrong := tried(t, stepped, "front.risers=1..40", "deck.height=1..40 by 1")
	require.Contains(t, wrong, "--try:1:1: error: this makes 1600 options, and at most 1000 are tried in one run")
	_, wrong = tried(t, stepped, "front.risers=1", "front.risers=2")
	require.Contains(t, wrong, "--try:1:1: error: `front.risers` is tried already")
	_, wrong = tried(t, stepped, "frnt.risers=1", "front.rise=1..2")
	require.Equal(t, 2, strings.Count(wrong, "error:"), "all errors in one run")
	require.Contains(t, wrong, "did you mean `front`?")
}

// Hints show what would be right, in the set's own units.
func TestReadTrialsHints(t *testing.T) {
	inches := strings.Replace(stepped, "2026-11-20\n", "2026-11-20\n    units in\n", 1)
	for _, c := range []struct{ file, text, want string }{
		{stepped, "front.rise=150..180", "150..180 by 10"},
		{strings.Replace(inches, "units in", "units m", 1), "front.rise=0.15..0.18", "0.15..0.18 by 0.01"},
		{inches, "front.rise=6..7", `6..7 by 1/2"`},
		{stepped, "front.risers=6..2", "write `2..6`"},
	} {
		_, list := layout.ReadTrials(texts0(c.file), "m", layout.Options{}, []string{c.text})
		require.Len(t, list.Sorted(), 1)
		require.Contains(t, list.Sorted()[0].Hint, c.want)
	}
}

// Whatever a text is, it is read or it is wrong at a place within it; what it tries can be opened.
func FuzzReadTrials(f *testing.F) {
	for _, s := range []string{"front.risers=2..6", `front.rise=6"..7" by 1/4"`, "rise=(1,2),3", "deck.note=\"a\\\",b\",c", "deck.at=(0,1)", "rise=1..2 by", "=..", "deck.=1", "rise=\x00..\n"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		trials, list := layout.ReadTrials(texts0(stepped), "m", layout.Options{}, []string{s})
		require.Equal(t, len(trials) == 0, list.HasErrors() && len(trials) == 0, "%q", s)
		for _, d := range list.Sorted() {
			require.True(t, d.Span.From >= 0 && int(d.Span.To) <= len(s) && d.Span.From <= d.Span.To, fmt.Sprint(d))
		}
		for _, tr := range trials {
			require.LessOrEqual(t, len(tr.Values), layout.MostOptions)
			for _, v := range tr.Values[:min(len(tr.Values), 3)] {
				layout.Open(texts0(stepped), "m", layout.Options{With: []string{v.Change}})
			}
		}
	})
}
