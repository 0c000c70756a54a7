package issue

import (
	"bytes"
	"encoding/json"
	"image/color"
	"image/png"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/pixels"
)

const sound = `{"format":1,"program":"markout","set":"Quay","issue":"A","files":[{"name":"quay.markout","stored":"quay.markout","sha256":"00"}],
"pages":[{"sheet":"plan","file":"floor.pdf","page":1,"digest":"` + zeros + `"}]}`

const zeros = "0000000000000000000000000000000000000000000000000000000000000000"

func TestRecordsThatCannotBeRead(t *testing.T) {
	for text, says := range map[string]string{
		``:                                   "line 1: unexpected end of JSON input",
		"{\n\"format\":":                     "line 2: unexpected end of JSON input",
		`[]`:                                 "cannot unmarshal array",
		`{}`:                                 "it has no format",
		`{"format":1}`:                       "does not name the text",
		`{"format":2,"program":"markout 3"}`: "markout 3, format 2",
		`{"format":1,"files":[{"name":"/etc/x","stored":"../../x"}]}`:                                                                 "is no name of a file",
		`{"format":1,"files":[{"name":"a","stored":"a"}],"pages":[{"digest":"12","file":"floor.pdf","page":1}]}`:                      "page 1 of \"floor.pdf\" cannot be",
		`{"format":1,"files":[{"name":"a","stored":"a"},{"name":"b.png","pixels":[0,5]}]}`:                                            "has no pixels",
		`{"format":1,"files":[{"name":"a","stored":"a"}],"pages":[{"digest":"` + zeros + `","file":"floor.pdf","page":"one"}],"x":1}`: "cannot unmarshal string",
	} {
		_, err := parseRecord([]byte(text))
		require.ErrorContains(t, err, says, text)
	}
	_, err := parseRecord([]byte(sound))
	require.NoError(t, err)
}

// FuzzRecord holds that a record is refused in words or hangs together: its files lie within the folder, its digests are digests, and
// what is written again is read as the same, its seal too.
func FuzzRecord(f *testing.F) {
	f.Add([]byte(sound))
	f.Add([]byte(`{"format":1,"files":[{"name":"../a.markout","stored":"up/a.markout"}],"grids":[1, 2],"with":["a=<1>"]}`))
	f.Fuzz(func(t *testing.T, text []byte) {
		r, err := parseRecord(text)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		for _, x := range r.Files {
			require.True(t, x.Stored == "" || filepath.IsLocal(x.Stored))
		}
		again, err := json.MarshalIndent(r, "", " ")
		require.NoError(t, err)
		back, err := parseRecord(again)
		require.NoError(t, err)
		require.Equal(t, r.seal(), back.seal())
		c := Compare(r, back)
		require.Empty(t, c.Reprint)
		require.Empty(t, c.Withdraw)
		require.Len(t, c.Keep, len(r.Pages))
	})
}

// A stand-in is read by the standard library and by our own reader alike: black within a white edge.
func TestStandIn(t *testing.T) {
	for _, size := range [][2]int{{1, 1}, {3, 2}, {8, 8}, {17, 9}, {640, 480}} {
		w, h := size[0], size[1]
		data := standIn(w, h, zeros)
		img, err := png.Decode(bytes.NewReader(data))
		require.NoError(t, err)
		require.Equal(t, w, img.Bounds().Dx())
		require.Equal(t, h, img.Bounds().Dy())
		for y := range h {
			for x := range w {
				want := color.Gray{}
				if x == 0 || y == 0 || x == w-1 || y == h-1 {
					want.Y = 255
				}
				require.Equal(t, want, color.GrayModel.Convert(img.At(x, y)), "%d, %d of %v", x, y, size)
			}
		}
		p, err := pixels.Open(bytes.NewReader(data), int64(len(data)))
		require.NoError(t, err)
		require.Equal(t, size, [2]int{p.Width, p.Height})
	}
	require.NotEqual(t, standIn(4, 4, "a"), standIn(4, 4, "b"))
}

// Pages are matched by their digests, one to one; of equals the one of the same label first.
func TestCompare(t *testing.T) {
	page := func(sheet, digest string) PageRecord {
		return PageRecord{File: "templates.pdf", Sheet: sheet, Page: 1, Digest: digest}
	}
	was := &Record{Pages: []PageRecord{page("a 1A", "1"), page("b 1A", "1"), page("c 1A", "3"), page("d 1A", "4"), page("e 1A", "5")}}
	is := &Record{Pages: []PageRecord{page("b 1A", "1"), page("f 1A", "1"), page("g 1A", "1"), page("c 1A", "6"), page("h 1A", "4"), {File: "floor.pdf", Sheet: "e 1A", Page: 1, Digest: "5"}}}
	c := Compare(was, is)
	ref := func(file, sheet, was string) PageRef { return PageRef{File: file, Page: 1, Sheet: sheet, Was: was} }
	require.Equal(t, []PageRef{ref("templates.pdf", "b 1A", ""), ref("templates.pdf", "f 1A", "a 1A"), ref("templates.pdf", "h 1A", "d 1A")}, c.Keep)
	require.Equal(t, []PageRef{ref("templates.pdf", "g 1A", ""), ref("templates.pdf", "c 1A", ""), ref("floor.pdf", "e 1A", "")}, c.Reprint)
	require.Equal(t, []PageRef{ref("templates.pdf", "e 1A", "")}, c.Withdraw)
}
