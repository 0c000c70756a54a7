package changes_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/changes"
)

// Each is one statement, and what of its text is replaced by what.
func TestElementWords(t *testing.T) {
	const head = "set \"Yard\"\n"
	deck := "platform deck\n    outline rect 2440 x 1220\n    at 0, 2000\n    height 450\n"
	flat := "flat wall\n    from -2400, 3000 to 2400, 3000\n    height 2400\n    opening door at 600 size 800 x 2000\n        hinge left opens up\n    opening window at 2000 size 900 x 1000\n        sill 900\n    opening window at 3200 size 900 x 1000\n        sill 900\n"
	posts := "post bollard\n    repeat 12 around 0, 3600 radius 4200 from 15deg\n    diameter 60\n    height 700\n"
	flight := "steps front\n    starts 0, 0 heading 90deg\n    risers 4\n    rise 150\n    going 300\n    width 900\n"
	climb := "steps climb\n    starts 0, 0 heading 0deg\n    rises 140 165 150 190\n    goings 300 320 280\n    width 900\n    built blocks\n"
	roofs := "shape roofs\n    outline points 0,0 3000,0 3000,700 1500,1100 0,400\n    thickness 18\n    stands from -1500, 2000 to 1500, 2000\n    hole circle 300 at 600, 300\n"
	chest := "dressing chest\n    size 600 x 400\n    height 500\n    weight 38kg\n    fixings -100,0 100,0\n"
	for _, c := range []struct{ name, text, from, to, want string }{
		{"a size", deck, "2440 x 1220", "2400 x 1220", "deck: rect 2440 x 1220 → 2400 x 1220; held: top, centre and front edge"},
		{"a size that is hard to tell", deck, "2440 x 1220", "2440.02 x 1220", "deck: rect 2440 x 1220 → 2440.02 x 1220; held: top, centre and front edge"},
		{"below the tolerance", deck, "2440 x 1220", "2440.0000001 x 1220", ""},
		{"another form", deck, "rect 2440 x 1220", "circle 1200", "deck: rect 2440 x 1220 → circle 1200; held: top and centre"},
		{"the same by points", deck, "rect 2440 x 1220", "points -1220,-610 1220,-610 1220,610 -1220,610", ""},
		{"drawn otherwise", strings.Replace(deck, "rect 2440 x 1220", "points 0,0 2000,0 0,1000", 1), "0,1000", "0,1200",
			"deck: outline redrawn: area 1 m² → 1.2 m², box 2000 x 1000 → 2000 x 1200; held: top and front edge"},
		{"points that all move", strings.Replace(deck, "rect 2440 x 1220", "points 0,0 2000,0 0,1000", 1), "0,0 2000,0 0,1000", "0,100 2000,100 0,1100", "deck: moves 100 upstage"},
		{"deeper, its front edge held", deck, "2440 x 1220\n    at 0, 2000", "2440 x 1420\n    at 0, 2100", "deck: rect 2440 x 1220 → 2440 x 1420; held: top and front edge; moves 100 upstage"},
		{"lower, its top held", deck, "height 450", "height 400\n    level 50", "deck: height 450 → 400; held: top; raised 50"},
		{"moved", deck, "at 0, 2000", "at 120, 1960", "deck: moves 120 stage left and 40 downstage"},
		{"moved and turned and raised", deck, "at 0, 2000", "at 0, 1700\n    turn -15deg\n    level 150", "deck: moves 300 downstage, raised 150, turned 15° clockwise"},
		{"turned to look the same", deck, "height", "turn 180deg\n    height", ""},
		{"another position", deck, "height", "also \"scene 2\" at 1200, 3000\n    height", "deck: also at scene 2"},
		{"a position that moves", deck + "    also \"scene 2\" at 0, 3000\n", "0, 3000", "0, 3300", "deck: scene 2 moves 300 upstage"},
		{"all positions", "let y = 0\n" + strings.Replace(deck, "0, 2000", "0, 2000 + y", 1) + "    also \"scene 2\" at 0, 3000 + y\n", "y = 0", "y = 50",
			"deck: moves 50 upstage, and so at scene 2"},
		{"a comment", deck, "height 450", "height 450 # as high as the quay", ""},
		{"a note", deck, "height 450", "height 450\n    note \"screwed from below\"", "deck: note added"},
		{"more copies", posts, "repeat 12", "repeat 12 around 0, 3600 radius 4200 from 15deg\n    stack 2 #", "bollard: 12 → 24 copies"},
		{"copies left out", posts, "height", "except 9 10\n    height", "bollard: 12 → 10 copies, copies 9 and 10 left out"},
		{"copies moved", posts, "height", "shift 3 by 0, 200\n    shift 4 by 0, 200\n    height", "bollard: copies 3 and 4 move 200 upstage"},
		{"a wider ring", posts, "4200", "4300", "bollard: all 12 move, each by 100 mm"},
		{"a number on an only copy", deck, "height 450", "height 450\n    stack 1", "deck: now carries a copy's number"},
		{"a door elsewhere", flat, "door at 600", "door at 700", "wall: door moves 100 towards Q; held: P and Q"},
		{"a larger window", flat, "at 2000 size 900 x 1000", "at 2000 size 900 x 1200", "wall: window 1 900 x 1000 → 900 x 1200; held: P and Q"},
		{"a sill and a hinge", flat, "hinge left opens up", "hinge right opens down", "wall: door hinge left → right, opens up → down; held: P and Q"},
		{"a window less", flat, "    opening window at 3200 size 900 x 1000\n        sill 900\n", "", "wall: window 2 taken out, 900 x 1000; held: P and Q"},
		{"openings in another order", flat, "    opening door at 600 size 800 x 2000\n        hinge left opens up\n    opening window at 2000 size 900 x 1000\n        sill 900\n",
			"    opening window at 2000 size 900 x 1000\n        sill 900\n    opening door at 600 size 800 x 2000\n        hinge left opens up\n", ""},
		{"an end that moves", flat, "to 2400, 3000", "to 2700, 3000", "wall: length 4800 → 5100; held: P; Q moves 300 stage left"},
		{"a wall moved", flat, "-2400, 3000 to 2400, 3000", "-2400, 3300 to 2400, 3300", "wall: moves 300 upstage"},
		{"a wall turned about P", flat, "to 2400, 3000", "to -2400, 7800", "wall: Q moves 4800 stage right and 4800 upstage, turned 90° anticlockwise"},
		{"more risers from the foot", flight, "risers 4", "risers 5", "front: 4 risers → 5, total 600 → 750, run 900 → 1200; held: rise, going and foot"},
		{"one rise", climb, "140 165 150", "140 170 150", "climb: rise 2 165 → 170, total 645 → 650; held: run and foot"},
		{"a riser more of a climb", climb, "150 190\n    goings 300 320 280", "150 190 160\n    goings 300 320 280 300",
			"climb: 4 risers → 5, rise 5 160 added, total 645 → 805, going 4 300 added, run 900 → 1200; held: foot"},
		{"a block sideways", climb, "built", "shift 0 60 0\n    built", "climb: block 2 moves 60 downstage; held: top, total, run and foot"},
		{"a landing", flight, "going 300", "landing after 2 depth 1100\n    going 300", "front: landing on riser 2 added, 1100 deep, run 900 → 1700; held: total and foot"},
		{"a hole", roofs, "600, 300", "700, 300", "roofs: hole moves 100 towards Q; held: P and Q"},
		{"a weight", chest, "38kg", "about 40kg", "chest: weight 38 kg → about 40 kg"},
		{"a weight of the lot", chest, "weight 38kg", "weight all 38kg", "chest: weight 38 kg → all 38 kg"},
		{"a fixing", chest, "100,0\n", "120,0\n", "chest: fixing 2 moves 20 on the piece"},
		{"another kind", "post mast\n    diameter 100\n    height 3000\n", "post mast\n    diameter 100", "cone mast\n    lower 100\n    upper 40", "mast: post → cone, lower 100, upper 40, height 3000; held: where it stands"},
		{"another name", deck, "deck", "stage", "stage: renamed from deck"},
		{"another name and a note", deck, "platform deck\n", "platform stage\n    note \"new\"\n", "stage: renamed from deck, note added"},
		{"another tape", deck, "height", "tape \"white\" 25mm\n    height", "deck: tape none said → white 25"},
	} {
		t.Run(c.name, func(t *testing.T) {
			require.Contains(t, c.text, c.from)
			a, b := open(t, head+c.text), open(t, head+strings.Replace(c.text, c.from, c.to, 1))
			want := []string{}
			if c.want != "" {
				want = append(want, c.want)
			}
			require.Equal(t, want, said(changes.Elements(a, b)))
			require.Equal(t, c.want == "", len(changes.Elements(b, a)) == 0)
		})
	}
}

func TestElementWordsInFeet(t *testing.T) {
	const text = "set \"Yard\"\n    units ft\n    sides camera\nplatform deck\n    outline rect 8' x 4'\n    at 0, 6'\n    height 18\"\n"
	a := open(t, text)
	require.Equal(t, []string{`deck: rect 8'-0" x 4'-0" → 7'-6" x 4'-0"; held: top and front edge; moves 1'-6" camera left`},
		said(changes.Elements(a, open(t, strings.NewReplacer("8' x", "7'6\" x", "at 0,", "at -18\",").Replace(text)))))
	require.Equal(t, []string{`deck: height 1'-6" → 1'-5 1/2"; held: where it stands`},
		said(changes.Elements(a, open(t, strings.Replace(text, `18"`, `17.5"`, 1)))))
	require.Equal(t, []string{`deck: height 457.2 mm → 457.21 mm; held: where it stands`},
		said(changes.Elements(a, open(t, strings.Replace(text, `18"`, `457.21mm`, 1)))))
}
