package artwork

import (
	"errors"
	"io"
	"strings"
)

var errCharset = errors.New("unknown letters")

// charset lets files through in which every letter is one byte and the first 128 are those of ASCII. All that
// is drawn is written with these; any other letter is read as a low line, so that places in the file stay.
func charset(name string, in io.Reader) (io.Reader, error) {
	name = strings.ToLower(name)
	for _, family := range []string{"iso-8859-", "windows-125", "us-ascii", "latin"} {
		if strings.HasPrefix(name, family) {
			return asciiReader{in}, nil
		}
	}
	return nil, errCharset
}

type asciiReader struct{ in io.Reader }

func (a asciiReader) Read(p []byte) (int, error) {
	n, err := a.in.Read(p)
	for i, c := range p[:n] {
		if c >= 0x80 {
			p[i] = '_'
		}
	}
	return n, err
}
