package notation

import (
	"testing"

	"github.com/stretchr/testify/require"
)

// valueCases are attribute lines with what they become.
var valueCases = []struct{ kind, line, want string }{
	// Expressions.
	{"post p", "height 700", "700"},
	{"post p", "height 3 * rise", "{3*rise}"},
	{"post p", "height 1 + 2 * 3 - 4 / 5", "{{1+{2*3}}-{4/5}}"},
	{"post p", "height (1 + 2) * -3", "{({1+2})*-3}"},
	{"post p", "height 5 - -3", "{5--3}"},
	{"post p", "height +5", "5"},
	{"post p", "height deck.top - rise", "{deck.top-rise}"},
	{"post p", "height bollard.3.top", "bollard#3.top"},
	{"post p", "height 7'-6 1/2\"", "2298.7mm"},
	{"post p", "height 7' - 6\"", "{2133.6mm-152.4mm}"},
	{"post p", "height a-b", "{a-b}"},
	{"post p", "turn 22.5°", "22.5°"},
	{"post p", "diameter depth", "depth"},
	{"post p", "height ((((5))))", "((((5))))"},
	{"post p", "height größe", "größe"},
	// Points.
	{"post p", "at 0, 3600", "0,3600"},
	{"post p", "at 0,3600", "0,3600"},
	{"post p", "at 0 , 3600", "0,3600"},
	{"post p", "at -rise * 2, a + b", "{-rise*2},{a+b}"},
	{"post p", "at 7' - 6\", 0", "{2133.6mm-152.4mm},0"},
	{"post p", "at deck.centre", "deck.centre"},
	{"post p", "at deck.edge(3)", "deck.edge(3)"},
	{"post p", "at wall.along(2 * 600)", "wall.along({2*600})"},
	{"post p", "at bollard.3.centre", "bollard#3.centre"},
	{"post p", "at bollard.3", "bollard#3"},
	{"post p", "at desk.centre + (200, 50)", "{desk.centre+(200,50)}"},
	{"post p", "at desk.centre + (200, 50) - (a * 2, 0)", "{{desk.centre+(200,50)}-({a*2},0)}"},
	{"post p", "at (200, 50)", "(200,50)"},
	{"post p", "at A 2310 B 1885 upstage", "tape[A 2310 B 1885 upstage]"},
	{"post p", "at A 2310 + 5 deck.front 7'6\" plan-left", "tape[A {2310+5} deck.front 2286mm plan-left]"},
	{"post p", "on deck", "deck"},
	{"post p", "on bollard.3", "bollard#3"},
	{"post p", "on deck at centre", "deck ; at=centre"},
	{"post p", "on deck at centre + (200, 50)", "deck ; at={centre+(200,50)}"},
	{"post p", "on wall at 1500 level 1400", "wall ; at=1500 ; level=1400"},
	{"hall h", "station A -4000, 400", "'A ; -4000,400"},
	{"hall h", "station at_1 wall.start", "'at_1 ; wall.start"},
	{"hall h", "pillar 100, 200 circle 400", "100,200 ; circle 400"},
	{"hall h", "pillar 100, 200 size 400 x 300", "100,200 ; size=400 x 300"},
	{"hall h", "tapes 8m class II", "8000mm ; class='II"},
	// Lists.
	{"steps s", "rises 140 165 150", "[140 165 150]"},
	{"steps s", "rises 140", "[140]"},
	{"steps s", "rises (140 + 25) rise -5", "[({140+25}) rise -5]"},
	{"steps s", "widths 1400 by -50", "[1400 by -50]"},
	{"steps s", "widths 6 1/2\" 7' 6\" 7'-6\"", "[165.1mm 2133.6mm 152.4mm 2286mm]"},
	{"steps s", "shift 0 60 -40", "[0 60 -40]"},
	{"steps s", "shift 3 by 0, 200", "[3] ; by=0,200"},
	{"steps s", "shift 100 by -50", "[100 by -50]"},
	{"steps s", "shift -60 +40", "[-60 40]"},
	{"post p", "except 9 10", "[9 10]"},
	{"walk w", "over deck, block.3, pin", "[deck block#3 pin]"},
	{"steps s", "landing after 5 depth 1100", "after=5 ; depth=1100"},
	{"steps s", "starts 0, 1200 heading 90deg", "0,1200 ; heading=90°"},
	// Repeats and words.
	{"post p", "repeat 12 around deck.centre radius 4200 from 15deg facing out", "12 ; around=deck.centre ; radius=4200 ; from=15° ; facing='out"},
	{"post p", "repeat 12 around 0, 3600 radius 4200 facing in from 15deg", "12 ; around=0,3600 ; radius=4200 ; facing='in ; from=15°"},
	{"post p", "repeat 5 along back every 600", "5 ; along=back ; every=600"},
	{"post p", "repeat 5 along path 0,0 line 1200,0 every 600", "5 ; along=0,0 line 1200,0 ; every=600"},
	{"post p", "repeat 5 along deck.front line 1200,0", "5 ; along=deck.front line 1200,0"},
	{"post p", "repeat 4 by 600, 0", "4 ; by=600,0"},
	{"post p", "full-size floor", "floor='floor"},
	{"post p", "full-size floor side", "floor='floor ; side='side"},
	{"post p", "model tube", "tube='tube"},
	{"post p", "model detail", "'detail"},
	{"post p", `also "scene 2" at 1, 2 level 600`, `"scene 2" ; at=1,2 ; level=600`},
	{"post p", `also "scene 2" turn 30deg at 1, 2`, `"scene 2" ; turn=30° ; at=1,2`},
	{"post p", `note "say \"left\" \\ # no comment"  # a comment`, `"say \"left\" \\ # no comment"`},
	{"flat f", "from 0,0 to 2400, 0", "0,0 ; to=2400,0"},
	{"flat f", "face left", "left='left"},
	{"flat f", "opening door at 600 size 800 x 2000", "door='door ; at=600 ; size=800 x 2000"},
	{"flat f", "opening window big at 600 size 800 x 2000", "window='window ; 'big ; at=600 ; size=800 x 2000"},
	{"mark m", "dashed", ""},
	{"cloth c", "allow top 100 bottom 200 sides 50", "top=100 ; bottom=200 ; sides=50"},
	{"cloth c", "grid 500 fine 100 in 0,0 size 4 x 3", "500 ; fine=100 ; in=0,0 ; size=4 x 3"},
	{"cloth c", "span from 3 4 twice", "from=3 ; from=4 ; twice='twice"},
	{"set \"Kiosk\"", "units in", "in='in"},
	{"set \"Kiosk\"", "card wall 1.5  detail 0.3", "['wall 1.5 'detail 0.3]"},
	{"set \"Kiosk\"", "card 1/16\"", "[1.5875mm]"},
	{"set \"Kiosk\"", "card 1.5 wall 3", "[1.5 'wall 3]"},
	{"set \"Kiosk\"", "issue B 2026-11-20 # today", "<B 2026-11-20>"},
	{"set \"Kiosk\"", `scale 1/4" = 1'-0"`, `<1/4" = 1'-0">`},
	{"set \"Kiosk\"", `scale ; is not its business`, `<; is not its business>`},
	// Outlines and paths.
	{"platform d", "outline rect 3600 x 2400", "rect 3600 x 2400"},
	{"platform d", "outline rect 2 * w x h - 5", "rect {2*w} x {h-5}"},
	{"platform d", "outline circle 900", "circle 900"},
	{"platform d", "outline ellipse 8' x 4'", "ellipse 2438.4mm x 1219.2mm"},
	{"platform d", "outline polygon 8 across 4800", "polygon 8 ; across=4800"},
	{"platform d", "outline polygon n corners 2 * r", "polygon n ; corners={2*r}"},
	{"platform d", "outline points 0,0 1200,0 900,600", "points [0,0 1200,0 900,600]"},
	{"platform d", "outline points 0, 0 1200, -5 deck.front (a + 1),(b * 2)", "points [0,0 1200,-5 deck.front ({a+1}),({b*2})]"},
	{"platform d", "outline points A 5 B 6 upstage (deck.centre + (1, 2)) 3,4", "points [tape[A 5 B 6 upstage] ({deck.centre+(1,2)}) 3,4]"},
	{"platform d", "outline points 0,0 1,0 2,0 3,0 4,0 5,0 6,0 7,-1.5", "points floats[0 0 1 0 2 0 3 0 4 0 5 0 6 0 7 -1.5]"},
	{"platform d", `outline points 0",0" 1",0" 2",0" 3",0" 4",0" 5",0" 6",0" 7",-1"`, "points floats[0 0 25.4 0 50.8 0 76.2 0 101.6 0 127 0 152.4 0 177.8 -25.4]"},
	{"platform d", "outline points 0,0 1,0 2,0 3,0 4,0 5,0 6,0 7,a", "points [0,0 1,0 2,0 3,0 4,0 5,0 6,0 7,a]"},
	{"platform d", "outline points 0,0 1,0 2,0 3,0 4,0 5,0 6,0 7,0mm", "points [0,0 1,0 2,0 3,0 4,0 5,0 6,0 7,0mm]"},
	{"platform d", `outline svg "M0 0 L10 0"`, `svg "M0 0 L10 0"`},
	{"platform d", "outline sides 9012 7988 9005 8010 diagonal 12031", "sides [9012 7988 9005 8010] ; diagonal=12031"},
	{"platform d", "outline path 0,0 line 1200,0 arc to 1500,300 radius 300 left arc to P through Q curve to P handles 1,2 C.centre close",
		"path 0,0 line 1200,0 arc 1500,300 r300 left=true right=false long=false arc P via Q curve P c 1,2 C.centre close"},
	{"mark m", "path 0,0 line 1,0 2,0 a.front (b.left + (1, 2)) arc to 5,5 radius -r right long", "0,0 line 1,0 2,0 a.front ({b.left+(1,2)}) arc 5,5 r-r left=false right=true long=true"},
	{"mark m", "path path 0,0 line 5,5", "0,0 line 5,5"},
	{"mark m", "point 0,0 5,5", "[0,0 5,5]"},
	{"ring r", "outer 5200", "5200"},
	{"ring r", "outer 2 * r", "{2*r}"},
	{"ring r", "outer circle 5200", "circle 5200"},
}

func TestValues(t *testing.T) {
	for _, c := range valueCases {
		f, list := parseText(t, c.kind+"\n    "+c.line+"\n")
		require.False(t, list.HasErrors(), "%s\n%v", c.line, list.Sorted())
		require.Len(t, f.Statements, 1)
		require.Len(t, f.Statements[0].Attributes, 1, c.line)
		require.Equal(t, c.want, dumpArgs(f.Statements[0].Attributes[0].Args), c.line)
	}
}
