package reference

import (
	"fmt"
	"image"
	"image/color"
	"image/png"
	"io"
	"io/fs"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/caution"
	"markout/layout/diag"
	"markout/layout/notation"
	"markout/layout/rules"
	"markout/layout/set"
)

// files are the texts that an example may read.
type files map[string]string

func (f files) Open(name string) (io.ReadCloser, error) {
	text, ok := f[name]
	if !ok {
		return nil, fs.ErrNotExist
	}
	return io.NopCloser(strings.NewReader(text)), nil
}

const harbour = "post pile\n    diameter 300\n    height 2000\n    at 7000, 0\n"

const list = "name,of,length,width,count,grain\nrail,batten 44,900,,4,\npatch,ply 18,600,300,2,along\n"

// harbourDrawing is a drawing wide and low.
const harbourDrawing = `<svg xmlns="http://www.w3.org/2000/svg" width="300mm" height="200mm" viewBox="0 0 300 200"><path d="M0 20 300 60V200H0Z" fill="#345"/></svg>`

// pilotPicture is a figure made of pixels: what a file is shows in its bytes and not in its name, and an outline is made of it at once,
// while of a drawing it takes a good part of a second, for each of the hundred lines that are tried.
func pilotPicture() string {
	img := image.NewGray(image.Rect(0, 0, 40, 120))
	for y := range 120 {
		for x := range 40 {
			if x < 12 || x >= 28 || y < 4 || y >= 116 {
				img.SetGray(x, y, color.Gray{Y: 240})
			}
		}
	}
	var b strings.Builder
	_ = png.Encode(&b, img)
	return b.String()
}

const figureList = "name,artwork,height,at,turn,hung\nheron,pilot.svg,900,\"1200, 600\",30deg,\ngull,pilot.svg,1'-6\",deck.centre,,yes\n"

func open(text string) (*set.Set, *diag.List) {
	return layout.Open(files{"example.markout": text, "harbour.markout": harbour, "parts.csv": list, "pilot.svg": pilotPicture(), "harbour.svg": harbourDrawing, "figures.csv": figureList}, "example.markout", layout.Options{})
}

// statements cuts a text at the lines that begin in the first column.
func statements(text string) []string {
	var out []string
	for line := range strings.Lines(text) {
		if len(out) == 0 || line[0] != ' ' && line[0] != '#' && line[0] != '\n' {
			out = append(out, "")
		}
		out[len(out)-1] += line
	}
	return out
}

// defines returns what a statement defines: the name of an element or a let, or the word that stands once.
func defines(statement string) string {
	f := strings.Fields(statement)
	if f[1] == "from" {
		return f[0] + f[2] // a list: its names are its own
	}
	switch f[0] {
	case "set", "keep", "dim", "include":
		return f[0]
	}
	return f[1]
}

// complete puts an example into its surroundings.
func complete(example string) string {
	if strings.HasPrefix(example, "set ") {
		return example
	}
	own := map[string]bool{}
	for _, s := range statements(example) {
		own[defines(s)] = true
	}
	var b strings.Builder
	for _, s := range statements(Surroundings) {
		if !own[defines(s)] {
			b.WriteString(s)
		}
	}
	return b.String() + "\n" + strings.TrimRight(example, "\n") + "\n"
}

func said(list *diag.List) string {
	var b strings.Builder
	for _, d := range list.Sorted() {
		fmt.Fprintf(&b, "%s: %s (%s)\n", list.Sources.Position(d.Span), d.Message, d.Hint)
	}
	return b.String()
}

func allPages() []page {
	out := []page{contents()}
	out = append(out, chapters()...)
	for _, k := range kinds() {
		out = append(out, kindPage(&k))
	}
	for _, c := range rules.Codes() {
		out = append(out, codePage(c))
	}
	return out
}

func TestEveryExampleWorks(t *testing.T) {
	count := 0
	for _, p := range allPages() {
		for _, b := range p.blocks {
			switch {
			case b.example != "":
				_, list := open(complete(b.example))
				require.False(t, list.HasErrors(), "%s:\n%s\n%s", p.topic, complete(b.example), said(list))
				count++
			case b.wrong != "":
				_, list := open(complete(b.wrong))
				require.True(t, list.HasErrors(), "%s:\n%s", p.topic, b.wrong)
				count++
			}
		}
	}
	require.Greater(t, count, 20)
}

// needs are further lines that an attribute's line wants beside it, by topic or by the attribute's word.
var needs = map[string]string{
	"except":            "    repeat 12 by 600, 0\n",
	"shift":             "    repeat 12 by 600, 0\n",
	"steps.shift":       "    rises 140 165 150 190\n",
	"steps.goings":      "    rises 140 165 150 190\n",
	"steps.widths":      "    rises 140 165 150 190\n",
	"steps.landing":     "    risers 8\n",
	"steps.lid":         "    built blocks\n",
	"steps.starts":      "    rise 150\n",
	"steps.along":       "    rise 150\n",
	"steps.at":          "    along path 0,0 line 0,900\n    rise 150\n",
	"steps.turn":        "    along path 0,0 line 0,900\n    rise 150\n",
	"steps.level":       "    starts 0, 1200 heading 90deg\n    rise 150\n",
	"steps.top":         "    starts 0, 1200 heading 90deg\n    rise 150\n",
	"steps.on":          "    starts 0, 1200 heading 90deg\n    rise 150\n",
	"steps.repeat":      "    starts 0, 1200 heading 90deg\n    rise 150\n",
	"ramp.starts":       "    rise 450\n",
	"ramp.level":        "    starts 0, 9600 heading 270deg\n    rise 450\n",
	"ramp.top":          "    starts 0, 9600 heading 270deg\n    rise 450\n",
	"ramp.on":           "    starts 0, 9600 heading 270deg\n    rise 450\n",
	"ramp.repeat":       "    starts 0, 9600 heading 270deg\n    rise 450\n",
	"mark.dashed":       "    path -2400,0 line 2400,0\n",
	"mark.corners":      "    path -2400,0 line 2400,0\n",
	"flat.opening.sill": "    height 3000\n",
	"flat.at":           "    along path 0,0 arc to 2400,0 radius 2000 right\n",
	"flat.turn":         "    along path 0,0 arc to 2400,0 radius 2000 right\n",
}

// An attribute's line works in its kind's example, in place of the lines that it does not go with and with those it needs.
func TestEveryAttributeLineWorks(t *testing.T) {
	for _, k := range kinds() {
		for i := range k.Attributes {
			a := &k.Attributes[i]
			topic := k.Word + "." + a.Word
			require.NotEmpty(t, a.Example, topic)
			require.NotEmpty(t, a.Doc, topic)
			requireFits(t, &k, topic, a.Word, "    "+a.Example+"\n")
			for j := range a.Sub {
				requireFits(t, &k, topic+"."+a.Sub[j].Word, a.Word, "    "+a.Example+"\n        "+a.Sub[j].Example+"\n")
			}
		}
	}
}

// needs speaks of topics that there are.
func TestNeedsNameTopics(t *testing.T) {
	words := map[string]bool{}
	for _, k := range kinds() {
		for _, a := range k.Attributes {
			words[a.Word], words[k.Word+"."+a.Word] = true, true
			for _, s := range a.Sub {
				words[k.Word+"."+a.Word+"."+s.Word] = true
			}
		}
	}
	for topic := range needs {
		require.True(t, words[topic], topic)
	}
}

// requireFits looks for lines of the kind's example, as few as can be, in whose place the given ones work.
func requireFits(t *testing.T, k *notation.Kind, topic, word, lines string) {
	t.Helper()
	var head, around string
	var body []string
	for _, s := range statements(k.Example) {
		if head != "" || strings.Fields(s)[0] != k.Word {
			around += s
			continue
		}
		for line := range strings.Lines(s) {
			switch {
			case head == "":
				head = line
			case strings.HasPrefix(line, "        "):
				body[len(body)-1] += line
			case strings.TrimSpace(line) != "":
				body = append(body, line)
			}
		}
	}
	require.NotEmpty(t, head, topic)
	if k.Named && k.Word != "hall" {
		head = strings.Replace(head, strings.Fields(head)[1], "piece", 1) // so that it is beside the surroundings' own
	}
	if more, ok := needs[topic]; ok {
		lines = more + lines
	} else {
		lines = needs[word] + lines
	}
	message := ""
	for _, left := range choices(len(body), 4) {
		text := head
		for i, line := range body {
			if !slices.Contains(left, i) {
				text += line
			}
		}
		_, list := open(complete(text + lines + around))
		if !list.HasErrors() {
			return
		}
		if message == "" {
			message = text + lines + said(list)
		}
	}
	t.Errorf("%s does not fit in its kind's example:\n%s", topic, message)
}

// choices lists the ways to take up to most of n things, the fewest first.
func choices(n, most int) [][]int {
	out := [][]int{nil}
	from := 0
	for range most {
		to := len(out)
		for _, l := range out[from:to] {
			next := 0
			if len(l) > 0 {
				next = l[len(l)-1] + 1
			}
			for i := next; i < n; i++ {
				out = append(out, append(slices.Clone(l), i))
			}
		}
		from = to
	}
	return out
}

// Lengths mean the millimetres that the table says: exact by the inch of 25.4 mm.
func TestWrittenLengths(t *testing.T) {
	for _, w := range written {
		s, list := open(complete("post p\n    diameter 60\n    height " + w.text + "\n"))
		require.False(t, list.HasErrors(), "%s\n%s", w.text, said(list))
		require.InDelta(t, w.mm, s.Find("p").Shape.(*set.Post).Height, 1e-9, w.text)
	}
}

// The words that may not be names are those that the parser keeps.
func TestJoiningWords(t *testing.T) {
	text, err := Text("text")
	require.NoError(t, err)
	_, list, ok := strings.Cut(strings.Join(strings.Fields(text), " "), "they join values: ")
	require.True(t, ok)
	list, _, _ = strings.Cut(list, ".")
	for _, w := range strings.Fields(list) {
		require.True(t, notation.IsJoining(w), w)
	}
	require.Len(t, strings.Fields(list), 21)
	require.True(t, notation.IsName("rise") && notation.IsName("steps"))
}

func TestTextFitsAndEnds(t *testing.T) {
	topics := append(Topics(), "")
	for _, k := range kinds() {
		for _, w := range attributeWords(&k) {
			topics = append(topics, k.Word+"."+w)
		}
	}
	for _, topic := range topics {
		text, err := Text(topic)
		require.NoError(t, err, topic)
		require.True(t, strings.HasSuffix(text, "\n") && !strings.HasSuffix(text, "\n\n"), topic)
		require.NotContains(t, strings.ToLower(text), strings.Join([]string{"sa", "fe"}, ""), topic)
		for line := range strings.Lines(text) {
			line = strings.TrimSuffix(line, "\n")
			require.LessOrEqual(t, utf8.RuneCountInString(line), width, "%s: %s", topic, line)
			require.Equal(t, strings.TrimRight(line, " "), line, topic)
		}
		again, _ := Text(topic)
		require.Equal(t, text, again)
	}
	require.Equal(t, Markdown(), Markdown())
}

func TestTopics(t *testing.T) {
	for topic, want := range map[string]string{
		"platform":        "platform: a level to stand on",
		"platform.height": "height VALUE",
		"Platform.Height": "height VALUE",
		"repeat":          "around POINT radius VALUE",
		"values":          "7'-6 1/2\"",
		"STEP-RISE":       "150 to 170 mm",
		"step-rise":       caution.Defer,
		"cautions":        "EDGE-OPEN",
		"":                "STEP-RISE",
	} {
		text, err := Text(topic)
		require.NoError(t, err, topic)
		require.Contains(t, text, want, topic)
	}
}

func TestUnknownTopics(t *testing.T) {
	for topic, want := range map[string]string{
		"rostrum":         "platform",
		"platfrom":        "platform",
		"platform.heigth": "platform.height",
		"platfrom.height": "platform.height",
		"STEP-RISES":      "STEP-RISE",
		"STEP":            "STEP-2RG",
		"inches":          "values",
		"arc":             "outlines",
	} {
		_, err := Text(topic)
		var e *UnknownTopic
		require.ErrorAs(t, err, &e, topic)
		require.Contains(t, e.Near, want, topic)
		require.Contains(t, e.Error(), want)
		for _, near := range e.Near {
			_, err := Text(near)
			require.NoError(t, err, near)
		}
	}
	_, err := Text("zzzzzzzz")
	require.EqualError(t, err, "nothing is explained under \"zzzzzzzz\"; `markout explain` lists the topics")
}
