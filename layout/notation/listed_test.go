package notation

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/diag"
)

// listedKind takes an attribute of each manner that a cell may be read in.
var listedKind = Kind{Word: "figure", Named: true, Listed: true, Attributes: []Attr{
	{Word: "artwork", Form: "TEXT", Example: `artwork "pilot.svg"`},
	{Word: "height", Form: "VALUE", Example: "height 1780"},
	{Word: "at", Form: "POINT", Example: "at 0, 3600"},
	{Word: "hung"},
	{Word: "both", Form: "sides"},
	{Word: "facing", Form: "left|right|front"},
	{Word: "also", Form: "TEXT at POINT", Several: true},
	{Word: "note", Form: "TEXT", Several: true},
	{Word: "widths", Form: "LIST"},
}}

// readListed reads a list, with attributes under the statement that names it.
func readListed(text string, under ...string) ([]*Statement, diag.FileID, *diag.List) {
	list := &diag.List{Sources: &diag.Sources{}}
	main := "figure from \"figures.csv\"\n    " + strings.Join(under, "\n    ") + "\n"
	f := Parse(list.Sources.Add("main", []byte(main)), "main", []byte(main), []Kind{listedKind}, list)
	id := list.Sources.Add("figures.csv", []byte(text))
	return Listed(id, []byte(text), &listedKind, f.Statements[0], list), id, list
}

func dumpListed(statements []*Statement) string {
	var out []string
	for _, s := range statements {
		line := s.Name
		for _, a := range s.Attributes {
			line += " | " + a.Word + " " + dumpArgs(a.Args)
			if a.Bad {
				line += "bad"
			}
		}
		out = append(out, line)
	}
	return strings.Join(out, "\n")
}

func TestListed(t *testing.T) {
	for _, c := range []struct {
		text string
		want string
	}{
		{"name,artwork,height\npilot,pilot.svg,1780\nheron,art/heron.svg,\n", `pilot | artwork "pilot.svg" | height 1780
heron | artwork "art/heron.svg"`},
		{"\ufeffname, hung ,both sides,facing\r\na,yes,Yes,left\r\nb,,sides,\r\n,,,\r\n", "a | hung  | both sides='sides | facing left='left\nb | both sides='sides"},
		{"name,both\na,yes\n", "a | both sides='sides"},
		{"name,at,height\na,\"0, 3600\",2 * rise\nb,deck.centre,7'-6 1/2\"\n", "a | at 0,3600 | height {2*rise}\nb | at deck.centre | height 2298.7mm"},
		{"name,height,at\na,\"7'-6\"\"\",\"1\"\",-2\"\" * 3\"\n", "a | height 2286mm | at 25.4mm,{-50.8mm*3}"},
		{"name,widths\na,\"6 1/2\"\" 7' 6\"\"\"\n", "a | widths [165.1mm 2133.6mm 152.4mm]"},
		{"name,note,note,artwork\na,\"say \"\"left\"\", twice\",#2,\"\"\"a.svg\"\"\"\n", `a | note "say \"left\", twice" | note "#2" | artwork "a.svg"`},
		{"name,also\na,\"\"\"scene 2\"\" at 1, 2\"\n", `a | also "scene 2" ; at=1,2`},
	} {
		got, _, list := readListed(c.text)
		require.False(t, list.HasErrors(), "%q %v", c.text, list.Sorted())
		require.Equal(t, c.want, dumpListed(got), "%q", c.text)
	}
}

// What stands under the statement that names the list holds for every row without such an attribute of its own.
func TestListedUnder(t *testing.T) {
	got, _, list := readListed("name,height\na,\nb,900\n", "height 1780", "hung")
	require.False(t, list.HasErrors(), "%v", list.Sorted())
	require.Equal(t, "a | height 1780 | hung \nb | height 900 | hung ", dumpListed(got))
	require.NotSame(t, got[0].Attributes[1], got[1].Attributes[1])
}

// A name may stand where it always does, and `from` is none.
func TestListedHead(t *testing.T) {
	for text, want := range map[string]string{
		"figure a\n":            "",
		"figure from \"a.csv\"": "",
		"figure from a.csv":     "a text in double quotes is wanted here, not `a`",
		"figure from":           "a text in double quotes is missing after `from`",
		"figure from \"a\" b":   "`b` is not expected here",
		"figure":                "`figure` needs a name after it",
	} {
		list := &diag.List{Sources: &diag.Sources{}}
		Parse(list.Sources.Add("m", []byte(text)), "m", []byte(text), []Kind{listedKind}, list)
		said := ""
		if ds := list.Sorted(); len(ds) > 0 {
			said = ds[0].Message
			require.Len(t, ds, 1, text)
		}
		require.Equal(t, want, said, text)
	}
	tidy, list := Format("m", []byte("figure   from    \"a.csv\"\n  hung\n"), []Kind{listedKind})
	require.False(t, list.HasErrors())
	require.Equal(t, "figure from \"a.csv\"\n    hung\n", string(tidy))
}

func TestListedErrors(t *testing.T) {
	for _, c := range []struct{ text, want string }{
		{"name;height\na;900\n", "figures.csv:1:1: the columns are parted by semicolons, and commas are wanted (export it anew with commas (and decimal points))"},
		{"", "figures.csv:1:1: there is no header row (the first row names the columns: name,of,length)"},
		{"height,name\n900,a\n", "figures.csv:1:1: the first column of a list of pieces is `name` (begin the header with `name,`)\nfigures.csv:1:8: `name` is a column already"},
		{"name,heigth,height,height\na,1,2,3\n", "figures.csv:1:6: `figure` takes no `heigth` (did you mean `height`?)\nfigures.csv:1:20: `height` is a column already"},
		{"name,,height\na,,9\n", "figures.csv:1:6: this column has no name (name it by the attribute that its cells hold)"},
		{"name,height\n,900\nat,900\n9a,900\nx-y,900\n", "figures.csv:2:1: this figure needs its `name`\nfigures.csv:3:1: `at` joins values and cannot be a name (take another word)\n" +
			"figures.csv:4:1: \"9a\" is no name (names are letters, digits and _, and begin with a letter)\nfigures.csv:5:1: \"x-y\" is no name (names are letters, digits and _, and begin with a letter)"},
		{"name,height,hung\na,900 mm,no\nb,=B2*2,yes\n", "figures.csv:2:3: a unit touches its number (write `900mm`)\nfigures.csv:2:10: `hung` is there or not (write yes, or leave the cell empty)\n" +
			"figures.csv:3:3: a cell holds a value, and this is a formula (write what it comes to)"},
		{"name,at\na,0, 3600\n", "figures.csv:2:6: this row has 3 cells, and the header has 2 (a cell that holds a comma stands in double quotes)"},
		{"name,at,height\na,0, 3600\n", "figures.csv:2:3: `,` and the second value of a point is missing after `0` (as in `at 0, 3600`)"},
		{"name,facing\na,lefft\n", "figures.csv:2:3: `left`, `right` or `front` is wanted here, not `lefft` (did you mean `left`?)"},
		{"name,height\na,\"7'-6\"\" + \"\n", "figures.csv:2:11: a value is missing after `+` (as in `height 1780`)"},
	} {
		_, _, list := readListed(c.text)
		var said []string
		for _, d := range list.Sorted() {
			hint := ""
			if d.Hint != "" {
				hint = " (" + d.Hint + ")"
			}
			said = append(said, fmt.Sprintf("%s: %s%s", list.Sources.Position(d.Span), d.Message, hint))
		}
		require.Equal(t, c.want, strings.Join(said, "\n"), "%q", c.text)
	}
}

// Whatever the bytes are, reading ends; every place lies in its row's own, and each row's in the list; a Bad attribute has an error
// against it.
func FuzzListed(f *testing.F) {
	f.Add("name,artwork,height,at,hung\npilot,pilot.svg,1780,\"0, 3600\",yes\n")
	f.Add("\ufeffname,height,also\r\na,\"7'-6\"\"\",\"\"\"scene \\\"\"2\"\" at 1, 2\"\r\n")
	f.Add("name,note,widths\na,\"x\ny # z\",\"6\"\" 7\"\"\n8\"\n")
	f.Add("name,height\na,\"\"\"\"\"\"\n")
	f.Fuzz(func(t *testing.T, text string) {
		got, id, list := readListed(text)
		all := diag.Span{File: id, To: int32(len(text))}
		bad := false
		for _, d := range list.Sorted() {
			within(t, all, d.Span)
			require.NotEmpty(t, d.Message)
		}
		for _, s := range got {
			within(t, all, s.Span)
			within(t, s.Span, s.NameSpan)
			within(t, s.Span, s.WordSpan)
			require.NotEmpty(t, s.Name+s.Word)
			for _, a := range s.Attributes {
				bad = bad || a.Bad
				within(t, s.Span, a.Span)
				within(t, a.Span, a.WordSpan)
				walkArgs(a.Args, a.Span, func(n Node, in diag.Span) {
					within(t, in, n.Pos())
					if n, ok := n.(*Text); ok {
						within(t, n.Span, n.At(0, len(n.Value)))
					}
				})
			}
		}
		require.False(t, bad && !list.HasErrors())
	})
}
