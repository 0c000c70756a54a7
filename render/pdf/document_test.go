package pdf_test

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"sync/atomic"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/render/pdf"
	"markout/render/reread"
	"markout/tiling"
)

func TestSameBytesOnAnyNumberOfWorkers(t *testing.T) {
	rings := newRings(8, 6, 60).document()
	random := &tiling.Document{Title: "Low Tide", Pages: 333, Make: func(i int, p *tiling.Page) { randomPage(uint64(i), p) }}
	for _, doc := range []*tiling.Document{rings, random} {
		var first []byte
		for _, workers := range []int{1, 2, 7, 0} {
			var b bytes.Buffer
			stats, err := pdf.Write(&b, doc, pdf.Options{Workers: workers})
			require.NoError(t, err)
			require.Equal(t, pdf.Stats{Pages: doc.Pages, Bytes: int64(b.Len())}, stats)
			if first == nil {
				first = b.Bytes()
			}
			require.True(t, bytes.Equal(first, b.Bytes()), "%d workers", workers)
		}
	}
}

func TestEveryPageIsMadeOnceAndProgressIsInOrder(t *testing.T) {
	const pages = 1000
	var made [pages]atomic.Int32
	doc := &tiling.Document{Pages: pages, Make: func(i int, p *tiling.Page) {
		made[i].Add(1)
		p.W, p.H = 210, 297
	}}
	last := 0
	_, err := pdf.Write(io.Discard, doc, pdf.Options{Workers: 3, Progress: func(done, total int) {
		require.Equal(t, pages, total)
		require.Greater(t, done, last)
		last = done
	}})
	require.NoError(t, err)
	require.Equal(t, pages, last)
	for i := range made {
		require.EqualValues(t, 1, made[i].Load(), "page %d", i)
	}
}

func TestWhatADocumentSaysOfItself(t *testing.T) {
	const pages = 700
	doc := &tiling.Document{
		Title: "Low Tide: quayside kiosk – issue B", Subject: "full size (templates) \\ floor", Date: "2026-11-20", Pages: pages,
		Make: func(i int, p *tiling.Page) {
			p.W, p.H = 210, 297
			p.Label = label(i)
			p.Layers[[...]drawing.Layer{drawing.Cut, drawing.Furniture, drawing.Registration}[i%3]].Texts = []tiling.Text{{At: pt(20, 20), Height: 5, Text: "3C"}}
		},
		Bookmarks: []tiling.Bookmark{
			{Title: "floor", Page: 0, Children: []tiling.Bookmark{{Title: "deck (Ø 4800)", Page: 2}, {Title: "Łódź", Page: 650}}},
			{Title: "pilot", Page: 699},
		},
	}
	file := write(t, doc)
	reread.Check(t, file)

	info := reread.ReadInfo(t, file)
	require.Equal(t, doc.Title, info.Fields["Title"])
	require.Equal(t, doc.Subject, info.Fields["Subject"])
	require.Contains(t, info.Fields["CreationDate"], "Nov 20")
	require.Equal(t, "1.7", info.Fields["PDF version"])
	require.Len(t, info.Sizes, pages)

	o := reread.ReadObjects(t, file)
	require.Len(t, o.Labels, pages)
	for i, l := range o.Labels {
		require.Equal(t, label(i), l)
	}
	require.Equal(t, "/None", o.Get("/Root", "/ViewerPreferences", "/PrintScaling"))
	require.Equal(t, true, o.Get("/Root", "/ViewerPreferences", "/PickTrayByPDFSize"))
	require.Equal(t, "/Simplex", o.Get("/Root", "/ViewerPreferences", "/Duplex"))
	require.Equal(t, "u:D:20261120000000Z", o.Get("/Info", "/ModDate"))
	require.Equal(t, "u:cut", o.Get("/Root", "/OCProperties", "/OCGs", 0, "/Name"))
	require.Equal(t, "u:registration", o.Get("/Root", "/OCProperties", "/D", "/Order", 1, "/Name"))
	require.Equal(t, "u:furniture", o.Get("/Root", "/OCProperties", "/D", "/Order", 2, "/Name"))
	require.Nil(t, o.Get("/Root", "/OCProperties", "/OCGs", 3), "fold and notes are on no page")

	require.Len(t, o.Outlines, 2)
	require.Equal(t, "floor", o.Outlines[0].Title)
	require.Equal(t, []string{"deck (Ø 4800)", "Łódź"}, []string{o.Outlines[0].Kids[0].Title, o.Outlines[0].Kids[1].Title})
	require.Equal(t, 651, o.Outlines[0].Kids[1].Page)
	require.Equal(t, 700, o.Outlines[1].Page)
}

// label is a page's label, some with what a string must escape and some beyond ASCII.
func label(i int) string {
	switch i % 50 {
	case 7:
		return fmt.Sprintf("face (%d) \\ é–Я", i)
	case 8:
		return ""
	}
	return fmt.Sprintf("floor %d%c", i/26+1, 'A'+i%26)
}

func TestBrowsersReadIt(t *testing.T) {
	doc := newRings(2, 2, 6).document()
	make := doc.Make
	doc.Make = func(i int, p *tiling.Page) {
		make(i, p)
		fold := p.Layers[drawing.Fold].Stroke(tiling.Pen{Width: 0.25})
		fold.Runs = append(fold.Runs, tiling.Run{Points: []geom.Point{pt(1, 1), pt(2, 2)}})
	}
	pdfium, pdfjs := reread.Browsers(t, write(t, doc))
	require.Len(t, pdfium.Sizes, doc.Pages)
	require.Len(t, pdfjs.Sizes, doc.Pages)
	for i := range doc.Pages {
		reread.SameSize(t, "PDFium", i+1, pdfium.Sizes[i], []reread.Size{{W: ringsW, H: ringsH}})
		reread.SameSize(t, "pdf.js", i+1, pdfjs.Sizes[i], []reread.Size{{W: ringsW, H: ringsH}})
		require.True(t, pdfium.Ink[i])
		require.Regexp(t, `^floor \d+[A-Z]$`, pdfjs.Labels[i])
	}
	require.Equal(t, "None", pdfjs.PrintScaling)
	require.Equal(t, []string{"cut", "fold", "registration", "furniture"}, pdfjs.Layers)
	require.Equal(t, []string{"floor"}, pdfjs.Titles)
}

// Pages of different sizes: ISO 216 (A4 portrait and landscape, A0), US Letter, a roll strip of 5 m.
func TestSizes(t *testing.T) {
	sizes := []reread.Size{{W: 210, H: 297}, {W: 297, H: 210}, {W: 841, H: 1189}, {W: 215.9, H: 279.4}, {W: 610, H: 5000}, {W: 210, H: 297}}
	doc := &tiling.Document{Pages: len(sizes), Make: func(i int, p *tiling.Page) {
		p.W, p.H = sizes[i].W, sizes[i].H
		s := p.Layers[drawing.Cut].Stroke(tiling.Pen{Width: 0.7})
		s.Runs = append(s.Runs, tiling.Run{Points: []geom.Point{pt(0, 0), pt(p.W, p.H)}})
	}}
	file := write(t, doc)
	reread.Check(t, file)
	reread.Opens(t, file, sizes...)
	for i, page := range reread.Trace(t, file, "1-N") {
		end := page.Paths[0].Subs[0].Points[1]
		require.InDelta(t, sizes[i].W, end.X, 0.02) // MuPDF prints six figures
		require.InDelta(t, sizes[i].H, end.Y, 0.02)
	}
}

func TestEveryReaderOpensTheRings(t *testing.T) {
	file := write(t, newRings(4, 3, 20).document())
	reread.Check(t, file)
	reread.Opens(t, file, reread.Size{W: ringsW, H: ringsH})
	require.Contains(t, reread.Text(t, file, 3), "FULL SIZE 1:1, measure both bars before use")
}

// limited takes so many bytes and then refuses.
type limited struct {
	left int
	err  error
}

func (l *limited) Write(b []byte) (int, error) {
	if l.left -= len(b); l.left < 0 {
		return 0, l.err
	}
	return len(b), nil
}

func TestWriteErrorsStopTheWork(t *testing.T) {
	full := errors.New("no space left on the disk")
	var made atomic.Int32
	doc := &tiling.Document{Pages: 100_000, Make: func(i int, p *tiling.Page) {
		made.Add(1)
		randomPage(uint64(i%50), p)
	}}
	for _, left := range []int{0, 1 << 20} {
		_, err := pdf.Write(&limited{left, full}, doc, pdf.Options{Workers: 3})
		require.ErrorIs(t, err, full)
	}
	require.Less(t, made.Load(), int32(5000))

	small := &tiling.Document{Pages: 1, Make: func(_ int, p *tiling.Page) { p.W, p.H = 210, 297 }}
	_, err := pdf.Write(&limited{10, full}, small, pdf.Options{})
	require.ErrorIs(t, err, full, "the last bytes count too")
}

func TestRefused(t *testing.T) {
	sized := func(w, h float64) *tiling.Document {
		return &tiling.Document{Pages: 1, Make: func(_ int, p *tiling.Page) { p.W, p.H = w, h }}
	}
	loop := &tiling.Form{W: 1, H: 1}
	through := &tiling.Form{W: 1, H: 1}
	through.Uses = []tiling.Use{{Form: loop}}
	loop.Uses = []tiling.Use{{Form: through}}
	astray := sized(210, 297)
	astray.Bookmarks = []tiling.Bookmark{{Title: "floor", Children: []tiling.Bookmark{{Title: "deck", Page: 1}}}}
	for want, doc := range map[string]*tiling.Document{
		"no pages":                             {},
		"page 1 is 0 by 297 mm":                sized(0, 297),
		"page 1 is 1e+300 by 297 mm":           sized(1e300, 297),
		`bookmark "deck" leads to page 2 of 1`: astray,
		"a form shows itself":                  one(func(p *tiling.Page) { p.Layers[0].Uses = []tiling.Use{{Form: loop}} }),
	} {
		_, err := pdf.Write(io.Discard, doc, pdf.Options{})
		require.ErrorContains(t, err, want)
	}
}
