package rules

import (
	"strings"

	"markout/layout/diag"
	"markout/layout/set"
)

// artwork takes over what the readers of artwork said of their files, at its place in the file: each under the first element
// that is made of the file.
func (c *checker) artwork() {
	for _, d := range c.set.Said {
		e := c.madeOf(d)
		if e == nil {
			continue
		}
		code, _ := Find(d.Code)
		message := d.Message
		if d.Hint != "" {
			message += ": " + d.Hint
		}
		c.note(c.order[e.Name], e.Name, d.Span, finding{code: d.Code, figure: c.wordsAt(d.Span), limit: "all of it, as it stands", source: code.Source}, message)
	}
}

// madeOf returns the first element that is made of the file in which a caution stands, or that names it there.
func (c *checker) madeOf(d diag.Diagnostic) *set.Element {
	file := c.set.Sources.Name(d.Span.File)
	for _, e := range c.set.Elements {
		var art *set.Artwork
		switch sh := e.Shape.(type) {
		case *set.Figure:
			art = sh.Art
		case *set.Cloth:
			art = sh.Art
		}
		if art != nil && (art.File == file || art.Span == d.Span) {
			return e
		}
	}
	return nil
}

// wordsAt returns the words at a place of the text, short.
func (c *checker) wordsAt(sp diag.Span) string {
	const most = 40
	text := c.set.Sources.Text(sp.File)
	if int(sp.To) > len(text) || sp.From >= sp.To {
		return c.set.Sources.Position(sp).String()
	}
	words := []rune(strings.Join(strings.Fields(string(text[sp.From:sp.To])), " "))
	if len(words) > most {
		words = append(words[:most], '…')
	}
	return string(words)
}

// svg is what SVG pictures are drawn by.
const svg = "SVG 1.1, second edition, 2011, and SVG 2 where it is newer; CSS selectors level 3"

// artworkCodes are the codes of what artwork is read otherwise than it stands, by name.
var artworkCodes = []Code{
	{"ART-DATA", "wrong path data in artwork",
		"The data of a path, or a list of points, is wrong somewhere. It is drawn up to there, as the standard asks, and what follows is missing. Open the picture in the drawing program, look at " +
			"the path and export it again.",
		"SVG 1.1, second edition, appendix F.2, error processing; SVG 2, 9.5.4"},
	{"ART-LEFT", "something in artwork that is not drawn",
		"The picture asks for something that is not drawn here: a filter, blending, a pattern along a line, a style by a rare selector. The rest is drawn without it. Flatten it to outlines or to a " +
			"picture made of pixels in the drawing program, and export again.",
		svg},
	{"ART-LINK", "a reference in artwork that leads nowhere",
		"Something in the picture refers to a part by a name that no part of it has, to a part of the wrong kind, or round in a circle. What refers there is drawn without it, or left out.",
		svg},
	{"ART-OUTSIDE", "something of artwork that lies outside its file",
		"The picture refers to what lies outside the set's folder, or to a style sheet or a part of a drawing in another file. Of other files only PNG and JPEG pictures in the set's folder are " +
			"opened, by a path from the drawing; nothing is fetched. Embed it in the drawing program, or put it beside the drawing, and export again.",
		svg},
	{"ART-PIXELS", "a picture made of pixels that is read otherwise than it stands",
		"A PNG or JPEG file has something that a person should know before it is printed: printing inks that are turned into red, green and blue by the plain formula, or a part that is passed over. " +
			"Look at the print's colours, or save the picture as RGB.",
		"ISO/IEC 15948 (PNG), ITU-T T.81 (JPEG), Exif 2.3"},
	{"ART-TEXT", "lettering in artwork",
		"Text in an SVG picture is set in whatever font a machine has, so that the letters could come out as others, in another width. It is not drawn. Convert text to outlines (paths) in the " +
			"drawing program and export again.",
		svg},
	{"ART-VALUE", "a value in artwork that is not read",
		"A number, a length, a colour or a transform in the picture cannot be read, or lies out of reach. What depends on it is drawn without it, or left out.",
		svg},
}
