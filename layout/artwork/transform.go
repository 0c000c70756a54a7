package artwork

import (
	"math"
	"strings"
)

// parseTransform reads a list of transforms, of which the last works first. Units of CSS are taken: lengths in
// pixels, angles in degrees unless they say otherwise. ok is false where the list is wrong anywhere.
func parseTransform(text string) (m Matrix, ok bool) {
	m = Identity()
	s := scanner{text: text}
	s.space()
	if strings.TrimSpace(text) == "none" {
		return m, true
	}
	for !s.done() {
		t, ok := s.transform()
		if !ok {
			return Identity(), false
		}
		m = t.Then(m)
		s.comma()
	}
	return m, true
}

// transform reads one function and its arguments.
func (s *scanner) transform() (Matrix, bool) {
	name := s.word()
	s.space()
	if !s.take('(') {
		return Matrix{}, false
	}
	s.space()
	var args []float64
	for !s.take(')') {
		x, ok := s.argument()
		if !ok || len(args) == 6 {
			return Matrix{}, false
		}
		args = append(args, x)
		s.comma()
	}
	return transformOf(name, args)
}

// argument reads a number with a unit of length or of angle.
func (s *scanner) argument() (float64, bool) {
	x, ok := s.number()
	if !ok {
		return 0, false
	}
	switch unit := strings.ToLower(s.word()); unit {
	case "deg":
		return x, true
	case "rad":
		return x * 180 / math.Pi, true
	case "grad":
		return x * 0.9, true
	case "turn":
		return x * 360, true
	default:
		px, ok := unitSize(unit, mediumType)
		return x * px, ok
	}
}

// transformOf returns the matrix of a function of SVG 2, section 8.5, or of CSS Transforms 1 in two directions.
func transformOf(name string, v []float64) (Matrix, bool) {
	n := len(v)
	arg := func(i int, otherwise float64) float64 {
		if i < n {
			return v[i]
		}
		return otherwise
	}
	m := Identity()
	switch {
	case name == "matrix" && n == 6:
		m = Matrix{v[0], v[1], v[2], v[3], v[4], v[5]}
	case name == "translate" && (n == 1 || n == 2):
		m.E, m.F = v[0], arg(1, 0)
	case name == "translateX" && n == 1:
		m.E = v[0]
	case name == "translateY" && n == 1:
		m.F = v[0]
	case name == "scale" && (n == 1 || n == 2):
		m.A, m.D = v[0], arg(1, v[0])
	case name == "scaleX" && n == 1:
		m.A = v[0]
	case name == "scaleY" && n == 1:
		m.D = v[0]
	case name == "rotate" && (n == 1 || n == 3):
		sn, cs := math.Sincos(math.Mod(v[0], 360) * math.Pi / 180)
		x, y := arg(1, 0), arg(2, 0)
		m = Matrix{cs, sn, -sn, cs, x - cs*x + sn*y, y - sn*x - cs*y}
	case name == "skewX" && n == 1:
		m.C = math.Tan(v[0] * math.Pi / 180)
	case name == "skewY" && n == 1:
		m.B = math.Tan(v[0] * math.Pi / 180)
	case name == "skew" && (n == 1 || n == 2):
		m.C, m.B = math.Tan(v[0]*math.Pi/180), math.Tan(arg(1, 0)*math.Pi/180)
	default:
		return Matrix{}, false
	}
	return m, m.usable()
}
