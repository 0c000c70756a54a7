package artwork

import (
	"bytes"
	"encoding/base64"
	"errors"
	"net/url"
	"strings"

	"markout/layout/diag"
	"markout/layout/pixels"
)

// mostPixels is the greatest embedded picture: to be printed it may have to be decoded whole.
const mostPixels = 100_000_000

// drawImage draws an embedded picture.
func (r *reader) drawImage(e *element, d *declared, c context) []Node {
	link := e.href()
	if link == "" || c.style.hidden {
		return nil
	}
	first, known := r.images[e]
	if !known {
		first = r.embedded(e, link)
		r.images[e] = first
	}
	if first == nil {
		return nil
	}
	img := &Image{Data: first.Data, Format: first.Format, Width: first.Width, Height: first.Height, Pixels: first.Pixels}
	w, h := img.Pixels.Upright()
	pw, ph := float64(w), float64(h)
	m := measures{valueReader{r, e, d}, c}
	at := m.usedSize(box{})
	gaveW, gaveH := at.w > 0, at.h > 0
	switch {
	case !m.given(pWidth) && !m.given(pHeight) || d[pWidth] == "auto" && d[pHeight] == "auto":
		at.w, at.h = pw, ph
	case !gaveH && (!m.given(pHeight) || d[pHeight] == "auto"):
		at.h = at.w * ph / pw
	case !gaveW && (!m.given(pWidth) || d[pWidth] == "auto"):
		at.w = at.h * pw / ph
	}
	if !(at.w > 0 && at.h > 0) {
		return nil
	}
	at.x, at.y = m.get(pX, c.view.w, false), m.get(pY, c.view.h, false)
	fit := parseAspect(e.attr("preserveAspectRatio"))
	img.Frame = upright(img.Pixels).Then(fit.fit(box{0, 0, pw, ph}, at)).Then(c.frame)
	img.Opacity, img.Crisp, img.Span = 1, c.style.crisp, r.tag(e)
	if _, ok := img.Frame.Inverse(); !ok {
		return nil
	}
	for _, corner := range squareCorners {
		if !inReach(img.Frame.Apply(corner)) {
			r.fault(r.tag(e), codeValue, "", "this picture lies out of reach and is left out")
			return nil
		}
	}
	nodes := []Node{img}
	if fit.slice {
		return r.cropped(e, c.frame, at, nodes)
	}
	return nodes
}

// embedded reads the picture that stands in the file as a data: link, or beside it; nil where it cannot be used.
func (r *reader) embedded(e *element, link string) *Image {
	at := r.place(e, "href")
	if len(link) < 5 || !strings.EqualFold(link[:5], "data:") {
		return r.beside(at, link)
	}
	data, ok := dataOf(link[5:])
	if !ok {
		r.caution(at, codeValue, "", "this embedded picture cannot be read and is left out")
		return nil
	}
	if _, ok := formatOf(data); !ok {
		r.caution(at, codeLeft, "embed it as PNG or JPEG", "this embedded picture is neither PNG nor JPEG and is left out")
		return nil
	}
	return r.pixels(at, "this embedded picture", data)
}

// pixels reads the headers of a picture made of pixels, which messages call what.
func (r *reader) pixels(at diag.Span, what string, data []byte) *Image {
	format, _ := formatOf(data)
	p, err := pixels.Open(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		hint := ""
		if e := (*pixels.Error)(nil); errors.As(err, &e) {
			hint = e.Hint
			err = &pixels.Error{Format: e.Format, At: e.At, What: e.What}
		}
		r.fault(at, codeValue, hint, "%s cannot be read: %s", what, err)
		return nil
	}
	if p.Width > mostPixels/p.Height {
		r.fault(at, codeValue, "make it smaller", "%s has %d × %d pixels; more than 100 million are not read", what, p.Width, p.Height)
		return nil
	}
	for _, note := range p.Notes {
		r.caution(at, CodePixels, "", "%s", note)
	}
	return &Image{Data: data, Format: format, Width: p.Width, Height: p.Height, Pixels: p}
}

// formatOf tells a picture's format by its first bytes.
func formatOf(data []byte) (f Format, ok bool) {
	switch {
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		return PNG, true
	case bytes.HasPrefix(data, []byte{0xff, 0xd8, 0xff}):
		return JPEG, true
	}
	return 0, false
}

// dataOf decodes what follows data: in a link (RFC 2397).
func dataOf(text string) ([]byte, bool) {
	kind, body, ok := strings.Cut(text, ",")
	if !ok {
		return nil, false
	}
	if strings.Contains(body, "%") {
		plain, err := url.PathUnescape(body)
		if err != nil {
			return nil, false
		}
		body = plain
	}
	if !strings.HasSuffix(strings.ToLower(strings.TrimSpace(kind)), ";base64") {
		return []byte(body), true
	}
	body = strings.Map(func(c rune) rune {
		if c == ' ' || c == '\t' || c == '\n' || c == '\r' {
			return -1
		}
		return c
	}, body)
	data, err := base64.RawStdEncoding.DecodeString(strings.TrimRight(body, "="))
	return data, err == nil
}
