// Package setout works out how a set is measured out on the floor: the tape table, what a tape's class allows it to be
// wrong, clear distances between pieces, what enters a volume kept clear, and the measures of each piece.
//
// Places are plan millimetres in the set's axes, angles degrees. Distances are level: a point above the floor is taped
// on the floor straight below it, unless both starts lie on its own level.
//
// What can stop a tape is asked in one place, layer.reaches, which knows its length; lines blocked by pillars or by
// what is built belong there. What is laid in which order and from where stands in Rows, so that other ways to lay the
// same points (running figures along the centre line, offsets of a curve, squares) are made from it beside Table.
package setout

import (
	"markout/layout/geom"
	"markout/layout/set"
)

// Layout is how all floor marks of a set are laid.
type Layout struct {
	Set      *set.Set
	Stations []Station
	Longest  float64 // length of the longest tape; 0 where none was given and any is taken to be at hand
	Class    int     // MI-008 accuracy class of the tapes, 1 to 3
	Rows     []Row   // in laying order
	Unlaid   []int   // indices of the rows that nothing serves; empty without two stations
}

// Station is a fixed point that tapes start from, in the set's axes.
type Station struct {
	Name string
	At   geom.Point
}

// Row is one point to be marked and how it is found.
type Row struct {
	Element string // with the copy's number and the position: bollard.3, cart (scene 2)
	Point   string
	Of      *set.Element
	At      geom.Point
	Level   float64
	Top     float64   // the level of the piece's upper face straight over the point; Level where there is none
	Tape    *set.Tape // nil where the element names none
	Pin     bool
	Run     float64       // length of the line, arc or curve taped from here to the element's next row, 0 for none
	Along   [3]geom.Point // of that line, as of a set.FloorPoint

	Starts   []Tie   // two, and a third as a check where one serves; empty where nothing serves
	Side     string  // on which side of the line through the first two starts
	Crossing float64 // of the first two tapes at the point
	Error    float64 // the greatest that the class allows by that crossing, the laid starts' own errors added
	Links    int     // tapes back to a station: 1 from two stations
	How      How
	Same     int   // index of an earlier row at the same place, whose mark this is; −1 for none
	Stations Reach // what two stations alone would do
	Best     Reach // where nothing serves: the pair of starts that comes nearest to it
}

// Tie is one tape to a point.
type Tie struct {
	From     string // a station's name, or an earlier row's element and point
	At       geom.Point
	Distance float64
	Row      int // index of that earlier row, −1 for a station
}

// How says how a point above or below the floor comes to its level.
type How uint8

const (
	OnFloor How = iota
	OnLevel     // taped from two points of its own level, or from what stands straight over them there
	Plumbed     // marked on the floor straight below, and plumbed
)

// Reach says how near a pair of starts comes to fixing a point.
type Reach struct {
	Serves   bool
	Tape     float64 // the longer of the two distances; 0 where there is no pair
	Crossing float64
	Error    float64
}

// Measured reports whether there are the two stations that a tape table needs.
func (l *Layout) Measured() bool { return len(l.Stations) >= 2 }

// Name returns the row's name as a start of later rows.
func (r *Row) Name() string { return r.Element + " " + r.Point }

// stations returns those of the hall worked in, laid into the set's axes.
func stations(s *set.Set) (list []Station, longest float64, class int) {
	class = 2
	if s.Hall == nil || len(s.Hall.Copies) == 0 || len(s.Hall.Copies[0].Places) == 0 {
		return nil, 0, class
	}
	hall, ok := s.Hall.Shape.(*set.Hall)
	if !ok {
		return nil, 0, class
	}
	m := s.Hall.Copies[0].Places[0].Frame.Plan()
	for _, st := range hall.Stations {
		list = append(list, Station{st.Name, m.Apply(st.At)})
	}
	if hall.Class >= 1 && hall.Class <= 3 {
		class = hall.Class
	}
	return list, hall.TapeLong, class
}
