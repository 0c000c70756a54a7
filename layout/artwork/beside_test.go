package artwork

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/png"
	"testing"

	"github.com/stretchr/testify/require"
)

// Of all that a drawing may name, the opener is asked for paths alone, cleaned.
func TestBeside(t *testing.T) {
	var b bytes.Buffer
	require.NoError(t, png.Encode(&b, image.NewNRGBA(image.Rect(0, 0, 4, 3))))
	const lies = "lies outside the set's folder and is left out: nothing outside it is opened [ART-OUTSIDE]"
	for _, c := range []struct{ link, asked, want string }{
		{"deck.png", "deck.png", ""},
		{"a/./b/../deck%20chair.png", "a/deck chair.png", ""},
		{"../deck.png", "../deck.png", lies},
		{"gone.png", "gone.png", `the picture "gone.png" cannot be read: there is no such file [ART-LINK]`},
		{"other.svg", "other.svg", `the picture "other.svg" is neither PNG nor JPEG and is left out [ART-LEFT]`},
		{"cut.png", "cut.png", `the picture "cut.png" cannot be read: PNG, byte 8`},
		{"/deck.png", "", lies}, {"%2fdeck.png", "", lies}, {"//host/deck.png", "", lies},
		{"http://example.com/deck.png", "", lies}, {"HTTP:deck.png", "", lies}, {"file:deck.png", "", lies},
		{"C:/deck.png", "", lies}, {"C%3a/deck.png", "", lies}, {`..\deck.png`, "", lies}, {"deck.png%00", "", lies},
		{"deck.png?x", "", lies}, {"deck.png#x", "", lies}, {"%zz", "", lies},
	} {
		asked := ""
		p, said := besideText(head+fmt.Sprintf("<image width='8' height='6' href='%s'/><image width='8' height='6' href='%s'/></svg>", c.link, c.link), func(name string) ([]byte, error) {
			require.Empty(t, asked, "each file once")
			switch asked = name; name {
			case "../deck.png":
				return nil, fmt.Errorf("no: %w", ErrOutside)
			case "gone.png":
				return nil, errors.New("there is no such file")
			case "other.svg":
				return []byte("<svg/>"), nil
			case "cut.png":
				return b.Bytes()[:8], nil
			}
			return b.Bytes(), nil
		})
		require.Equal(t, c.asked, asked, c.link)
		if c.want == "" {
			require.Empty(t, said, c.link)
			require.Len(t, p.Nodes, 2)
			require.Same(t, p.Nodes[0].(*Image).Pixels, p.Nodes[1].(*Image).Pixels)
			require.Equal(t, b.Bytes(), p.Nodes[0].(*Image).Data)
			continue
		}
		require.NotEmpty(t, said, c.link)
		require.Contains(t, said[0], "a.svg:2:", c.link)
		require.Contains(t, said[0], ": error: ", c.link)
		require.Contains(t, said[0], c.want, c.link)
		require.Empty(t, p.Nodes)
	}
}
