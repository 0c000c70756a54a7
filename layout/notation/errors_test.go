package notation

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"markout/layout/diag"
)

var update = flag.Bool("update", false, "write the errors found into testdata/errors.txt")

// errorCase is one text of testdata/errors.txt: lines of the text have two spaces before them, and under a line each error
// in it has a line that begins with >, carets under the exact words, the message and, after ` ~ `, the hint.
type errorCase struct {
	name  string
	lines []string
}

func errorCases(t testing.TB) (intro []string, cases []errorCase) {
	data, err := os.ReadFile("testdata/errors.txt")
	require.NoError(t, err)
	for _, line := range strings.Split(strings.TrimSuffix(string(data), "\n"), "\n") {
		name, ok := strings.CutPrefix(line, "== ")
		switch {
		case ok:
			cases = append(cases, errorCase{name: name})
		case len(cases) == 0:
			intro = append(intro, line)
		default:
			c := &cases[len(cases)-1]
			c.lines = append(c.lines, line)
		}
	}
	return intro, cases
}

// source is the case's text without its marks.
func (c errorCase) source() string {
	var out strings.Builder
	for _, line := range c.lines {
		if !strings.HasPrefix(line, ">") && line != "" {
			out.WriteString(line[2:] + "\n")
		}
	}
	return out.String()
}

// marked is the text with the errors found in it.
func marked(text string, list *diag.List) []string {
	var out []string
	from := 0
	all := list.Sorted()
	for _, line := range strings.SplitAfter(text, "\n") {
		if line == "" {
			break
		}
		out = append(out, "  "+strings.TrimSuffix(line, "\n"))
		for _, d := range all {
			if at := int(d.Span.From) - from; at >= 0 && at < len(line) {
				to := max(at+1, min(int(d.Span.To)-from, len(line)))
				words := utf8.RuneCountInString(line[at:to])
				mark := ">" + strings.Repeat(" ", 1+utf8.RuneCountInString(line[:at])) + strings.Repeat("^", words) + " " + d.Message
				if d.Hint != "" {
					mark += " ~ " + d.Hint
				}
				out = append(out, mark)
			}
		}
		from += len(line)
	}
	return out
}

func parseText(t testing.TB, text string) (*File, *diag.List) {
	list := &diag.List{Sources: &diag.Sources{}}
	id := list.Sources.Add("kiosk.markout", []byte(text))
	return Parse(id, "kiosk.markout", []byte(text), sampleKinds, list), list
}

func TestErrors(t *testing.T) {
	intro, cases := errorCases(t)
	out := intro
	for _, c := range cases {
		_, list := parseText(t, c.source())
		got := marked(c.source(), list)
		out = append(append(out, "== "+c.name), got...)
		out = append(out, "")
		if !*update {
			var want []string
			for _, line := range c.lines {
				if line != "" {
					want = append(want, line)
				}
			}
			require.Equal(t, strings.Join(want, "\n"), strings.Join(got, "\n"), c.name)
			require.True(t, list.HasErrors(), c.name)
		}
	}
	if *update {
		require.NoError(t, os.WriteFile("testdata/errors.txt", []byte(strings.Join(out, "\n")), 0o644))
		fmt.Println("testdata/errors.txt written: read it")
	}
}
