package table

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"markout/layout/table"
)

func sample() *table.Table {
	return &table.Table{
		Name: "floor", Title: "Quayside kiosk: tape table",
		Columns: []table.Column{
			{Name: "element", Heading: "Element"},
			{Name: "x_mm", Heading: "From centre line", Kind: table.X, Decimals: 1, Step: 0.5},
			{Name: "y_mm", Heading: "From setting line", Kind: table.Y, Decimals: 1, Step: 0.5},
			{Name: "tape", Heading: "Tape"},
			{Name: "loose", Heading: "Loose", Kind: table.Flag},
			{Name: "remark", Heading: "Remark", PeopleOnly: true},
		},
		Rows: [][]table.Value{
			{table.T("bollard.3"), table.N(1087.0057), table.N(7656.94), table.T("white 25 mm"), table.N(1), table.T("taped")},
			{table.T(`sign "A", low`), table.N(-1087.3), table.N(-456.94), table.Blank, table.Blank, table.Blank},
		},
		Notes: []string{"Check with local codes and a competent, licensed person."},
		Sides: table.Sides{Plus: "L", Minus: "R"},
	}
}

func TestCSV(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, CSV(&b, sample()))
	require.Equal(t, "element,x_mm,y_mm,tape,loose\n"+
		"bollard.3,1087,7656.9,white 25 mm,yes\n"+
		"\"sign \"\"A\"\", low\",-1087.3,-456.9,,\n", b.String())
}

func TestJSON(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, JSON(&b, sample()))
	require.Equal(t, `[
  {"element": "bollard.3", "x_mm": 1087, "y_mm": 7656.9, "tape": "white 25 mm", "loose": true},
  {"element": "sign \"A\", low", "x_mm": -1087.3, "y_mm": -456.9, "tape": null, "loose": false}
]
`, b.String())
	b.Reset()
	require.NoError(t, JSON(&b, &table.Table{Columns: []table.Column{{Name: "a"}}}))
	require.Equal(t, "[]\n", b.String())
}

func TestText(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, Text(&b, sample()))
	require.Equal(t, `Quayside kiosk: tape table

                   From     From
                 centre  setting
                   line     line
Element            (mm)     (mm)  Tape         Loose  Remark
bollard.3      1087   L   7657 U  white 25 mm  yes    taped
sign "A", low  1087.5 R    457 D

Check with local codes and a competent, licensed person.
`, b.String())
	for _, line := range strings.Split(b.String(), "\n") {
		require.LessOrEqual(t, utf8.RuneCountInString(line), width)
		require.Equal(t, strings.TrimRight(line, " "), line)
	}
}

// A table too wide for its lines breaks where its columns say, and no line is longer than it may be.
func TestWideText(t *testing.T) {
	tab := &table.Table{Columns: []table.Column{{Name: "element", Heading: "Element"}}, Rows: make([][]table.Value, 3)}
	for i := range 14 {
		tab.Columns = append(tab.Columns, table.Column{Heading: "Distance number " + strconv.Itoa(i), Kind: table.Length, Step: 0.5, Break: i == 5})
	}
	for r := range tab.Rows {
		tab.Rows[r] = append(tab.Rows[r], table.T("piece "+strconv.Itoa(r)))
		for i := range 14 {
			tab.Rows[r] = append(tab.Rows[r], table.N(float64(i*1000+r)/2))
		}
	}
	var b bytes.Buffer
	require.NoError(t, Text(&b, tab))
	lines := strings.Split(b.String(), "\n")
	for _, line := range lines {
		require.LessOrEqual(t, utf8.RuneCountInString(line), width)
	}
	require.Contains(t, b.String(), "\npiece 1")
}

// What is written is read back the same by the standard library's readers.
func FuzzReadBack(f *testing.F) {
	f.Add("element", "deck, \"big\"", "a\nb", 1.25, -0.0)
	f.Add("", "", "\r", 1e300, -3.5)
	f.Add("0", "\xec\xbc", "0", 45.05, 0.5)
	f.Add("\xff", "\\.", " lead", 0.05, 123456.789)
	f.Fuzz(func(t *testing.T, name, a, b string, x, y float64) {
		tab := &table.Table{
			Columns: []table.Column{{Name: name}, {Name: "x", Kind: table.X, Decimals: 1}, {Name: "note"}},
			Rows:    [][]table.Value{{table.T(a), table.N(x), table.T(b)}, {table.T(b), table.N(y), table.T(a)}},
		}
		var out bytes.Buffer
		require.NoError(t, CSV(&out, tab))
		got, err := csv.NewReader(bytes.NewReader(out.Bytes())).ReadAll()
		require.NoError(t, err)
		require.Len(t, got, 3)
		read := func(s string) string { return strings.ReplaceAll(s, "\r\n", "\n") } // the reader's own rule
		require.Equal(t, read(name), got[0][0])
		require.Equal(t, read(a), got[1][0])
		require.Equal(t, read(b), got[1][2])
		if v := got[1][1]; v != "" {
			z, err := strconv.ParseFloat(v, 64)
			require.NoError(t, err)
			require.InDelta(t, x, z, 0.05+1e-12*max(x, -x))
			require.NotEqual(t, "-0", v)
		}

		out.Reset()
		require.NoError(t, JSON(&out, tab))
		var rows []map[string]any
		require.NoError(t, json.Unmarshal(out.Bytes(), &rows))
		require.Len(t, rows, 2)
		require.True(t, utf8.Valid(out.Bytes()))
		if name != "x" && name != "note" && utf8.ValidString(name) {
			if a == "" {
				require.Nil(t, rows[0][name])
			} else {
				require.Equal(t, string([]rune(a)), rows[0][name])
			}
		}

		out.Reset()
		require.NoError(t, Text(&out, tab))
		require.True(t, utf8.Valid(out.Bytes()))
		for _, r := range out.String() {
			require.True(t, r == '\n' || r >= ' ', "control character %q", r)
		}
	})
}

// A table of one column keeps its empty rows.
func TestOneColumn(t *testing.T) {
	tab := &table.Table{Columns: []table.Column{{Name: "a"}}, Rows: [][]table.Value{{table.Blank}, {table.T("b")}}}
	var out bytes.Buffer
	require.NoError(t, CSV(&out, tab))
	got, err := csv.NewReader(&out).ReadAll()
	require.NoError(t, err)
	require.Equal(t, [][]string{{"a"}, {""}, {"b"}}, got)
}
