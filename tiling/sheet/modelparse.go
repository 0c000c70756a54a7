package sheet

import (
	"encoding/hex"
	"encoding/json"
	"fmt"
	"math"
	"strconv"
	"strings"

	"markout/layout/geom"
)

// mostSheets bounds the number of a sheet, of a piece and of a joint.
const mostSheets = 1_000_000

// ParseNests reads what Record gave, as issue.json keeps it; nil where no model was issued. The error says what cannot be true.
// Whether pieces overlap is seen only with their outlines: LayModel does.
func ParseNests(text []byte) (*Nests, error) {
	if len(text) == 0 {
		return nil, nil
	}
	var r *Nests
	if err := json.Unmarshal(text, &r); err != nil {
		return nil, err
	}
	if r == nil {
		return nil, nil
	}
	if err := r.check(); err != nil {
		return nil, err
	}
	return r, nil
}

func (r *Nests) check() error {
	within := func(lo float64, xs ...float64) bool {
		for _, x := range xs {
			if !(x >= lo && x <= geom.MostCoordinate) {
				return false
			}
		}
		return true
	}
	if !within(0, r.Sheet[0], r.Sheet[1], r.Area[0], r.Area[1], r.Area[2], r.Area[3], r.Gap, r.Scale) {
		return fmt.Errorf("the model's sheets, margins or gap cannot be")
	}
	if r.Last < 0 || r.Last > mostSheets {
		return fmt.Errorf("sheet %d cannot be the last", r.Last)
	}
	pieces, before := map[string]bool{}, 0
	for _, s := range r.Sheets {
		if s.Number <= before || s.Number > r.Last {
			return fmt.Errorf("sheet %d stands after sheet %d, of %d", s.Number, before, r.Last)
		}
		before = s.Number
		if !(s.Thick > 0) || !within(0, s.Thick, s.Size[0], s.Size[1]) {
			return fmt.Errorf("sheet %d has a size or card that cannot be", s.Number)
		}
		for _, l := range s.Pieces {
			copyName, number, _, err := readLabel(l.Piece)
			if err != nil {
				return err
			}
			key := copyName + "-" + strconv.Itoa(number)
			if pieces[key] {
				return fmt.Errorf("piece %s lies on the sheets twice", l.Piece)
			}
			pieces[key] = true
			if b, err := hex.DecodeString(l.Shape); err != nil || len(b) != shapeBytes {
				return fmt.Errorf("piece %s has no shape", l.Piece)
			}
			if !within(-geom.MostCoordinate, l.At[0], l.At[1]) || !(math.Abs(l.Turn) <= 360) {
				return fmt.Errorf("piece %s lies nowhere", l.Piece)
			}
		}
	}
	return r.checkElements(within)
}

func (r *Nests) checkElements(within func(lo float64, xs ...float64) bool) error {
	elements, copies := map[string]bool{}, map[string]bool{}
	for _, e := range r.Elements {
		if elements[e.Element] {
			return fmt.Errorf("element %s stands twice", e.Element)
		}
		elements[e.Element] = true
		for _, k := range e.Copies {
			if baseName(k.Copy) != e.Element || copies[k.Copy] {
				return fmt.Errorf("the joints of %s stand twice or under another element", k.Copy)
			}
			copies[k.Copy] = true
			numbers := map[int]bool{}
			for _, j := range k.Joints {
				for _, n := range j {
					if n < 1 || n > mostSheets {
						return fmt.Errorf("%s has a joint or piece with the number %d", k.Copy, n)
					}
				}
				if numbers[j[0]] {
					return fmt.Errorf("%s has two joints J%d", k.Copy, j[0])
				}
				numbers[j[0]] = true
			}
		}
	}
	people := map[string]bool{}
	for _, p := range r.People {
		if people[p.Person] || !within(-geom.MostCoordinate, p.At[0], p.At[1]) {
			return fmt.Errorf("scale figure %s stands twice or nowhere", p.Person)
		}
		people[p.Person] = true
	}
	return nil
}

// readLabel takes a piece's label apart: deck.2-3/5 is piece 3 of the 5 of deck.2.
func readLabel(label string) (copyName string, number, of int, err error) {
	name, rest, ok := cutLast(label, "-")
	a, b, both := strings.Cut(rest, "/")
	number, err1 := strconv.Atoi(a)
	of, err2 := strconv.Atoi(b)
	if !ok || !both || name == "" || err1 != nil || err2 != nil || number < 1 || number > mostSheets || of < number || of > mostSheets {
		return "", 0, 0, fmt.Errorf("%q is no piece's label", label)
	}
	return name, number, of, nil
}

func cutLast(s, sep string) (before, after string, ok bool) {
	i := strings.LastIndex(s, sep)
	if i < 0 {
		return s, "", false
	}
	return s[:i], s[i+len(sep):], true
}
