package changes_test

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/changes"
	"markout/layout/element"
	"markout/layout/notation"
	"markout/layout/set"
)

// A yard in which every attribute's example can stand.
const around = `set "Yard"
    card wall 1.5  detail 0.3
hall quay_hall
    outline rect 9000 x 8000
    at 0, 3600
platform deck
    outline rect 3000 x 2000
    at 0, 6000
    height 450
flat WALL
    from -3000, 7500 to 3000, 7500
    height 3000
board "ply 18" 2440 x 1220 thick 17.6
length "batten 44" 44 x 69 long 4800
room hold
    outline rect 4200 x 3600
    overhead 4900 turned lengthways
`

const square = `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="200" viewBox="0 0 100 200"><path d="M0 0H100V200H0Z"/></svg>`
const leaning = `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="200" viewBox="0 0 100 200"><path d="M0 0H90L100 200H0Z"/></svg>`

var numberIn = regexp.MustCompile(`\d+(\.\d+)?`)

func tryOpen(text string) (*set.Set, bool) {
	s, list := layout.Open(texts{"x.markout": text, "pilot.svg": square, "heron.svg": leaning, "harbour.svg": square}, "x.markout", layout.Options{})
	return s, !list.HasErrors()
}

// otherwise returns an attribute's line with each of its numbers changed in turn.
func otherwise(line string) []string {
	var out []string
	for _, at := range numberIn.FindAllStringIndex(line, -1) {
		x, _ := strconv.ParseFloat(line[at[0]:at[1]], 64)
		for _, y := range []float64{x + 1, x * 1.1, x * 0.9} {
			out = append(out, line[:at[0]]+strconv.FormatFloat(y, 'f', -1, 64)+line[at[1]:])
		}
	}
	return out
}

func TestEveryAttribute(t *testing.T) {
	for _, k := range element.Kinds() {
		if !k.Named {
			continue
		}
		for _, a := range k.Attributes {
			tried := 0
			for _, pair := range pairsOf(&k, &a) {
				x, ok := tryOpen(around + pair[0])
				y, fine := tryOpen(around + pair[1])
				if !ok || !fine {
					continue
				}
				tried++
				got := said(changes.Elements(x, y))
				if len(got) == 0 {
					fmt.Printf("NOTHING %s %s\n%s---\n%s\n", k.Word, a.Word, pair[0], pair[1])
				} else {
					fmt.Printf("%s %s: %s\n", k.Word, a.Word, strings.Join(got, " || "))
				}
				require.Empty(t, changes.Elements(x, x))
			}
			if tried == 0 {
				fmt.Printf("UNTRIED %s %s\n", k.Word, a.Word)
			}
		}
	}
}

func pairsOf(k *notation.Kind, a *notation.Attr) (out [][2]string) {
	example := strings.SplitAfter(k.Example, "\n")
	at := 0
	for !strings.HasPrefix(example[at], k.Word) {
		at++
	}
	base, without, was := "", "", ""
	for i, line := range example[at:] {
		if i > 0 && (line == "" || line[0] != ' ') {
			break
		}
		base += line
		f := strings.Fields(line)
		if len(f) > 0 && f[0] == a.Word {
			was = line
			continue
		}
		without += line
	}
	line := "    " + a.Example + "\n"
	out = append(out, [2]string{base, without + line}, [2]string{without, without + line})
	for _, l := range append(otherwise(line), otherwise(was)...) {
		out = append(out, [2]string{base, without + l}, [2]string{without + line, without + l})
	}
	return out
}
