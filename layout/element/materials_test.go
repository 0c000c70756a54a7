package element

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/diag"
	"markout/layout/notation"
	"markout/layout/set"
)

// resolved reads a set with one list of parts beside it.
func resolved(text, csv string) (*set.Set, *diag.List) {
	list := &diag.List{Sources: &diag.Sources{}}
	id := list.Sources.Add("m", []byte(text))
	f := notation.Parse(id, "m", []byte(text), Kinds(), list)
	s := Resolve(f.Statements, list, Options{Read: func(*notation.Text) (diag.FileID, []byte, bool) {
		return list.Sources.Add("parts.csv", []byte(csv)), []byte(csv), true
	}})
	return s, list
}

func printed(list *diag.List) string {
	var b strings.Builder
	for _, d := range list.Sorted() {
		b.WriteString(list.Sources.Position(d.Span).String() + ": " + d.Message)
		if d.Hint != "" {
			b.WriteString(" (" + d.Hint + ")")
		}
		b.WriteString("\n")
	}
	return b.String()
}

const stuff = `board "ply 18" 2440 x 1220 thick 17.6 density 620kg/m3 kerf 3 grain along count 6
length "batten 44" 44 x 69 long 4800 kerf 3 count 20
`

func TestMaterials(t *testing.T) {
	s, list := resolved(stuff+`stock box 600 x 400 x 150 count 40
board "foam" 8' x 4' thick 2" kerf 0
let rise = 150mm
part rail of "batten 44" length 6 * rise count 4
part patch of "ply 18" length 600 width 300 grain across
part from "parts.csv"
`, "\ufeffof,name,length,width,count,grain\nply 18,cleat,2 * rise,\"1'-0\"\"\",3,along\nbatten 44,leg,2' - 6,,,\n")
	require.Empty(t, printed(list))
	require.Len(t, s.Boards, 2)
	require.Equal(t, set.Board{Name: "ply 18", Length: 2440, Width: 1220, Thick: 17.6, Density: 620, Kerf: 3, Grain: set.GrainAlong, Count: 6, Span: s.Boards[0].Span}, s.Boards[0])
	require.Equal(t, set.Board{Name: "foam", Length: 2438.4, Width: 1219.2, Thick: 50.8, Span: s.Boards[1].Span}, s.Boards[1])
	require.Equal(t, set.Length{Name: "batten 44", Width: 44, Depth: 69, Long: 4800, Kerf: 3, Count: 20, Span: s.Lengths[0].Span}, s.Lengths[0])
	require.Equal(t, set.StockBox{Length: 600, Width: 400, Height: 150, Count: 40, Span: s.Stock[0].Span}, s.Stock[0])
	require.Len(t, s.Parts, 4)
	require.Equal(t, set.Part{Name: "rail", Of: "batten 44", Length: 900, Count: 4, Span: s.Parts[0].Span}, s.Parts[0])
	require.Equal(t, set.Part{Name: "cleat", Of: "ply 18", Length: 300, Width: 304.8, Count: 3, Grain: set.GrainAlong, Span: s.Parts[2].Span}, s.Parts[2])
}

func TestMaterialsThatAreWrong(t *testing.T) {
	for _, c := range []struct{ text, said string }{
		{stuff + "board \"ply 18\" 2440 x 1220 thick 18\n", `m:3:7: "ply 18" is there already; the first is at m:1:7`},
		{"board \" \" 2440 x 1220 thick 18\n", "m:1:7: a board needs a name to be called by"},
		{"board \"a\" 2440 x 1220 x 18 thick 18\n", "m:1:11: this has 3 sides, and 2 are wanted (a board is length x width; its thickness stands after `thick`)"},
		{"board \"a\" 2440 x 1220 thick 0 density 620 kerf -1 count 0\n", "m:1:29: `thick` is more than 0, and this is 0 mm\n" +
			"m:1:39: `density` needs its unit (write `620kg/m3`)\nm:1:48: `kerf` is not less than 0, and this is -1 mm\nm:1:57: `count` is at least 1, and this is 0"},
		{"board \"a\" 2440 x 1220 thick 1760 kerf 1300\nlength \"b\" 44 x 69 long 4800 kerf 5000\n", "m:1:29: `thick` is 1760 mm, and the board's shorter side is 1220 mm (a board is length x width, and `thick` is its thickness)\n" +
			"m:1:39: `kerf` is 1300 mm, and the board's shorter side is 1220 mm (a saw takes 2 to 4 mm, a knife 0)\n" +
			"m:2:35: `kerf` is 5000 mm, and a whole one is 4800 mm (a saw takes 2 to 4 mm, a knife 0)"},
		{"board \"a\" 2440 x 1220\n", "m:1:18: `thick` is missing after `1220` (as in `board \"ply 18\" 2440 x 1220 thick 17.6 density 620kg/m3 kerf 3 grain along count 6`)"},
		{"set \"s\"\n    units in\nboard \"a\" 96 x 48 thick 0.75 kerf 0\n", "m:3:25: `thick` needs a unit in a set that is not in mm (write `0.75mm` or `0.75in`)"},
		{"stock box 600 x 400\n", "m:1:11: this has 2 sides, and 3 are wanted (a box is length x width x height)"},
		{stuff + "part rail of \"Ply18\" length 600\n", `m:3:14: there is no board or length called "Ply18" (did you mean "ply 18"?)`},
		{stuff + "part rail of \"ply 18\" length 600\n", "m:3:1: a part of a board needs its `width` (write `part rail of \"ply 18\" length 900 width 300`)"},
		{stuff + "part rail of \"ply 18\" length 1300 width 1230\n", `m:3:30: a part of 1300 mm x 1230 mm does not come out of "ply 18" (the largest that fits is 2440 mm x 1220 mm)`},
		{stuff + "part rail of \"ply 18\" length 1300 width 300 grain across\n", `m:3:30: a part of 1300 mm x 300 mm does not come out of "ply 18" (the largest that fits is 2440 mm x 1220 mm, with the grain as it is said)`},
		{stuff + "part rail of \"ply 18\" length 1220 width 300 grain across\n", ""},
		{stuff + "part rail of \"batten 44\" length 5000\n", `m:3:33: a part of 5000 mm does not come out of "batten 44" (the longest that fits is 4800 mm)`},
		{stuff + "part rail of \"batten 44\" length 500 width 4\n", "m:3:43: \"batten 44\" is bought by the length, and its section is its width (leave `width` out)"},
		{stuff + "let rail = 3\npart rail of \"batten 44\" length 500\n", "m:4:6: `rail` is a name already; the first is at m:3:5"},
		{"part rail of \"x\" length 500\n", "m:1:14: there is no board or length called \"x\" (say what it is: `board \"x\" 2440 x 1220 thick 17.6`)"},
		{"board \"x\" 10 x 10 thikc 3\npart rail of \"x\" length 500\n", "m:1:19: `thick` is wanted here, not `thikc` (did you mean `thick`?)"},
		{"platform p\n    outline rect 100 x 100\n    height 100\n    of \"ply 19\"\n" + stuff, `m:4:8: there is no board or length called "ply 19" (did you mean "ply 18"?)`},
	} {
		_, list := resolved(c.text, "")
		require.Equal(t, c.said, strings.TrimSuffix(printed(list), "\n"), c.text)
	}
}

// Everything that is wrong in a list is said in one run, each thing at its cell.
func TestListsThatAreWrong(t *testing.T) {
	for _, c := range []struct{ csv, said string }{
		{"name;of;length\n", "parts.csv:1:1: the columns are parted by semicolons, and commas are wanted (export it anew with commas (and decimal points))"},
		{"name,of\n", "parts.csv:1:1: the column `length` is missing (the header is name,of,length and, where wanted, width,count,grain)"},
		{"name,of,lenght\n", "parts.csv:1:9: a part has no `lenght` (did you mean `length`?)"},
		{"name,of,length,of\n", "parts.csv:1:16: `of` is a column already"},
		{`name,of,length,width,count,grain
rail,batten 44,=1+2,,,
-x,batten 44,900,,,
rail,batten 4,900,,,
,batten 44,900,,,
leg,batten 44,9000,,,
leg2,batten 44,12deg,,1.5,
leg3,batten 44,1,5m,,,
r4,ply 18,"5 x",300,,up
`, "parts.csv:2:16: a cell holds a value, and this is a formula (write what it comes to)\n" +
			"parts.csv:3:1: \"-x\" is no name (names are letters, digits and _, and begin with a letter)\n" +
			"parts.csv:4:1: `rail` is a name already; the first is at parts.csv:2:1\n" +
			"parts.csv:4:6: there is no board or length called \"batten 4\" (did you mean \"batten 44\"?)\n" +
			"parts.csv:5:1: this part needs its `name`\n" +
			"parts.csv:6:15: a part of 9000 mm does not come out of \"batten 44\" (the longest that fits is 4800 mm)\n" +
			"parts.csv:7:16: `length` wants a length, and this is an angle\n" +
			"parts.csv:7:23: `count` is a whole number, and this is 1.5\n" +
			"parts.csv:8:23: this row has 7 cells, and the header has 6 (a cell that holds a comma stands in double quotes)\n" +
			"parts.csv:9:14: `x` is not expected here\n" +
			"parts.csv:9:22: \"up\" is no grain (write along, across or free, or leave the cell empty)"},
		{"name,of,length\nx,batten 44,900\n", "parts.csv:2:1: `x` joins values and cannot be a name (take another word)"},
		{"name,of,length\n" + strings.Repeat("\n", 10) + "rail,batten 44,900\n", ""},
	} {
		_, list := resolved(stuff+"part from \"parts.csv\"\n", c.csv)
		require.Equal(t, c.said, strings.TrimSuffix(printed(list), "\n"), c.csv)
	}
}

func TestListOverTheLimit(t *testing.T) {
	var b strings.Builder
	b.WriteString("name,of,length\n")
	for i := range notation.MostRows + 2 {
		b.WriteString("r" + count(i) + ",batten 44,900\n")
	}
	s, list := resolved(stuff+"part from \"parts.csv\"\n", b.String())
	require.Equal(t, "parts.csv:200002:1: a list has at most 200000 rows, the limit\n", printed(list))
	require.Len(t, s.Parts, notation.MostRows)
}

// Whatever stands in a list, nothing panics, every place lies in a text, and the parts taken up come out of their material.
func FuzzParts(f *testing.F) {
	f.Add("name,of,length,width,count,grain\nrail,batten 44,900,,4,\n\"p\",ply 18,\"7'-6\"\"\",300,2,across\n")
	f.Add("name,of,length\nx,ply 18,=1\n")
	f.Fuzz(func(t *testing.T, csv string) {
		s, list := resolved(stuff+"part from \"parts.csv\"\n", csv)
		for _, d := range list.Sorted() {
			text := list.Sources.Text(d.Span.File)
			require.True(t, d.Span.From >= 0 && d.Span.From <= d.Span.To && int(d.Span.To) <= len(text), d.Message)
		}
		for _, p := range s.Parts {
			require.True(t, notation.IsName(p.Name) && p.Length > 0 && p.Count >= 1 && p.Count <= mostCount)
			if p.Of == "ply 18" {
				require.True(t, p.Width > 0 && min(p.Length, p.Width) <= 1220.01 && max(p.Length, p.Width) <= 2440.01)
			} else {
				require.True(t, p.Of == "batten 44" && p.Width == 0 && p.Length <= 4800.01)
			}
		}
	})
}
