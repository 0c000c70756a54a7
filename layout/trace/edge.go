package trace

import (
	"errors"

	"markout/layout/geom"
)

// half is the least sample inside the edge line; the line itself stands at 32767.5, which no sample is.
const half = 1 << 15

// apart is how far in pixels the edge line keeps from the pixels' centres, so that no two runs of it touch.
const apart = 1.0 / 128

// Scanner finds the edge line of a coverage field that is given row by row: the line along which the coverage,
// interpolated between the pixels' centres, is one half, placed as well as straight edges allow (see placed). It holds
// four rows and the line.
//
// This is marching squares (after Lorensen and Cline, "Marching cubes", 1987, in the plane): the line crosses the side
// between two neighbouring centres where one is in and the other out, and within the square of four centres the crossings
// are joined with what is in on the left. Of four crossings (two opposite centres in) the bilinear interpolant says which
// belong together (Nielson and Hamann, "The asymptotic decider", 1991); where it cannot, the two that are in are parted.
type Scanner struct {
	w, h, fed int
	// rows are the last four, with two empty samples at each end; the squares lie between the second and the third.
	rows      [4][]uint16
	up, level []int32 // crossings between neighbours in those two, −1 where none
	upright   []int32 // crossings between one and the other
	pts       []geom.Point
	next      []int32
	hard      []bool // crossings between a pixel wholly in and one wholly out
	told      []bool // crossings placed by a sum
}

// NewScanner returns a scanner of a field of w × h pixels.
func NewScanner(w, h int) (*Scanner, error) {
	if err := sized(w, h, w*h); err != nil {
		return nil, err
	}
	s := &Scanner{w: w, h: h}
	for i := range s.rows {
		s.rows[i] = make([]uint16, w+4)
	}
	s.up, s.level, s.upright = make([]int32, w+1), make([]int32, w+1), make([]int32, w+2)
	for x := range s.up {
		s.up[x] = -1
	}
	return s, nil
}

// Row takes the next row from the top: w samples of 16 bits.
func (s *Scanner) Row(samples []uint16) error {
	if s.fed >= s.h || len(samples) != s.w {
		return errors.New("the rows are not those of the picture")
	}
	s.push(samples)
	return nil
}

// push takes a row, or an empty one below the picture, and joins the crossings about the row before it.
func (s *Scanner) push(samples []uint16) {
	r := &s.rows
	r[0], r[1], r[2], r[3] = r[1], r[2], r[3], r[0]
	if samples == nil {
		clear(r[3])
	} else {
		copy(r[3][2:], samples)
	}
	s.fed++
	if y := s.fed - 2; y >= 0 {
		s.squares(float64(s.h-y) - 0.5)
	}
}

// cross adds the crossing from a towards b, of whose samples v[1] and v[2] one is in; v[0] and v[3] are the next ones out.
func (s *Scanner) cross(a, b geom.Point, v [4]uint16) int32 {
	t, told := placed(v[0], v[1], v[2], v[3])
	if !told {
		t = (half - 0.5 - float64(v[1])) / (float64(v[2]) - float64(v[1]))
	}
	s.pts = append(s.pts, a.Lerp(b, min(max(t, apart), 1-apart)))
	s.next = append(s.next, -1)
	s.told = append(s.told, told)
	s.hard = append(s.hard, min(v[1], v[2]) <= full-whole && max(v[1], v[2]) >= whole)
	return int32(len(s.pts) - 1)
}

// squares joins the crossings between the second and the third row, which stands at the height y.
func (s *Scanner) squares(y float64) {
	s.crossings(y)
	above, row := s.rows[1][1:], s.rows[2][1:]
	join := func(from, to int32) { s.next[from] = to }
	for x := range s.w + 1 {
		tl, tr, bl, br := above[x], above[x+1], row[x], row[x+1]
		code := int(tl>>15)<<3 | int(tr>>15)<<2 | int(br>>15)<<1 | int(bl>>15)
		if code == 0 || code == 15 {
			continue
		}
		t, b, l, r := s.up[x], s.level[x], s.upright[x], s.upright[x+1]
		switch code {
		case 1:
			join(b, l)
		case 2:
			join(r, b)
		case 3:
			join(r, l)
		case 4:
			join(t, r)
		case 6:
			join(t, b)
		case 7:
			join(t, l)
		case 8:
			join(l, t)
		case 9:
			join(b, t)
		case 11:
			join(r, t)
		case 12:
			join(l, r)
		case 13:
			join(b, r)
		case 14:
			join(l, b)
		case 5:
			if together(bl, tr, tl, br) {
				join(t, l)
				join(b, r)
			} else {
				join(b, l)
				join(t, r)
			}
		case 10:
			if together(tl, br, tr, bl) {
				join(l, b)
				join(r, t)
			} else {
				join(l, t)
				join(r, b)
			}
		}
	}
	s.up, s.level = s.level, s.up
}

// crossings adds the crossings of the third row, at the height y, and those between it and the one above. Those of a row
// follow one another from the left; on that the nesting is built.
func (s *Scanner) crossings(y float64) {
	r := &s.rows
	row, above := r[2], r[1]
	for x := range s.w + 1 {
		s.level[x] = -1
		if (row[x+1]^row[x+2])&half != 0 {
			at := float64(x) - 0.5
			s.level[x] = s.cross(geom.Point{X: at, Y: y}, geom.Point{X: at + 1, Y: y}, [4]uint16(row[x:x+4]))
		}
	}
	for x := 1; x <= s.w; x++ {
		s.upright[x] = -1
		if k := x + 1; (row[k]^above[k])&half != 0 {
			at := float64(x) - 0.5
			s.upright[x] = s.cross(geom.Point{X: at, Y: y + 1}, geom.Point{X: at, Y: y},
				[4]uint16{r[0][k], above[k], row[k], r[3][k]})
		}
	}
}

// together reports whether the opposite centres a and b, which are in, belong together at the middle of the square whose
// other centres are c and d.
func together(a, b, c, d uint16) bool {
	const level = half - 0.5
	return (float64(a)-level)*(float64(b)-level) > (float64(c)-level)*(float64(d)-level)
}

// loops returns the closed runs of the edge line: outer ones anticlockwise, holes clockwise, each from its first crossing
// in reading order.
func (s *Scanner) loops() ([]*loop, error) {
	if s.fed < s.h {
		return nil, errors.New("the picture's last rows are missing")
	}
	for s.h > 0 && s.fed < s.h+2 {
		s.push(nil)
	}
	of := make([]int32, len(s.pts))
	for i := range of {
		of[i] = -1
	}
	var all []*loop
	for first := range s.pts {
		if of[first] >= 0 {
			continue
		}
		l := &loop{first: -1}
		hard := 0
		var told []bool
		for i := int32(first); of[i] < 0; i = s.next[i] {
			of[i] = int32(len(all))
			l.pts = append(l.pts, s.pts[i])
			told = append(told, s.told[i])
			if s.hard[i] {
				hard++
			}
			if s.inRow(i) && (l.first < 0 || i < l.first) {
				l.first = i
			}
		}
		l.hard = hard*64 >= len(l.pts)*63
		settle(l.pts, told)
		l.area = area(l.pts)
		all = append(all, l)
	}
	s.nest(all, of)
	return all, nil
}

// inRow reports whether crossing i lies in a row of centres, not between two.
func (s *Scanner) inRow(i int32) bool {
	y := s.pts[i].Y
	return y-float64(int(y)) == 0.5
}
