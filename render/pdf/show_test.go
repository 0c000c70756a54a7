package pdf

import (
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"
)

// Reading the strings of any text back by the tables of its fonts gives the text, what the faces lack as the sign for a
// character lost.
func FuzzShowText(f *testing.F) {
	for _, s := range []string{"", "floor 3C", "(\\))", "Łódź Якорь ½ ′", "a\x7f\x00\xff海\ufffd", "–Ω–Ω"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		c := &content{codes: codes(), used: usage{}}
		c.begin(false)
		c.showText(text, true, 3500)
		var got []rune
		key, inside := fontKey{}, false
		b := c.buf
		for i := 0; i < len(b); i++ {
			switch {
			case !inside && b[i] == '/':
				key = fontKey{bold: b[i+1] == 'B'}
				if b[i+2] != ' ' {
					key.page = b[i+2] - '0'
				}
			case !inside:
				inside = b[i] == '('
			case b[i] == ')':
				inside = false
			default:
				if b[i] == '\\' {
					i++
				}
				require.GreaterOrEqual(t, b[i], byte(firstCode))
				require.True(t, c.used[key][b[i]], "a code that is used is in the subset")
				r := codes().runes[key.page][b[i]]
				if r == missingRune {
					r = utf8.RuneError
				}
				got = append(got, r)
			}
		}
		want := []rune(text)
		for i, r := range want {
			if p := codes().place(r); p.page == 0 && p.code == missingCode {
				want[i] = utf8.RuneError
			}
		}
		require.Equal(t, string(want), string(got))
	})
}

func TestCodePages(t *testing.T) {
	require.Less(t, len(codes().runes), 10, "a page's number is one figure in its name")
	seen := map[rune]bool{}
	for _, page := range codes().runes {
		for code, r := range page {
			if r == 0 || r == missingRune {
				continue
			}
			require.False(t, seen[r], "%c stands twice", r)
			seen[r] = true
			require.Equal(t, code, int(codes().place(r).code))
		}
	}
	for r := rune('!'); r <= '~'; r++ {
		require.Equal(t, place{0, uint8(r)}, codes().place(r))
	}
}

func TestAppendReal(t *testing.T) {
	for _, c := range []struct {
		v        float64
		decimals int
		want     string
	}{{0, 3, "0"}, {0.45, 3, ".45"}, {-0.5, 3, "-.5"}, {-0.0001, 3, "0"}, {1, 3, "1"}, {-1.25, 1, "-1.2"}, {595.27559, 4, "595.2756"}, {100, 0, "100"}} {
		require.Equal(t, c.want, string(appendReal(nil, c.v, c.decimals)))
	}
}

func TestUnits(t *testing.T) {
	for mm, want := range map[float64]int64{0: 0, 0.0004999: 0, 0.0005: 1, -0.0005: 0, -0.0006: -1, 5000: 5_000_000, 1e300: furthest, -1e300: -furthest} {
		require.Equal(t, want, units(mm), "%g", mm)
	}
	nan := 0.0
	nan /= nan
	require.Zero(t, units(nan))
}
