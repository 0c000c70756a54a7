package svg

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"

	"github.com/klauspost/compress/zlib"

	"markout/layout/pixels"
)

// pngPart stores a part of a picture as PNG (ISO/IEC 15948), 8 bits a channel, row by row as it is decoded: the pixels are
// never held.
func pngPart(p *pixels.Picture, part image.Rectangle) ([]byte, error) {
	channels, colourType := 3, byte(2)
	if p.PlainGrey() {
		channels, colourType = 1, 0
	}
	colours := channels
	if p.Alpha {
		channels, colourType = channels+1, colourType|4
	}
	var packed bytes.Buffer
	z := zlib.NewWriter(&packed)
	f := rowFilter{step: channels, above: make([]byte, channels*part.Dx())}
	row := make([]byte, channels*part.Dx())
	err := p.Rows([]image.Rectangle{part}, func(r pixels.Row) error {
		if !p.Alpha {
			copy(row, r.Colour)
		} else {
			for x := range part.Dx() {
				copy(row[x*channels:], r.Colour[x*colours:(x+1)*colours])
				row[x*channels+colours] = 255
				if r.Alpha != nil {
					row[x*channels+colours] = r.Alpha[x]
				}
			}
		}
		_, err := z.Write(f.best(row))
		return err
	})
	if err == nil {
		err = z.Close()
	}
	if err != nil {
		return nil, err
	}
	head := binary.BigEndian.AppendUint32(nil, uint32(part.Dx()))
	head = binary.BigEndian.AppendUint32(head, uint32(part.Dy()))
	head = append(head, 8, colourType, 0, 0, 0)
	out := []byte("\x89PNG\r\n\x1a\n")
	out = appendChunk(out, "IHDR", head)
	out = appendChunk(out, "IDAT", packed.Bytes())
	return appendChunk(out, "IEND", nil), nil
}

func appendChunk(b []byte, kind string, data []byte) []byte {
	b = binary.BigEndian.AppendUint32(b, uint32(len(data)))
	at := len(b)
	b = append(append(b, kind...), data...)
	return binary.BigEndian.AppendUint32(b, crc32.ChecksumIEEE(b[at:]))
}

// rowFilter chooses of PNG's five filters, row by row, the one whose differences, taken as signed, have the least sum (the standard's
// own advice, 12.8).
type rowFilter struct {
	step  int // bytes a pixel
	above []byte
	tries [5][]byte
}

// best returns a row filtered, its filter's number in front; it is good until the next call.
func (f *rowFilter) best(row []byte) []byte {
	least, chosen := 0, -1
	for k := range f.tries {
		t := append(f.tries[k][:0], byte(k))
		sum := 0
		for i, v := range row {
			var left, up, corner byte
			up = f.above[i]
			if i >= f.step {
				left, corner = row[i-f.step], f.above[i-f.step]
			}
			switch k {
			case 1:
				v -= left
			case 2:
				v -= up
			case 3:
				v -= byte((int(left) + int(up)) / 2)
			case 4:
				v -= paeth(left, up, corner)
			}
			sum += min(int(v), 256-int(v))
			t = append(t, v)
		}
		f.tries[k] = t
		if chosen < 0 || sum < least {
			least, chosen = sum, k
		}
	}
	copy(f.above, row)
	return f.tries[chosen]
}

// paeth is the neighbour nearest to left + up − corner (ISO/IEC 15948, 9.4).
func paeth(left, up, corner byte) byte {
	p := int(left) + int(up) - int(corner)
	a, b, c := distance(p, left), distance(p, up), distance(p, corner)
	switch {
	case a <= b && a <= c:
		return left
	case b <= c:
		return up
	}
	return corner
}

func distance(p int, v byte) int {
	d := p - int(v)
	return max(d, -d)
}
