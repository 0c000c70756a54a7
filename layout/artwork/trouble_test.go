package artwork

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Every picture here begins with a line of its own, so that what is wrong stands in line 2.
const head = `<svg xmlns="http://www.w3.org/2000/svg" width="100" height="100">` + "\n"

func TestCautions(t *testing.T) {
	for _, c := range []struct{ body, want string }{
		{`<text x="5" y="9">Low Tide</text>`, "2:1: caution: text is not drawn, since the letters could come out as others [ART-TEXT]"},
		{`<g><text><tspan>Low</tspan></text></g>`, "2:4: caution: text is not drawn, since the letters could come out as others [ART-TEXT]"},
		{`<clipPath id="c"><text>x</text><rect width="99" height="99"/></clipPath><rect width="9" height="9" clip-path="url(#c)"/>`, "2:18: caution: text is not drawn, since the letters could come out as others [ART-TEXT]"},
		{`<path d="M1 1L2 x"/>`, "2:17: caution: the path is drawn up to here: 'x' where a number of L is wanted [ART-DATA]"},
		{`<path d="M1 1L2 1e30"/>`, "2:15: error: a coordinate beyond 10000000 in a path's data [ART-DATA]"},
		{`<path d="M1 1LNaN 5"/>`, "2:15: error: 'N' where a number of L is wanted in a path's data [ART-DATA]"},
		{`<polyline points="1 1 2 2 3"/>`, "2:19: caution: the points are wrong, or one has no partner; the line is drawn up to there [ART-DATA]"},
		{`<image width="5" height="5" href="../beach.png"/>`, `2:35: error: the picture "../beach.png" lies outside the file and is left out: nothing outside it is opened [ART-OUTSIDE]`},
		{`<image width="5" height="5" href="file:///etc/hosts"/>`, `2:35: error: the picture "file:///etc/hosts" lies outside the file and is left out: nothing outside it is opened [ART-OUTSIDE]`},
		{`<use href="other.svg#a"/>`, `2:12: error: "other.svg#a" lies outside the file and is left out: nothing outside it is opened [ART-OUTSIDE]`},
		{`<style>@import "a.css";</style>`, "2:1: error: a style sheet outside the file is left out: nothing outside it is opened [ART-OUTSIDE]"},
		{`<rect fill="url(b.svg#c)" width="1" height="1"/>`, `2:13: error: "b.svg#c" lies outside the file and is left out: nothing outside it is opened [ART-OUTSIDE]`},
		{`<use xlink:href="#a"/>`, `2:18: caution: nothing in the picture is named "a" [ART-LINK]`},
		{`<use href="#a"/>`, `2:12: caution: nothing in the picture is named "a" [ART-LINK]`},
		{`<g id="a"><use href="#a"/></g>`, `2:22: error: use of "#a" leads round in a circle and is left out [ART-LINK]`},
		{`<clipPath id="c"><rect width="9" height="9" clip-path="url(#c)"/></clipPath><rect width="9" height="9" clip-path="url(#c)"/>`, `2:56: caution: the clip path "#c" leads round in a circle; nothing is cut off by it [ART-LINK]`},
		{`<linearGradient id="a" href="#b"/><linearGradient id="b" href="#a"/><rect width="9" height="9" fill="url(#a)"/>`, `2:30: caution: the gradient "a" leads round in a circle [ART-LINK]`},
		{`<rect width="9" height="9" fill="greenish"/>`, `2:34: caution: fill "greenish" is no paint that is read here; it is left out [ART-VALUE]`},
		{`<rect width="9" height="9" style="fill:greenish"/>`, `2:35: caution: fill "greenish" is no paint that is read here; it is left out [ART-VALUE]`},
		{`<rect width="9furlong" height="9"/>`, `2:14: caution: width "9furlong" is no length that is read here; it is left out [ART-VALUE]`},
		{`<rect width="1e30" height="9"/>`, `2:14: caution: width "1e30" is no length that is read here; it is left out [ART-VALUE]`},
		{`<rect width="1e10" height="9"/>`, `2:1: error: this outline lies out of reach (beyond 10 km) and is left out [ART-VALUE]`},
		{`<g transform="scale(1e11)"><g transform="scale(1e11)"/></g>`, `2:42: error: the transform takes everything out of reach; nothing of it is drawn [ART-VALUE]`},
		{`<rect width="9" height="9" transform="turn(5)"/>`, `2:39: caution: transform "turn(5)" is not read [ART-VALUE]`},
		{`<path d="M0 0H90" stroke="red" stroke-dasharray="1e-5"/>`, `2:50: caution: the line would have more than 100000 dashes; it is drawn without gaps [ART-VALUE]`},
		{`<rect width="9" height="9" filter="url(#f)"/>`, `2:36: caution: filter is left out; the rest is drawn without it [ART-LEFT]`},
		{`<rect width="9" height="9" style="mask:url(#f)"/>`, `2:35: caution: nothing in the picture is named "f" [ART-LINK]`},
		{`<mask id="f"><rect width="9" height="9" mask="url(#f)"/></mask><rect width="9" height="9" mask="url(#f)"/>`, `2:47: caution: the mask "#f" leads round in a circle; nothing is masked by it [ART-LINK]`},
		{`<pattern id="p" width="1" height="1"><rect width="9" height="9" fill="url(#p)"/></pattern><rect width="9" height="9" fill="url(#p)"/>`, `2:71: caution: the pattern leads round in a circle and is left out [ART-LINK]`},
		{`<pattern id="p" width="1e-4" height="1e-4"><rect width="9" height="9"/></pattern><rect width="9" height="9" fill="url(#p)"/>`, `2:115: caution: the pattern would be laid more than 10000 times; it is left out [ART-VALUE]`},
		{`<marker id="m"><path d="M0 0H9" marker-end="url(#m)"/></marker><path d="M0 0H9" stroke="red" marker-end="url(#m)"/>`, `2:16: caution: "#m" is no marker that can be drawn here [ART-LINK]`},
		{`<path d="M0 0H9" marker-end="url(#m)"/>`, `2:1: caution: nothing in the picture is named "m" [ART-LINK]`},
		{`<pattern id="p"/><rect width="9" height="9" stroke="url(#p)"/>`, `2:53: caution: "#p" is a pattern, with which nothing is painted here [ART-LEFT]`},
		{`<style>a:nth-child(2){fill:red}</style>`, `2:1: caution: the style for "a:nth-child(2)" is left out: such a selector is not read here [ART-LEFT]`},
		{`<image width="5" height="5" href="data:image/gif;base64,R0lGODlh"/>`, "2:35: caution: this embedded picture is neither PNG nor JPEG and is left out [ART-LEFT]"},
		{`<image width="5" height="5" href="data:image/png;base64,%%%"/>`, "2:35: caution: this embedded picture cannot be read and is left out [ART-VALUE]"},
		{`<image width="5" height="5" href="data:image/png;base64,iVBORw0KGgo="/>`, "2:35: error: this embedded picture cannot be read: PNG, byte 8: the file ends in the middle of a chunk's head [ART-VALUE]"},
		{`<svg viewBox="0 0 1"/>`, `2:15: caution: viewBox "0 0 1" is not read: it is four numbers, of which the last two are not below 0 [ART-VALUE]`},
	} {
		p, said := readText(head + c.body + "\n<rect x='50' width='5' height='5'/></svg>")
		require.Equal(t, []string{"a.svg:" + c.want}, said, c.body)
		require.NotNil(t, p)
		require.NotEmpty(t, p.Nodes, "the rest is drawn: %s", c.body)
	}
}

func TestHiddenTextIsNoTrouble(t *testing.T) {
	_, said := readText(head + `<text display="none">a</text><text visibility="hidden">b</text><g style="display:none"><text>c</text></g><text> </text><defs><text>d</text></defs></svg>`)
	require.Empty(t, said)
}

func TestErrors(t *testing.T) {
	ns := `<svg xmlns="http://www.w3.org/2000/svg" `
	for _, c := range []struct{ svg, want string }{
		{"", "1:1: error: there is no picture in this file"},
		{"\x1f\x8b\x08", "1:1: error: the picture is packed (SVGZ), which is not read here"},
		{"Low Tide", "1:1: error: there is no picture in this file"},
		{"\n<html/>", "2:1: error: the outermost element of an SVG picture is svg, not \"html\""},
		{head + `<g><rect`, "2:9: error: the picture breaks off here: the file is not whole"},
		{head + `<g><rect/></g>`, "2:15: error: the picture breaks off here: the file is not whole"},
		{head + `<g></h></svg>`, "2:7: error: this is not XML that can be read: element <g> closed by </h>"},
		{head + `<g>&later;</g></svg>`, "2:10: error: this is not XML that can be read: invalid character entity &later;"},
		{ns + "\nviewBox='0 0 0 50'/>", "2:10: error: the picture's viewBox has no size"},
		{ns + "\nwidth='0' height='5'/>", "2:8: error: the picture's width is not more than 0"},
		{ns + "\nwidth='5' height='-5'/>", "2:19: error: the picture's height is not more than 0"},
		{ns + "\nwidth='1e9' height='1e9'/>", "1:1: error: the picture's size is out of reach"},
		{`<?xml version="1.0" encoding="utf-16"?><svg/>`, "1:1: error: the picture is written in letters that are not read here"},
	} {
		p, said := readText(c.svg)
		require.Nil(t, p, c.svg)
		require.Equal(t, []string{"a.svg:" + c.want}, said, c.svg)
	}
}

func TestPictureWithoutSize(t *testing.T) {
	p, said := readText(`<svg xmlns="http://www.w3.org/2000/svg"><rect x="96" y="96" width="96" height="48"/></svg>`)
	require.Equal(t, []string{"a.svg:1:1: caution: the picture does not say its size; what is drawn in it is taken for its frame [ART-VALUE]"}, said)
	require.InDelta(t, 25.4, p.W, 1e-9)
	require.InDelta(t, 12.7, p.H, 1e-9)
	require.InDelta(t, 0, p.Nodes[0].(*Shape).Paths[0].Bounds().Min.Len(), 1e-9)
	p, said = readText(`<svg xmlns="http://www.w3.org/2000/svg"/>`)
	require.Nil(t, p)
	require.Len(t, said, 2)
	require.Contains(t, strings.Join(said, "\n"), "nothing drawn in it to take one from")
}

func TestOtherLettersKeepTheirPlaces(t *testing.T) {
	p, said := readText(`<?xml version="1.0" encoding="ISO-8859-1"?>` + "\n" + `<svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><title>` + "Eb\xf6e\xfc" + `</title><text>x</text><rect width="5" height="5"/></svg>`)
	require.Len(t, p.Nodes, 1)
	require.True(t, strings.HasPrefix(said[0], "a.svg:2:"), said[0])
}

func TestByteOrderMark(t *testing.T) {
	p, said := readText("\ufeff" + `<?xml version="1.0" encoding="UTF-8"?><svg xmlns="http://www.w3.org/2000/svg" width="9" height="9"><rect width="5" height="5"/></svg>`)
	require.Empty(t, said)
	require.Len(t, p.Nodes, 1)
}

func TestManyCautionsEnd(t *testing.T) {
	_, said := readText(head + strings.Repeat("<text>x</text>\n", 5000) + "</svg>")
	require.Len(t, said, mostCautions)
	require.Contains(t, said[mostCautions-1], "more is wrong")
}
