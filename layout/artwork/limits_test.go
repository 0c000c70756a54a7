package artwork

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// refused reads a picture that is beyond a limit.
func refused(t *testing.T, svg, want string) {
	t.Helper()
	p, said := readText(svg)
	require.Nil(t, p)
	require.NotEmpty(t, said)
	require.Contains(t, strings.Join(said, "\n"), want)
}

func TestDepth(t *testing.T) {
	nest := func(n int) string { return head + strings.Repeat("<g>", n) + strings.Repeat("</g>", n) + "</svg>" }
	_, said := readText(nest(mostDepth - 1))
	require.Empty(t, said)
	refused(t, nest(mostDepth), "2:1534: error: elements stand more than 512 deep in each other")
	refused(t, head+strings.Repeat("<x:a xmlns:x='x'>", 5000), "more than 512 deep")
}

func TestElements(t *testing.T) {
	refused(t, head+strings.Repeat("<g/>", mostElements)+"</svg>", "more than 500000 elements")
}

// Each use shows ten of the one before: 10^9 in all.
func TestUsesOfUses(t *testing.T) {
	var b strings.Builder
	b.WriteString(head + `<g id="a0"><rect width="1" height="1"/></g>`)
	for i := range 9 {
		fmt.Fprintf(&b, `<g id="a%d">%s</g>`, i+1, strings.Repeat(fmt.Sprintf(`<use href="#a%d"/>`, i), 10))
	}
	refused(t, b.String()+"</svg>", "the picture uses parts again more than 100000 times")
}

func TestDepthThroughUse(t *testing.T) {
	var b strings.Builder
	b.WriteString(head + `<rect id="a0" width="1" height="1"/>`)
	for i := range 400 {
		fmt.Fprintf(&b, `<g id="a%d"><use href="#a%d"/></g>`, i+1, i)
	}
	refused(t, b.String()+"</svg>", "more than 512 deep in each other through use")
}

func TestPointsThroughUse(t *testing.T) {
	svg := head + `<path id="a" d="M0 0` + strings.Repeat("L1 2", 20_000) + `"/>` + strings.Repeat(`<use href="#a"/>`, 1000) + "</svg>"
	refused(t, svg, "more than 10000000 points")
}

// What draws nothing leaves no points, but reading it takes time.
func TestBytesThroughUse(t *testing.T) {
	svg := head + `<g id="a" class="` + strings.Repeat("deck ", 200_000) + `"/>` + strings.Repeat(`<use href="#a"/>`, 100) + "</svg>"
	refused(t, svg, "more than 64 MB are read again")
}

// Clip paths that are clipped by others, each by two.
func TestClipsOfClips(t *testing.T) {
	var b strings.Builder
	b.WriteString(head + `<clipPath id="c0" clipPathUnits="objectBoundingBox"><rect width="1" height="1"/></clipPath>`)
	for i := range 60 {
		fmt.Fprintf(&b, `<clipPath id="c%d" clipPathUnits="objectBoundingBox"><rect width=".95" height="1" transform="translate(.02)" clip-path="url(#c%d)"/><rect width=".9" height="1" transform="translate(.01)" clip-path="url(#c%d)"/></clipPath>`, i+1, i, i)
	}
	b.WriteString(`<rect width="9" height="9" clip-path="url(#c60)"/></svg>`)
	refused(t, b.String(), "more than")
}

func TestEntities(t *testing.T) {
	// Every entity is ten of the one before; they are put in once, as they stand.
	var b strings.Builder
	b.WriteString(`<!DOCTYPE svg [<!ENTITY a0 "low">`)
	for i := range 9 {
		fmt.Fprintf(&b, `<!ENTITY a%d "%s">`, i+1, strings.Repeat(fmt.Sprintf("&a%d;", i), 10))
	}
	b.WriteString("]>\n" + head + "<desc>&a9;</desc></svg>")
	p, said := readText(b.String())
	require.NotNil(t, p)
	require.Len(t, said, 9)
	require.Equal(t, `a.svg:1:43: error: entity "a1" stands for entity "a0" in turn, which is not put in [ART-LEFT]`, said[0])
	long := `<!DOCTYPE svg [<!ENTITY a "` + strings.Repeat("x", 100_000) + `">]>` + head + `<desc>` + strings.Repeat("&a;", 1000) + `</desc></svg>`
	refused(t, long, "1:1: error: the entities stand for more than 16 MB of text")
	p, said = readText(`<!DOCTYPE svg [<!ENTITY a SYSTEM "file:///etc/hosts">]>` + "\n" + head + `<desc>&a;</desc></svg>`)
	require.NotNil(t, p)
	require.Equal(t, []string{`a.svg:1:25: error: entity "a" stands outside the file and is left empty: nothing outside it is opened [ART-OUTSIDE]`}, said)
}

func TestCostlyStyleSheet(t *testing.T) {
	var b strings.Builder
	b.WriteString(head + "<style>")
	for range 3000 {
		b.WriteString("h g g g g g g g g * {fill:red}")
	}
	b.WriteString("</style>" + strings.Repeat("<g>", 300) + strings.Repeat("<rect/>", 300) + strings.Repeat("</g>", 300) + "</svg>")
	refused(t, b.String(), "the style sheets ask for too much work")
}

func TestHugeEmbeddedPicture(t *testing.T) {
	// A PNG header that claims 50000 × 50000 pixels (PNG, 2nd edition, section 11.2.2); its checksum is right.
	p, said := readText(head + `<image width="5" height="5" href="data:image/png;base64,iVBORw0KGgoAAAANSUhEUgAAw1AAAMNQCAYAAABLrz3K"/></svg>`)
	require.NotNil(t, p)
	require.Len(t, said, 1)
	require.Contains(t, said[0], "50000 × 50000 pixels")
}

// Each clip path cuts both areas of the next one down: 2^40 in all.
func TestClipsCutBySharedClips(t *testing.T) {
	clips := func(n int) string {
		var b strings.Builder
		b.WriteString(head + `<clipPath id="c0"><rect width="9" height="9"/></clipPath>`)
		for i := range n {
			fmt.Fprintf(&b, `<clipPath id="c%d"><rect width="5" height="9" clip-path="url(#c%d)"/><rect x="5" width="4" height="9" clip-path="url(#c%d)"/></clipPath>`, i+1, i, i)
		}
		fmt.Fprintf(&b, `<rect width="9" height="9" clip-path="url(#c%d)"/></svg>`, n)
		return b.String()
	}
	p, said := readText(clips(12))
	require.Empty(t, said)
	require.False(t, Bounds(p.Nodes[0]).Empty())
	refused(t, clips(40), "clip paths cut one another down more than 100000 times")
}

func TestEntitiesInEntities(t *testing.T) {
	_, said := readText("<!DOCTYPE svg [<!-- <!ENTITY b 'no'> -->\n<!ENTITY a 'deck'>\n<!ENTITY b '&a;&a;'>]>" + head + "<title>&b;</title><rect width='9' height='9'/></svg>")
	require.Len(t, said, 1)
	require.Contains(t, said[0], `error: entity "b" stands for entity "a" in turn, which is not put in`)
	_, said = readText("<!DOCTYPE svg [\n<!ENTITY a 'deck'>\n<!ENTITY b '&a;&a;'>]>" + head + "<rect width='9' height='9'/></svg>")
	require.Equal(t, []string{`a.svg:3:10: error: entity "b" stands for entity "a" in turn, which is not put in [ART-LEFT]`}, said)
}
