package pdf_test

import (
	"bytes"
	"testing"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/stretchr/testify/require"

	"markout/layout/drawing"
	"markout/layout/geom"
	"markout/render/pdf"
	"markout/tiling"
)

// Whatever the words and numbers, the file is one that the general library pdfcpu reads and finds valid, of one page, and the same
// every time.
func FuzzWrite(f *testing.F) {
	f.Add("floor 3C", "Low Tide", 20.0, 3.5, 90.0)
	f.Add("(\\)\x00\r\n\xfe\xff", "endstream endobj", -1e300, 1e-3, 33.3)
	f.Add("\U0010ffff\ud7ff海", "%PDF-1.7", 1e9, 1e9, 1e18)
	api.DisableConfigDir()
	f.Fuzz(func(t *testing.T, words, title string, x, height, turn float64) {
		doc := &tiling.Document{
			Title: title, Subject: words, Date: title, Pages: 1,
			Bookmarks: []tiling.Bookmark{{Title: words, Children: []tiling.Bookmark{{Title: title}}}},
			Make: func(_ int, p *tiling.Page) {
				p.W, p.H, p.Label = 210, 297, words
				c := &p.Layers[drawing.Notes]
				c.Texts = append(c.Texts, tiling.Text{At: pt(x, height), Height: height, Turn: turn, Text: words, Bold: true}, tiling.Text{At: pt(height, x), Height: 3.5, Turn: turn, Text: title})
				s := c.Stroke(tiling.Pen{Width: height, Dash: []float64{x, turn}, Tone: drawing.Tone(turn)})
				s.Runs = append(s.Runs, tiling.Run{Points: []geom.Point{pt(x, turn), pt(turn, height)}, Phase: turn})
				p.Clip = geom.EmptyRect().Include(pt(x, height)).Include(pt(turn, turn))
			},
		}
		var a, b bytes.Buffer
		_, err := pdf.Write(&a, doc, pdf.Options{Workers: 1})
		require.NoError(t, err)
		_, err = pdf.Write(&b, doc, pdf.Options{Workers: 2})
		require.NoError(t, err)
		require.True(t, bytes.Equal(a.Bytes(), b.Bytes()))
		conf := model.NewDefaultConfiguration()
		require.NoError(t, api.Validate(bytes.NewReader(a.Bytes()), conf))
		pages, err := api.PageCount(bytes.NewReader(a.Bytes()), conf)
		require.NoError(t, err)
		require.Equal(t, 1, pages)
	})
}
