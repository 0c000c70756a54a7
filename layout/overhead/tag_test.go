package overhead_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
)

// tagged writes a room of dressing, each piece with the lines given for it.
func tagged(pieces ...string) string {
	var b strings.Builder
	b.WriteString("set \"x\"\nroom r\n    outline rect 4000 x 3000\n    overhead 5000 mirrored\n")
	for i, p := range pieces {
		fmt.Fprintf(&b, "dressing %c\n    in r\n    size 50 x 30\n    height 80\n", 'a'+i)
		for _, line := range strings.Split(p, "; ") {
			if line != "" {
				b.WriteString("    " + line + "\n")
			}
		}
	}
	return b.String()
}

func TestTags(t *testing.T) {
	for _, c := range []struct {
		pieces []string
		want   []int
	}{
		{[]string{"", "", ""}, []int{1, 2, 3}},
		{[]string{"", "tag 14", ""}, []int{1, 14, 15}},
		{[]string{"repeat 3 by 60, 0; tag 5", ""}, []int{5, 6, 7, 8}},
		// What counts on passes the numbers that are given further on.
		{[]string{"", "tag 3", "tag 2", "", ""}, []int{1, 3, 2, 4, 5}},
		{[]string{"repeat 3 by 60, 0", "tag 2; repeat 2 by 60, 0"}, []int{1, 4, 5, 2, 3}},
		{[]string{"repeat 4 by 60, 0; except 2; tag 7"}, []int{7, 8, 9}},
	} {
		var got []int
		for _, p := range rooms(t, tagged(c.pieces...))[0].Pieces {
			got = append(got, p.Tag)
		}
		require.Equal(t, c.want, got, c.pieces)
	}
}

// The same number twice is an error that names both pieces; in two rooms it is none.
func TestTagsTwice(t *testing.T) {
	for _, c := range []struct {
		pieces []string
		want   string
	}{
		{[]string{"tag 3", "tag 3"}, "x.markout:14:5: b would have tag 3 of r, which is that of a; the first is at x.markout:9:5"},
		{[]string{"repeat 4 by 60, 0; tag 3", "tag 5"}, "x.markout:15:5: b would have tag 5 of r, which is that of a.3; the first is at x.markout:10:5"},
		{[]string{"tag 6", "repeat 4 by 60, 0; tag 3"}, "x.markout:15:5: b.4 would have tag 6 of r, which is that of a; the first is at x.markout:9:5"},
	} {
		_, list := layout.Open(one(tagged(c.pieces...)), "x.markout", layout.Options{})
		require.Len(t, list.Sorted(), 1)
		d := list.Sorted()[0]
		require.Equal(t, c.want, list.Sources.Position(d.Span).String()+": "+d.Message)
	}
	apart := tagged("tag 3") + strings.ReplaceAll(strings.ReplaceAll(strings.TrimPrefix(tagged("tag 3"), "set \"x\"\n"), "room r", "room s\n    at 9000, 0"), "dressing a\n    in r", "dressing b\n    in s")
	require.Len(t, rooms(t, apart), 2)
}
