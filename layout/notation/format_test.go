package notation

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

const untidy = "\ufeff\r\n\r\n# header comment\r\n" + `

set   "Quayside  kiosk" # trailing
  production "Low Tide"
  issue      B 2026-11-20
  units mm
  card   wall 1.5    detail 0.3
let rise=150mm
let going   =   300mm   # the going


let x1 = 5
include  "a.markout"
# hall comment
hall quay_hall
        outline  rect 9000   x  8000
        # stations
        station A   -4000 , 400


        station B 4000,400
        # last

# about deck
platform deck
 outline points 0,0 1200,0
     900,600   # half

       # more
     500,500
 closed
 full-size floor
# plain
flat w
  opening window at 600 size 800 x 1200
     sill 900
     # h
     hinge left opens up
  from 0,0 to 6  1/2", 0
  note "a  #  b"   # c
  # opening door at 5 size 5 x 5
keep deck to w at
     least 1800
dim deck to w
dim w to deck
# end`

const tidy = `# header comment

set "Quayside  kiosk"  # trailing
    production "Low Tide"
    issue      B 2026-11-20
    units      mm
    card       wall 1.5 detail 0.3

let rise  = 150mm
let going = 300mm  # the going

let x1 = 5
include "a.markout"

# hall comment
hall quay_hall
    outline  rect 9000 x 8000
    # stations
    station  A -4000, 400

    station  B 4000,400
    # last

# about deck
platform deck
    outline  points 0,0 1200,0
             900,600  # half

             # more
             500,500
    closed
    full-size floor

# plain
flat w
    opening  window at 600 size 800 x 1200
        sill  900
        # h
        hinge left opens up
    from     0,0 to 6 1/2", 0
    note     "a  #  b"  # c
    # opening door at 5 size 5 x 5

keep deck to w at
    least 1800

dim deck to w
dim w to deck
# end
`

func TestFormat(t *testing.T) {
	got, list := Format("kiosk.markout", []byte(untidy), sampleKinds)
	require.False(t, list.HasErrors())
	require.Equal(t, tidy, string(got))
	again, _ := Format("kiosk.markout", got, sampleKinds)
	require.Equal(t, tidy, string(again))
}

func TestFormatLeavesErrorsAlone(t *testing.T) {
	text := "platform deck\n  height   1,5m\n"
	got, list := Format("kiosk.markout", []byte(text), sampleKinds)
	require.Equal(t, text, string(got))
	require.Equal(t, "kiosk.markout:2:12", list.Sources.Position(list.Sorted()[0].Span).String())
}

func TestFormatOfNothing(t *testing.T) {
	for text, want := range map[string]string{
		"":             "",
		"\n\n":         "",
		"# a":          "# a\n",
		"   # a":       "# a\n",
		"\ufeff":       "",
		"# a\n\n\n# b": "# a\n\n# b\n",
		"let a = 5":    "let a = 5\n",
		"let a\n  = 5": "let a\n    = 5\n",
	} {
		got, list := Format("a", []byte(text), sampleKinds)
		require.False(t, list.HasErrors(), text)
		require.Equal(t, want, string(got), "%q", text)
	}
}

// whole is all that a file says, without its layout.
func whole(f *File) string {
	var out strings.Builder
	for _, s := range f.Statements {
		fmt.Fprintf(&out, "%s %s %s\n", s.Word, s.Name, dumpArgs(s.Args))
		for _, a := range s.Attributes {
			fmt.Fprintf(&out, "  %s %s\n", a.Word, dumpArgs(a.Args))
			for _, b := range a.Sub {
				fmt.Fprintf(&out, "    %s %s\n", b.Word, dumpArgs(b.Args))
			}
		}
	}
	return out.String()
}

// tokens is the text without comments, and without blanks outside texts.
func tokens(text string) string {
	var out strings.Builder
	for _, line := range strings.Split(strings.TrimPrefix(text, "\ufeff"), "\n") {
		b := []byte(line)
		if c := commentStart(b, 0, len(b)); c >= 0 {
			b = b[:c]
		}
		for i := 0; i < len(b); {
			switch {
			case b[i] == '"' && (i == 0 || b[i-1]-'0' > 9):
				end := textEnd(b, i)
				out.Write(b[i:end])
				i = end
			default:
				if b[i] != ' ' && b[i] != '\t' && b[i] != '\r' {
					out.WriteByte(b[i])
				}
				i++
			}
		}
	}
	return out.String()
}

func comments(f *File) []string {
	var out []string
	for _, c := range f.Comments {
		out = append(out, fmt.Sprint(c.Own, c.Text))
	}
	return out
}

func FuzzFormat(f *testing.F) {
	seed(f)
	f.Fuzz(func(t *testing.T, text string) {
		got, list := Format("a", []byte(text), sampleKinds)
		if list.HasErrors() {
			require.Equal(t, text, string(got))
			return
		}
		again, list := Format("a", got, sampleKinds)
		require.False(t, list.HasErrors(), "%q", got)
		require.Equal(t, string(got), string(again))
		before, _ := parseText(t, text)
		after, _ := parseText(t, string(got))
		require.Equal(t, whole(before), whole(after))
		require.Equal(t, comments(before), comments(after))
		require.Equal(t, tokens(text), tokens(string(got)))
	})
}
