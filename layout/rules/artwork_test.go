package rules

import (
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/set"
)

// readOtherwise is a set of a figure and a cloth of one picture, of which a reader has said everything there is.
func readOtherwise() *set.Set {
	const text = "<svg>\n  <text x=\"3\" y=\"9\">Low Tide</text>\n</svg>\n"
	s := of(
		element("pilot", &set.Figure{Art: &set.Artwork{File: "art/pilot.svg"}, Bodies: []geom.Region{{Outer: rectAt(0, 0, 900, 900)}}, Width: 900, Height: 900, Thickness: 400}, place(0, 0, 0, 0)),
		element("harbour", &set.Cloth{Art: &set.Artwork{File: "art/pilot.svg"}, Width: 900, Height: 900}, place(0, 0, 0, 0)),
	)
	s.Sources = &diag.Sources{}
	at := diag.Span{File: s.Sources.Add("art/pilot.svg", []byte(text)), From: 8, To: 28}
	for _, c := range artworkCodes {
		s.Said = append(s.Said, diag.Diagnostic{Span: at, Severity: diag.Caution, Code: c.Code, Message: "text is not drawn", Hint: "convert it to outlines"})
	}
	return s
}

func TestArtworkReadOtherwise(t *testing.T) {
	s := readOtherwise()
	got := Check(s)
	require.Len(t, got, len(artworkCodes))
	for _, c := range got {
		require.Equal(t, "pilot", c.Element)
		require.Equal(t, "text is not drawn: convert it to outlines", c.Message)
		require.Equal(t, `<text x="3" y="9">Lo`, c.Figure)
		require.Equal(t, "art/pilot.svg:2:3", s.Sources.Position(c.Span).String())
	}
	// What is said of a file that no element is made of stands nowhere.
	s.Elements = nil
	require.Empty(t, Check(s))
	// A picture made of pixels is no text: what is said of it stands at its name.
	s = readOtherwise()
	at := diag.Span{File: s.Sources.Add("main", []byte(`artwork "sea.jpg"`)), From: 8, To: 17}
	s.Elements[1].Shape.(*set.Cloth).Art = &set.Artwork{File: "sea.jpg", Span: at}
	s.Said = []diag.Diagnostic{{Span: at, Severity: diag.Caution, Code: "ART-PIXELS", Message: "inks are turned into colours"}}
	got = Check(s)
	require.Len(t, got, 1)
	require.Equal(t, "harbour", got[0].Element)
	require.Equal(t, `"sea.jpg"`, got[0].Figure)
}
