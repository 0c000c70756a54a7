package pixels

import (
	"encoding/binary"
	"fmt"
)

const (
	exifMark    = "Exif\x00\x00"
	profileMark = "ICC_PROFILE\x00"
)

// application takes what is wanted out of an APPn segment.
func (f *jpegFile) application(p *Picture, s *source, seg segment) error {
	b, err := seg.contents(s)
	if err != nil {
		return err
	}
	switch seg.mark - markAPP0 {
	case 0:
		// Only the last APP0 counts, as image/jpeg has it; those of other programs than JFIF's unsay it.
		if f.jfif = len(b) >= 5 && string(b[:5]) == "JFIF\x00"; f.jfif && len(b) >= 12 {
			f.density = [5]byte(b[7:12])
			x, y := float64(binary.BigEndian.Uint16(b[8:])), float64(binary.BigEndian.Uint16(b[10:]))
			if perInch := [...]float64{1: 1, 2: 2.54}; (b[7] == 1 || b[7] == 2) && x > 0 && y > 0 {
				p.PerInchX, p.PerInchY = x*perInch[b[7]], y*perInch[b[7]]
			}
		}
	case 1:
		if len(b) > len(exifMark) && string(b[:len(exifMark)]) == exifMark && p.Orientation == Upright {
			p.orient(b[len(exifMark):])
		}
	case 2:
		if len(b) > len(profileMark) && string(b[:len(profileMark)]) == profileMark {
			p.Profile = true
		}
	case 14:
		if len(b) >= 12 && string(b[:5]) == "Adobe" {
			f.adobe, f.transform = true, b[11]
		}
	}
	return nil
}

// profile puts the colour profile together from its APP2 segments: the mark, the piece's number from 1, how many
// there are, the piece.
func (f *jpegFile) profile() ([]byte, error) {
	broken := func(at int64, why string) error {
		return jpegError(at, "the colour profile cannot be read: %s", why).hint("save the picture without its profile")
	}
	s := newSource(f.r, f.size, 2)
	var pieces [][]byte
	found, total := 0, 0
	for {
		seg, err := nextSegment(s)
		if err != nil {
			return nil, err
		}
		if seg.mark == markSOS || seg.mark == markEOI {
			break
		}
		if seg.mark != markAPP0+2 {
			seg.skip(s)
			continue
		}
		b, err := seg.contents(s)
		if err != nil {
			return nil, err
		}
		head := len(profileMark) + 2
		if len(b) < head || string(b[:len(profileMark)]) != profileMark {
			continue
		}
		n, of := int(b[head-2]), int(b[head-1])
		if pieces == nil {
			pieces = make([][]byte, of+1)
		}
		if n == 0 || n >= len(pieces) || pieces[n] != nil {
			return nil, broken(seg.at, fmt.Sprintf("piece %d of %d is one too many", n, len(pieces)-1))
		}
		pieces[n] = b[head:]
		found++
		if total += len(b) - head; total > profileBytes {
			return nil, broken(seg.at, "it is too long")
		}
	}
	if found != len(pieces)-1 {
		return nil, broken(s.offset(), fmt.Sprintf("%d of %d pieces are missing", len(pieces)-1-found, len(pieces)-1))
	}
	icc := make([]byte, 0, total)
	for _, piece := range pieces {
		icc = append(icc, piece...)
	}
	return icc, nil
}
