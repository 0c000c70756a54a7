package artwork

import (
	"bytes"
	"encoding/base64"
	"image"
	"image/jpeg"
	"image/png"
	"net/url"
	"strings"
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
	pw, ph := float64(img.Width), float64(img.Height)
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
	img.Frame = Matrix{A: pw, D: -ph, F: ph}.Then(fit.fit(box{0, 0, pw, ph}, at)).Then(c.frame)
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

// embedded reads the bytes of a picture that stands in the file as a data: link; nil where it cannot be used.
func (r *reader) embedded(e *element, link string) *Image {
	at := r.place(e, "href")
	if len(link) < 5 || !strings.EqualFold(link[:5], "data:") {
		r.fault(at, codeOutside, "embed the picture (in the drawing program: embed, not link) and export again", "the picture %s lies outside the file and is left out: nothing outside it is opened", quote(link))
		return nil
	}
	data, ok := dataOf(link[5:])
	if !ok {
		r.caution(at, codeValue, "", "this embedded picture cannot be read and is left out")
		return nil
	}
	img := &Image{Data: data}
	var config image.Config
	var err error
	switch {
	case bytes.HasPrefix(data, []byte("\x89PNG\r\n\x1a\n")):
		config, err = png.DecodeConfig(bytes.NewReader(data))
	case bytes.HasPrefix(data, []byte{0xff, 0xd8, 0xff}):
		img.Format = JPEG
		config, err = jpeg.DecodeConfig(bytes.NewReader(data))
	default:
		r.caution(at, codeLeft, "embed it as PNG or JPEG", "this embedded picture is neither PNG nor JPEG and is left out")
		return nil
	}
	if err != nil || config.Width < 1 || config.Height < 1 {
		r.caution(at, codeValue, "", "the beginning of this embedded picture is wrong; it is left out")
		return nil
	}
	img.Width, img.Height = config.Width, config.Height
	if config.Width > mostPixels/config.Height {
		r.caution(at, codeValue, "", "this embedded picture has %d × %d pixels; more than 100 million are not read", config.Width, config.Height)
		return nil
	}
	return img
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
