package pixels

import (
	"bytes"
	"encoding/binary"
	"hash"
	"hash/crc32"
	"io"

	"github.com/klauspost/compress/zlib"
)

// pngData is the stream of deflated pixels, put together from its chunks, each checked against its sum.
type pngData struct {
	s    *source
	c    chunk
	left int64
	sum  hash.Hash32
}

func (f *pngFile) pixelData() (*pngData, error) {
	d := &pngData{s: newSource(f.r, f.size, f.data), sum: crc32.NewIEEE()}
	return d, d.open()
}

// open starts the next chunk.
func (d *pngData) open() error {
	c, err := nextChunk(d.s)
	if err != nil {
		return err
	}
	d.c, d.left = c, c.length
	d.sum.Reset()
	d.sum.Write([]byte(c.name))
	return nil
}

// close checks the sum of the chunk that was read.
func (d *pngData) close() error {
	var sum [4]byte
	if err := d.s.full(sum[:], "a chunk's check sum"); err != nil {
		return asPNG(err)
	}
	if d.sum.Sum32() != binary.BigEndian.Uint32(sum[:]) {
		return d.c.badSum()
	}
	return nil
}

// Read implements io.Reader; it ends before the first chunk that is no IDAT.
func (d *pngData) Read(p []byte) (int, error) {
	if len(p) == 0 {
		return 0, nil
	}
	for d.c.name == "IDAT" && d.left == 0 {
		if err := d.close(); err != nil {
			return 0, err
		}
		if err := d.open(); err != nil {
			return 0, err
		}
	}
	if d.c.name != "IDAT" {
		return 0, io.EOF
	}
	p = p[:min(int64(len(p)), d.left)]
	if err := d.s.fill(); err != nil {
		return 0, asPNG(d.s.ends(err, "the pixels"))
	}
	n := copy(p, d.s.buf[d.s.i:])
	d.s.i += n
	d.left -= int64(n)
	d.sum.Write(p[:n])
	return n, nil
}

// where is about how far into the file the pixels have been read.
func (d *pngData) where() int64 { return d.s.offset() }

// failed says why the deflated pixels cannot be read on.
func (d *pngData) failed(err error, row int) error {
	if e, ok := err.(*Error); ok {
		return e
	}
	if err == io.EOF || err == io.ErrUnexpectedEOF {
		return pngError(d.where(), "the pixels end in row %d", row).hint(saveAgain)
	}
	return pngError(d.where(), "the packed pixels are damaged in row %d (%v)", row, err).hint(saveAgain)
}

// profile unpacks the chunk iCCP: a name, a zero, the compression 0, the deflated profile.
func (f *pngFile) profile() ([]byte, error) {
	s := newSource(f.r, f.size, f.icc)
	c, err := nextChunk(s)
	if err != nil {
		return nil, err
	}
	if c.length > profileBytes {
		return nil, pngError(f.icc, "the colour profile has %d MB (the limit is %d MB)", c.length>>20, profileBytes>>20)
	}
	b, err := c.contents(s)
	if err != nil {
		return nil, err
	}
	broken := pngError(f.icc, "the colour profile cannot be unpacked").hint("save the picture without its profile")
	name := bytes.IndexByte(b, 0)
	if name < 1 || name+2 > len(b) || b[name+1] != 0 {
		return nil, broken
	}
	z, err := zlib.NewReader(bytes.NewReader(b[name+2:]))
	if err != nil {
		return nil, broken
	}
	icc, err := io.ReadAll(io.LimitReader(z, profileBytes+1))
	if err != nil || len(icc) > profileBytes {
		return nil, broken
	}
	return icc, nil
}
