package pixels

import (
	"bufio"
	"io"

	"github.com/klauspost/compress/zlib"
)

// pngRows unpacks and unfilters rows one after the other.
type pngRows struct {
	f    *pngFile
	data *pngData
	z    *bufio.Reader
	row  int // rows given so far, for errors
	cur  []byte
	prev []byte
}

func (f *pngFile) rows() (*pngRows, error) {
	d, err := f.pixelData()
	if err != nil {
		return nil, err
	}
	z, err := zlib.NewReader(d)
	if err != nil {
		return nil, d.failed(err, 0)
	}
	n := 1 + f.rowBytes(f.width)
	return &pngRows{f: f, data: d, z: bufio.NewReaderSize(z, 32<<10), cur: make([]byte, n), prev: make([]byte, n)}, nil
}

// start begins a pass: the first row of each is filtered against nothing.
func (r *pngRows) start(width int) {
	n := 1 + r.f.rowBytes(width)
	r.cur, r.prev = r.cur[:n], r.prev[:n]
	clear(r.prev)
}

// next returns the bytes of the next row, valid until the next call.
func (r *pngRows) next() ([]byte, error) {
	if _, err := io.ReadFull(r.z, r.cur); err != nil {
		return nil, r.data.failed(err, r.row)
	}
	if !unfilter(r.cur[0], r.cur[1:], r.prev[1:], max(1, r.f.channels()*r.f.depth/8)) {
		return nil, pngError(r.data.where(), "row %d has the filter %d, and a PNG has only 0 to 4", r.row, r.cur[0]).hint(saveAgain)
	}
	r.row++
	r.cur, r.prev = r.prev, r.cur
	return r.prev[1:], nil
}

// end checks what stands after the last row: the sums of the stream and of its last chunk.
func (r *pngRows) end() error {
	if _, err := r.z.ReadByte(); err == nil {
		return pngError(r.data.where(), "there are more pixels than the header said").hint(saveAgain)
	} else if err != io.EOF {
		return r.data.failed(err, r.row)
	}
	if r.data.c.name != "IDAT" {
		return nil
	}
	if r.data.left != 0 {
		return pngError(r.data.where(), "there is more after the last pixel than there should be").hint(saveAgain)
	}
	return r.data.close()
}

// unfilter undoes a row's filter in place (ISO/IEC 15948, clause 9); step is the distance to the byte of the pixel
// to the left. It reports false for a filter that does not exist.
func unfilter(filter byte, cur, prev []byte, step int) bool {
	prev = prev[:len(cur)]
	switch filter {
	case 0:
	case 1: // the pixel to the left
		for i := step; i < len(cur); i++ {
			cur[i] += cur[i-step]
		}
	case 2: // the pixel above
		for i, up := range prev {
			cur[i] += up
		}
	case 3: // their mean
		for i := range min(step, len(cur)) {
			cur[i] += prev[i] / 2
		}
		for i := step; i < len(cur); i++ {
			cur[i] += byte((int(cur[i-step]) + int(prev[i])) / 2)
		}
	case 4:
		for i := range min(step, len(cur)) {
			cur[i] += prev[i] // with nothing to the left the nearest is the one above
		}
		for i := step; i < len(cur); i++ {
			cur[i] += paeth(int(cur[i-step]), int(prev[i]), int(prev[i-step]))
		}
	default:
		return false
	}
	return true
}

// paeth is the one of left, up and corner that is nearest to left + up - corner; of equals the first.
func paeth(left, up, corner int) byte {
	dl, du := up-corner, left-corner
	dc := dl + du
	dl, du, dc = max(dl, -dl), max(du, -du), max(dc, -dc)
	switch {
	case dl <= du && dl <= dc:
		return byte(left)
	case du <= dc:
		return byte(up)
	}
	return byte(corner)
}
