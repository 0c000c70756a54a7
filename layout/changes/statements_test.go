package changes_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/changes"
)

const quay = `set "Quay"
    production "Low Tide"
    issue A 2026-11-20
    scale 1:25
    card wall 1.5 detail 0.3
    drawn "A. Rowe"
board "ply 18" 2440 x 1220 thick 18 kerf 3 grain along count 6
length "batten 44" 44 x 69 long 4800 kerf 3
part rail of "batten 44" length 900 count 4
stock box 600 x 400 x 150 count 40
hall barn
    outline rect 9000 x 8000
    station A -4000, 400
    station B 4000, 400
    pillar 3000, 5000 circle 400
    ceiling 4200
room hold
    outline rect 4200 x 3600
    at 0, 1800
    overhead 4900 turned lengthways
    stand 600
    station P -2000, 200
    panel fore outline rect 4200 x 1800 at 0, 900
platform deck
    outline rect 2400 x 1200
    at 0, 4000
    height 450
    of "ply 18"
    model wall
platform kerb
    outline rect 2400 x 300
    at 0, 2000
    height 150
dressing chest
    in hold
    at 1000, 1000
    size 600 x 400
    height 500
mark cross
    point 500, 500
mark edge
    path 0,0 line 3000,0
walk way
    over kerb, deck
    tall 1880
keep deck to kerb at least 1000
dim deck.front to kerb.back
`

func TestStatementsInWords(t *testing.T) {
	for _, c := range []struct {
		name    string
		replace []string
		want    []string
	}{
		{"the production", []string{"Low Tide", "High Tide", "A. Rowe", "M. Quist"}, []string{"set: production Low Tide → High Tide, drawn by A. Rowe → M. Quist"}},
		{"the letter is no change", []string{"issue A 2026-11-20", "issue B 2026-11-24"}, nil},
		{"the sides", []string{"    scale", "    sides house\n    scale"}, []string{"set: sides stage → house"}},
		{"the scale", []string{"1:25", "1:50"}, []string{"set: scale 1:25 → 1:50"}},
		{"a card", []string{"wall 1.5", "wall 1.6"}, []string{"card wall: thickness 1.5 → 1.6"}},
		{"a card called otherwise", []string{"wall 1.5", "shell 1.5", "model wall", "model shell"}, []string{"card shell: renamed from card wall"}},
		{"a board", []string{"thick 18", "thick 17.6", "count 6", "count 8"}, []string{"board ply 18: thick 18 → 17.6, count 6 → 8"}},
		{"a board called otherwise", []string{`"ply 18"`, `"birch 18"`}, []string{"board birch 18: renamed from board ply 18"}},
		{"a length", []string{"long 4800", "long 4200"}, []string{"length batten 44: long 4800 → 4200"}},
		{"a part", []string{"length 900", "length 950", "count 4", "count 5"}, []string{"part rail: length 900 → 950, count 4 → 5"}},
		{"stock", []string{"count 40", "count 30"}, []string{"stock box 600 x 400 x 150: count 40 → 30"}},
		{"stock of another size", []string{"400 x 150", "400 x 160"}, []string{"stock box 600 x 400 x 160: added: 40", "stock box 600 x 400 x 150: removed: 40"}},
		{"a distance to keep", []string{"least 1000", "least 1200"}, []string{"keep deck to kerb: at least 1000 → 1200"}},
		{"a distance to see", []string{"dim deck.front to kerb.back\n", ""}, []string{"dim deck.front to kerb.back: removed"}},
		{"a hall", []string{"-4000, 400", "-4100, 400", "3000, 5000 circle", "3000, 5200 circle", "4200\nroom", "4000\nroom"},
			[]string{"barn: ceiling 4200 → 4000, station A moves 100 stage right, pillar at 3000 L 5000 U moves 200 upstage"}},
		{"a room that hangs lower", []string{"4900", "4800"}, []string{"hold: overhead floor 4900 → 4800; held: where it stands", "chest: overhead lowered 100"}},
		{"a room turned otherwise", []string{"lengthways", "crossways"}, []string{
			"hold: turned lengthways → turned crossways", "chest: overhead moves 2000 stage left and 1600 upstage, turned 180°"}},
		{"a panel", []string{"fore", "front"}, []string{"hold: panel fore → front"}},
		{"a piece in a room", []string{"at 1000, 1000", "at 1100, 1000"}, []string{"chest: moves 100 stage left as dressed upright"}},
		{"a mark", []string{"500, 500", "500, 450"}, []string{"cross: moves 50 downstage"}},
		{"a line", []string{"line 3000,0", "line 3500,0"}, []string{"edge: line redrawn, length 3000 → 3500; held: where it stands"}},
		{"a line moved", []string{"0,0 line 3000,0", "100,0 line 3100,0"}, []string{"edge: moves 100 stage left"}},
		{"a walk", []string{"over kerb, deck", "over deck, kerb"}, []string{"way: over kerb, deck → deck, kerb"}},
		{"a name that others use", []string{"kerb", "sill"}, []string{"sill: renamed from kerb"}},
		{"another order", []string{"mark cross\n    point 500, 500\n", "", "hall barn", "mark cross\n    point 500, 500\nhall barn"}, nil},
		{"what is new and what is gone", []string{"mark cross\n    point 500, 500\n", "post mast\n    at 0, 6000\n    diameter 90\n    height 3000\n"},
			[]string{"mast: added: post, circle 90, height 3000", "cross: removed: mark"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			text := quay
			for i := 0; i < len(c.replace); i += 2 {
				require.Contains(t, text, c.replace[i])
				n := 1
				if c.replace[i] == "kerb" || strings.HasPrefix(c.replace[i], `"ply`) {
					n = -1
				}
				text = strings.Replace(text, c.replace[i], c.replace[i+1], n)
			}
			got := said(changes.Elements(open(t, quay), open(t, text)))
			if c.want == nil {
				require.Empty(t, got)
				return
			}
			require.Equal(t, c.want, got)
		})
	}
}

// Figures and cloths are known by the bytes of their pictures.
func TestPicturesInWords(t *testing.T) {
	const text = "set \"Quay\"\nfigure pilot\n    artwork \"pilot.svg\"\n    height 1780\n"
	at := func(text, pilot string) []string {
		files := texts{"a.markout": "set \"Quay\"\nfigure pilot\n    artwork \"pilot.svg\"\n    height 1780\n", "b.markout": text, "pilot.svg": square, "heron.svg": leaning, "same.svg": square}
		a := openAmong(t, files, "a.markout")
		files["pilot.svg"] = pilot
		return said(changes.Elements(a, openAmong(t, files, "b.markout")))
	}
	require.Empty(t, at(text, square))
	require.Empty(t, at(strings.Replace(text, "pilot.svg", "same.svg", 1), square))
	require.Equal(t, []string{"pilot: another picture in pilot.svg; held: where it stands"}, at(text, leaning))
	require.Equal(t, []string{"pilot: another picture: pilot.svg → heron.svg; held: where it stands"}, at(strings.Replace(text, "pilot.svg", "heron.svg", 1), square))
}
