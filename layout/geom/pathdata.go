package geom

import (
	"fmt"
	"math"
	"strconv"
)

// MostCoordinate is the greatest coordinate in millimetres: 10 km.
const MostCoordinate = 1e7

// DataError says what is wrong in path data and where.
type DataError struct {
	Offset  int // byte offset in the data
	Message string
}

func (e *DataError) Error() string {
	return fmt.Sprintf("path data, byte %d: %s", e.Offset+1, e.Message)
}

// ParsePathData reads SVG path data: every command, by the grammar of SVG 1.1 (section 8.3.9) and SVG 2
// (section 9.3.9), numbers with exponents, arc flags without separators and repeated arguments included. It
// returns one path for each subpath that draws something, in the axes and units as typed, which SVG reads
// with y down. Every typed vertex stays; quadratic curves become the same cubics; arcs are kept exactly.
// A subpath of a place and a close becomes a line without length, which pens with round ends show.
//
// The error is a *DataError. By SVG's rule the paths up to the command that is wrong come with it.
// Coordinates, handles and arcs beyond MostCoordinate are refused.
func ParsePathData(d string) ([]*Path, error) {
	r := dataReader{data: d}
	err := r.read()
	return r.paths, err
}

// dataReader reads path data. at is the next byte; an error stops it at the first bad one.
type dataReader struct {
	data  string
	at    int
	paths []*Path
	path  *Path // the subpath being drawn, nil before its first segment
	start Point // of the subpath
	pen   Point // the current point
	// The last handle, in the meaning of the command that left it: C for the cubics, Q for the quadratics, 0
	// for none.
	handle   Point
	handleOf byte
}

func (r *dataReader) fail(at int, format string, args ...any) error {
	return &DataError{Offset: at, Message: fmt.Sprintf(format, args...)}
}

func (r *dataReader) read() error {
	r.space()
	for first := true; r.at < len(r.data); first = false {
		at, c := r.at, r.data[r.at]
		if first && c != 'M' && c != 'm' {
			return r.fail(at, "path data starts with M or m")
		}
		if !isCommand(c) {
			return r.fail(at, "%s where a command is wanted", r.found(at))
		}
		r.at++
		if err := r.command(c); err != nil {
			return err
		}
		r.space()
	}
	return nil
}

// command reads the arguments of c, as often as they are repeated.
func (r *dataReader) command(c byte) error {
	if c == 'Z' || c == 'z' {
		r.close()
		return nil
	}
	r.space()
	for {
		at := r.at
		if err := r.draw(c, at); err != nil {
			return err
		}
		// Further pairs of a move are lines.
		switch c {
		case 'M':
			c = 'L'
		case 'm':
			c = 'l'
		}
		comma := r.separator()
		if !r.numberNext() {
			if comma >= 0 {
				return r.fail(comma, "a comma that no number follows")
			}
			return nil
		}
	}
}

// draw reads one set of arguments of c, which start at byte at, and draws it.
func (r *dataReader) draw(c byte, at int) error {
	relative := c >= 'a'
	var o Point
	if relative {
		o = r.pen
	}
	var n [6]float64
	kind := c &^ 0x20 // upper case
	count := 2
	switch kind {
	case 'H', 'V':
		count = 1
	case 'S', 'Q':
		count = 4
	case 'C':
		count = 6
	case 'A':
		return r.arc(o, at)
	}
	for i := range count {
		if i > 0 {
			r.separator()
		}
		x, err := r.number(c)
		if err != nil {
			return err
		}
		n[i] = x
	}
	a, b, e := o.Add(Point{n[0], n[1]}), o.Add(Point{n[2], n[3]}), o.Add(Point{n[4], n[5]})
	mirror := func(of byte) Point {
		if r.handleOf == of {
			return r.pen.Add(r.pen.Sub(r.handle))
		}
		return r.pen
	}
	switch kind {
	case 'M':
		return r.move(a, at)
	case 'H':
		return r.segment(Segment{Kind: Line, To: Point{a.X, r.pen.Y}}, at, 0, Point{})
	case 'V':
		return r.segment(Segment{Kind: Line, To: Point{r.pen.X, o.Y + n[0]}}, at, 0, Point{})
	case 'L':
		return r.segment(Segment{Kind: Line, To: a}, at, 0, Point{})
	case 'C':
		return r.segment(Segment{Kind: Cubic, C1: a, C2: b, To: e}, at, 'C', b)
	case 'S':
		return r.segment(Segment{Kind: Cubic, C1: mirror('C'), C2: a, To: b}, at, 'C', a)
	case 'Q':
		return r.quadratic(a, b, at)
	}
	return r.quadratic(mirror('Q'), a, at) // T
}

// quadratic draws the cubic that is the quadratic curve with handle q.
func (r *dataReader) quadratic(q, to Point, at int) error {
	return r.segment(Segment{Kind: Cubic, C1: r.pen.Lerp(q, 2.0/3), C2: to.Lerp(q, 2.0/3), To: to}, at, 'Q', q)
}

// arc reads the arguments of an arc, which start at byte at, and draws it. o is what its end counts from.
func (r *dataReader) arc(o Point, at int) error {
	var n [5]float64 // rx, ry, turn, x, y
	var flags [2]bool
	for i := range 3 {
		x, err := r.number('A')
		if err != nil {
			return err
		}
		n[i] = x
		r.separator()
	}
	for i := range flags {
		if r.at >= len(r.data) || r.data[r.at] != '0' && r.data[r.at] != '1' {
			return r.fail(r.at, "%s where an arc's flag, 0 or 1, is wanted", r.found(r.at))
		}
		flags[i] = r.data[r.at] == '1'
		r.at++
		r.separator()
	}
	for i := 3; i < 5; i++ {
		x, err := r.number('A')
		if err != nil {
			return err
		}
		n[i] = x
		if i == 3 {
			r.separator()
		}
	}
	to := o.Add(Point{n[3], n[4]})
	if !inReach(to) {
		return r.beyond(at)
	}
	r.handleOf = 0
	if to == r.pen {
		return nil // an arc between equal ends is left out
	}
	s := svgArc(r.pen, to, n[0], n[1], n[2], flags[0], flags[1])
	if s.RX > greatestRadius || s.RY > greatestRadius {
		return r.beyond(at)
	}
	if b := s.Bounds(); !inReach(b.Min) || !inReach(b.Max) {
		return r.beyond(at)
	}
	return r.segment(s, at, 0, Point{})
}

func (r *dataReader) beyond(at int) error {
	return r.fail(at, "a coordinate beyond %d", int(MostCoordinate))
}

// inReach is false for what is not a number, too.
func inReach(p Point) bool {
	return math.Abs(p.X) <= MostCoordinate && math.Abs(p.Y) <= MostCoordinate
}

func (r *dataReader) move(to Point, at int) error {
	if !inReach(to) {
		return r.beyond(at)
	}
	r.path, r.start, r.pen, r.handleOf = nil, to, to, 0
	return nil
}

// segment draws s from the current point. handleOf and handle are what a following S or T mirrors.
func (r *dataReader) segment(s Segment, at int, handleOf byte, handle Point) error {
	s.From = r.pen
	if !inReach(s.To) || !inReach(s.C1) || !inReach(s.C2) || !inReach(handle) {
		return r.beyond(at)
	}
	if r.path == nil {
		r.path = NewPath(r.pen)
		r.paths = append(r.paths, r.path)
	}
	r.path.Append(s)
	r.pen, r.handle, r.handleOf = s.To, handle, handleOf
	return nil
}

func (r *dataReader) close() {
	if r.path == nil {
		r.path = NewPath(r.pen)
		r.path.LineTo(r.pen)
		r.paths = append(r.paths, r.path)
	}
	r.path.Close()
	r.path, r.pen, r.handleOf = nil, r.start, 0
}

func isCommand(c byte) bool {
	switch c &^ 0x20 {
	case 'M', 'Z', 'L', 'H', 'V', 'C', 'S', 'Q', 'T', 'A':
		return c >= 'A'
	}
	return false
}

// space skips white space.
func (r *dataReader) space() {
	for r.at < len(r.data) {
		switch r.data[r.at] {
		case ' ', '\t', '\n', '\f', '\r':
			r.at++
		default:
			return
		}
	}
}

// separator skips white space with at most one comma in it and returns where the comma was, −1 for none.
func (r *dataReader) separator() (comma int) {
	r.space()
	if r.at >= len(r.data) || r.data[r.at] != ',' {
		return -1
	}
	comma = r.at
	r.at++
	r.space()
	return comma
}

// numberNext reports whether the next byte can start a number.
func (r *dataReader) numberNext() bool {
	if r.at >= len(r.data) {
		return false
	}
	c := r.data[r.at]
	return digit(c) || c == '+' || c == '-' || c == '.'
}

func digit(c byte) bool { return c >= '0' && c <= '9' }

// digits skips digits from byte i on.
func (r *dataReader) digits(i int) int {
	for i < len(r.data) && digit(r.data[i]) {
		i++
	}
	return i
}

// number reads one number of command c: a sign, digits with a point before, among or after them, an exponent.
// An e that no digits follow is not part of it.
func (r *dataReader) number(c byte) (float64, error) {
	from, i := r.at, r.at
	if i < len(r.data) && (r.data[i] == '+' || r.data[i] == '-') {
		i++
	}
	whole := i
	i = r.digits(i)
	count := i - whole
	if i < len(r.data) && r.data[i] == '.' {
		end := r.digits(i + 1)
		count += end - i - 1
		if count > 0 {
			i = end
		}
	}
	if count == 0 {
		return 0, r.fail(from, "%s where a number of %c is wanted", r.found(from), c)
	}
	if i < len(r.data) && (r.data[i] == 'e' || r.data[i] == 'E') {
		j := i + 1
		if j < len(r.data) && (r.data[j] == '+' || r.data[j] == '-') {
			j++
		}
		if end := r.digits(j); end > j {
			i = end
		}
	}
	x, err := strconv.ParseFloat(r.data[from:i], 64)
	if err != nil {
		return 0, r.fail(from, "a number too great to use")
	}
	r.at = i
	return x, nil
}

// found names what stands at byte at, for messages.
func (r *dataReader) found(at int) string {
	if at >= len(r.data) {
		return "the end"
	}
	for _, c := range r.data[at:] {
		return strconv.QuoteRune(c)
	}
	return ""
}
