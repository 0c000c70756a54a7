package layout_test

import (
	"bytes"
	"image"
	"image/png"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
)

// wrongArt is wrong for texts that name artwork.
func wrongArt(t *testing.T, text string, more texts, want ...string) {
	t.Helper()
	clean, spans := marked(text)
	_, list := openArtList(clean, more)
	got := list.Sorted()
	require.Len(t, got, len(want), printed(list))
	for i, d := range got {
		message, hint, _ := strings.Cut(want[i], "|")
		require.Contains(t, d.Message, message, printed(list))
		require.Contains(t, d.Hint, hint, printed(list))
		require.Equal(t, spans[i], [2]int{int(d.Span.From), int(d.Span.To)}, printed(list))
	}
}

func TestArtErrors(t *testing.T) {
	figure := func(more ...string) string {
		return lines("figure f", append([]string{`artwork "bar.png"`, "height 1780"}, more...)...)
	}
	cloth := func(more ...string) string {
		return lines("cloth c", append([]string{`artwork "upright.svg"`}, more...)...)
	}
	artwork := func(name string) string { return lines("figure f", "artwork "+name, "height 1780") }
	for name, c := range map[string]struct{ text, want string }{
		"no artwork":        {lines("figure «f»", "height 1780"), "`f` needs its `artwork`|write `artwork \"pilot.svg\"`"},
		"no height":         {lines("figure «f»", `artwork "bar.png"`), "`f` needs its `height`|write `height 1780`"},
		"no such file":      {artwork(`«"pilot.svg"»`), "cannot read pilot.svg: there is no such file"},
		"not by slashes":    {artwork(`«"a\\b.svg"»`), "a picture is named by its path from this file's folder|write `artwork \"pilot.svg\"`"},
		"no name":           {artwork(`«""»`), "a picture is named by its path"},
		"a text":            {artwork(`«"words.txt"»`), "cannot read words.txt: byte 0: the first bytes are neither those of a PNG nor of a JPEG|save it as PNG or JPEG"},
		"a photograph":      {artwork(`«"a.heic"»`), "byte 0: this is a HEIC, as telephones take them|export it as JPEG"},
		"broken off":        {artwork(`«"half.png"»`), "cannot read half.png: PNG, byte 16: the picture claims 100 × 160 pixels, which cannot be in a file of 40 bytes|save it again"},
		"empty":             {artwork(`«"empty.png"»`), "cannot read empty.png: byte 0: the file is empty|artwork is SVG, PNG or JPEG"},
		"nothing drawn":     {artwork(`«"bare.svg"»`), "bare.svg: nothing of the picture stands out|nothing in it is painted"},
		"nothing stands":    {artwork(`«"even.png"»`), "even.png: nothing of the picture stands out|`background light`"},
		"height 0":          {lines("figure f", `artwork "bar.png"`, "height «0»"), "`height` is more than 0, and this is 0 mm"},
		"ground below":      {figure("ground «-5»"), "`ground` is not less than 0, and this is -5 mm"},
		"eye above":         {figure("eye «1781»"), "the eyes are at 1781 mm, above the figure's own height of 1780 mm"},
		"facing up":         {figure("facing «up»"), "`left`, `right` or `front` is wanted here"},
		"head of all":       {figure("show head «1780»"), "the head is 1780 mm long, and the whole figure 1780 mm"},
		"head without eyes": {figure("«show head»"), "how far the head of `f` reaches down is not known|give its eye line, `eye 1660`"},
		"look without eyes": {figure("«look at 0, 0»"), "where the eyes of `f` are is not known|give its eye line, `eye 1660`"},
		"look at nobody":    {figure("eye 1660", "look at «g»"), "there is no `g`"},
		"look at itself":    {figure("eye 1660", "look at «f»"), "`f` cannot look into its own eyes"},
		"look at a blind":   {figure("eye 1660", "look at «g»") + lines("figure g", `artwork "bar.png"`, "height 900"), "where the eyes of `g` are is not known|give its eye line: `eye 1660`"},
		"look and level":    {figure("eye 1660", "look at g level «900»") + lines("figure g", `artwork "bar.png"`, "height 900", "eye 800"), "how high the eyes of `g` are is known|leave `level` out"},
		"look at a post":    {figure("eye 1660", "look at «p»") + lines("post p", "diameter 60", "height 900"), "`p` is a piece, and one place of it is wanted here|say which: `p.centre`"},
		"within plain":      {figure("within «1»"), "`within` wants a number of pixels, and this is a plain number|write `1px`"},
		"within mm":         {figure("within «1mm»"), "`within` wants"},
		"within far":        {figure("within «200px»"), "an outline keeps within 0.1 to 100 pixels of the edge|write `within 1px`"},
		"background share":  {figure("background light «2»"), "a background ends at a share between 0 and 1, and this is 2"},
		"background word":   {figure("background «blue»"), "is wanted here"},
		"margin below":      {figure("margin «-1»"), "`margin` is not less than 0"},
		"braced on a wall":  {lines("flat w", "from 0, 0 to 3000, 0", "height 2400") + figure("on w at 1500 level 100", "«brace»"), "a figure on a wall's face has no brace|leave `brace` out"},
		"unknown":           {figure("«hieght» 3"), "`figure` takes no `hieght`|did you mean `height`?"},
		"places":            {figure() + lines("mark m", "point f.«front»"), "`f` has no place `front`|places of `f` are: centre, start, end"},

		"cloth of no size":  {lines("cloth «c»", `artwork "upright.svg"`), "`c` needs its `width` or its `height`|the other follows from the artwork"},
		"two proportions":   {cloth("width 2000", "«height 1000»"), "the cloth is 2 times as wide as it is high, and its artwork 1 times|`fit whole`, `fit fill` or `fit stretch`"},
		"within and width":  {cloth("within 2000 x 1000", "«width 900»"), "`within` and `width` do not go together"},
		"crop outside":      {cloth("width 900", "«crop from 300, 0 size 200 x 10»"), "this part does not lie in the artwork, which is 400 by 400 mm"},
		"crop of pixels":    {lines("cloth c", `artwork "even.png"`, "width 900", "crop from «10mm», 0"), "a part of this artwork is measured in pixels|write plain numbers"},
		"crop of three":     {cloth("width 900", "crop from 0, 0 size «1 x 2 x 3»"), "a part has a width and a height"},
		"allow nothing":     {cloth("width 900", "«allow»"), "`allow` says where and how much|write `allow top 100"},
		"allow less":        {cloth("width 900", "allow top «-5»"), "`top` is not less than 0"},
		"grid too close":    {cloth("width 900", "grid «1»"), "a grid of 1 mm is too close for a cloth of 900 mm by 900 mm"},
		"fine grid off":     {cloth("width 900", "grid 100 fine 20 in 400, 0 size «200 x 100»"), "this part does not lie on the cloth"},
		"dots too close":    {cloth("width 900", "pounce «1»"), "dots 1 mm apart run into one another|at least 3 mm are wanted"},
		"cloth of no width": {cloth("width «0»"), "`width` is more than 0, and this is 0 mm"},
		"too large":         {cloth("width «20000m»"), "this is more than 10 km, the limit"},
	} {
		t.Run(name, func(t *testing.T) {
			wrongArt(t, c.text, texts{
				"words.txt": "pilot", "a.heic": "\x00\x00\x00\x18ftypheic0000", "half.png": paint("png", false)[:40], "empty.png": "",
				"bare.svg": svg(9, 9, "<g/>"), "even.png": even(),
			}, c.want)
		})
	}
}

// What is wrong with artwork is said once, at the first piece that names it; what is wrong in a drawing stands in the drawing.
func TestArtworkIsWrongOnce(t *testing.T) {
	two := lines("figure f", `artwork «"a.png"»`, "height 1780") + lines("figure g", `artwork "a.png"`, "height 900")
	wrongArt(t, two, nil, "cannot read a.png: there is no such file")
	_, list := openArtList(lines("figure f", `artwork "a.svg"`, "height 1780"), texts{"a.svg": "<svg width=\"9\" height=\"9\">\n <g></svg>"})
	require.Contains(t, printed(list), "a.svg:2:")
	// The rest of the set stands all the same.
	clean, _ := marked(two)
	s, _ := openArtList(clean+deck, nil)
	require.NotNil(t, s.Find("deck"))
	require.Nil(t, s.Find("f"))
}

const listText = "figure from \"figures.csv\"\n    thickness 9\n"

func TestFiguresFromAList(t *testing.T) {
	more := texts{"figures.csv": "\ufeffname,artwork,height,eye,at,turn,hung,note\r\nheron,bar.png,900,850,\"1200, 600\",30deg,,\"tall, thin\"\r\ngull,bar.png,5'-6\",,deck.centre,,yes,\r\n"}
	s := openArt(t, deck+listText, more)
	heron, gull := s.Find("heron"), s.Find("gull")
	require.Equal(t, 900.0, figureOf(t, s, "heron").Height)
	require.Equal(t, 9.0, figureOf(t, s, "gull").Thickness)
	require.InDelta(t, 66*25.4, figureOf(t, s, "gull").Height, 1e-9)
	require.True(t, figureOf(t, s, "gull").Hung)
	require.Equal(t, []string{"tall, thin"}, heron.Notes)
	require.Equal(t, "figures.csv:3:1", s.Sources.Position(gull.NameSpan).String())
	require.Equal(t, []string{"main.markout", "figures.csv", "bar.png"}, []string{s.Files[0].Name, s.Files[1].Name, s.Files[2].Name})
	// A change of this run reaches a row as it does a piece of the text.
	s = openArt(t, deck+listText, more, "heron.height=950", "gull.thickness=12")
	require.Equal(t, 950.0, figureOf(t, s, "heron").Height)
	require.Equal(t, 12.0, figureOf(t, s, "gull").Thickness)
	require.Equal(t, 9.0, figureOf(t, s, "heron").Thickness)
}

func TestFiguresFromAListErrors(t *testing.T) {
	for name, c := range map[string]struct{ csv, want string }{
		"value":       {"name,artwork,height,turn\na,bar.png,900,30\n", "figures.csv:2:15: error: `turn` wants an angle, and this is a plain number"},
		"missing":     {"name,artwork,height\na,bar.png,\n", "figures.csv:2:1: error: `a` needs its `height`"},
		"artwork":     {"name,artwork,height\na,flug.svg,900\n", "figures.csv:2:3: error: cannot read flug.svg: there is no such file"},
		"twice":       {"name,artwork,height\na,bar.png,900\na,bar.png,800\n", "figures.csv:3:1: error: `a` is a name already; the first is at figures.csv:2:1"},
		"of the text": {"name,artwork,height\ndeck,bar.png,900\n", "figures.csv:2:1: error: `deck` is a name already; the first is at main.markout:1:10"},
		"semicolons":  {"name;artwork;height\na;bar.png;900\n", "figures.csv:1:1: error: the columns are parted by semicolons, and commas are wanted"},
		"column":      {"name,artwork,hieght\na,bar.png,900\n", "figures.csv:1:14: error: `figure` takes no `hieght`"},
		"check":       {"name,artwork,height,eye\na,bar.png,900,950\n", "figures.csv:2:15: error: the eyes are at 950 mm, above the figure's own height of 900 mm"},
	} {
		_, list := openArtList(deck+listText, texts{"figures.csv": c.csv})
		require.Len(t, list.Sorted(), 1, "%s %s", name, printed(list))
		require.Contains(t, printed(list), c.want, name)
	}
	_, list := layout.Open(texts{"m": listText + "mark m\n    point a.centre\n"}, "m", layout.Options{})
	require.Contains(t, printed(list), "m:1:13: error: cannot read figures.csv: there is no such file")
	// A piece of a list whose header is wrong is no second error where it is named.
	_, list = openArtList(listText+lines("mark m", "point a.centre"), texts{"figures.csv": "name,artwork,hieght\na,bar.png,900\n"})
	require.Len(t, list.Sorted(), 1, printed(list))
}

// even is a picture made of pixels of one colour.
func even() string {
	var b bytes.Buffer
	_ = png.Encode(&b, image.NewGray(image.Rect(0, 0, 40, 40)))
	return b.String()
}
