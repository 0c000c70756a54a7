package tiling

import (
	"testing"

	"github.com/stretchr/testify/require"
)

func TestJoin(t *testing.T) {
	doc := func(pages int, w float64, title string) *Document {
		return &Document{Title: title, Date: "2026-11-20", Pages: pages, Shows: []*Show{{}}, Bookmarks: []Bookmark{{Title: title, Children: []Bookmark{{Title: "last", Page: pages - 1}}}},
			Make: func(i int, p *Page) { p.W, p.H, p.Label = w, float64(i+1), title }}
	}
	b := doc(3, 20, "b")
	b.Sizes = []Size{{20, 1}, {20, 2}, {20, 3}}
	j := Join("all", doc(2, 10, "a"), b)
	require.Equal(t, 5, j.Pages)
	require.Equal(t, "2026-11-20", j.Date)
	require.Len(t, j.Shows, 2)
	require.Equal(t, []Size{{10, 1}, {10, 1}, {20, 1}, {20, 2}, {20, 3}}, j.Sizes)
	require.Equal(t, 2, j.Bookmarks[1].Page)
	require.Equal(t, 4, j.Bookmarks[1].Children[0].Page)
	var p Page
	for i, want := range []string{"a", "a", "b", "b", "b"} {
		p.Reset()
		j.Make(i, &p)
		require.Equal(t, want, p.Label)
	}
	require.InDelta(t, 3, p.H, 0)
}
