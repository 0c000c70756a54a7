package pixels

import (
	"encoding/binary"
	"errors"
)

const exifOrientation = 0x0112

// readOrientation finds the orientation in an Exif block, which is a small TIFF: byte order, 42, the place of the
// first directory, and there 12 bytes an entry. A block without the tag is Upright; one that cannot be read is an
// error, and so is a value that is none of the eight.
func readOrientation(tiff []byte) (Orientation, error) {
	broken := errors.New("broken")
	if len(tiff) < 8 {
		return Upright, broken
	}
	var order binary.ByteOrder
	switch string(tiff[:2]) {
	case "II":
		order = binary.LittleEndian
	case "MM":
		order = binary.BigEndian
	default:
		return Upright, broken
	}
	if order.Uint16(tiff[2:]) != 42 {
		return Upright, broken
	}
	at := uint64(order.Uint32(tiff[4:]))
	if at+2 > uint64(len(tiff)) {
		return Upright, broken
	}
	entries := int(order.Uint16(tiff[at:]))
	for i := range entries {
		e := at + 2 + 12*uint64(i)
		if e+12 > uint64(len(tiff)) {
			return Upright, broken
		}
		if order.Uint16(tiff[e:]) != exifOrientation {
			continue
		}
		const short = 3
		v := order.Uint16(tiff[e+8:])
		if order.Uint16(tiff[e+2:]) != short || order.Uint32(tiff[e+4:]) != 1 || v < 1 || v > 8 {
			return Upright, broken
		}
		return Orientation(v), nil
	}
	return Upright, nil
}

// orient takes the orientation out of an Exif block, or notes that it cannot be read.
func (p *Picture) orient(tiff []byte) {
	o, err := readOrientation(tiff)
	if err != nil {
		p.Notes = append(p.Notes, "Its Exif block cannot be read, so it is taken to be upright as stored.")
	}
	p.Orientation = o
}
