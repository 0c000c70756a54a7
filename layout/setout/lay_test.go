package setout

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/set"
)

// What is known of the kiosk's bollards, worked out by hand: from the two stations 8 of the 12 need a tape of over 8 m and
// two cross at 166°.
func TestBollardsFromStations(t *testing.T) {
	l := Lay(kiosk(bollards()))
	long, flat := 0, 0
	for i := range l.Rows {
		r := &l.Rows[i]
		switch {
		case r.Stations.Tape > 8000:
			long++
			require.False(t, r.Stations.Serves)
		case !r.Stations.Serves:
			flat++
			require.InDelta(t, 166, r.Stations.Crossing, 0.5)
			require.Contains(t, []string{"bollard.9", "bollard.10"}, r.Element)
		}
	}
	require.Equal(t, 8, long)
	require.Equal(t, 2, flat)
}

// With a pin at the ring's centre every bollard is laid with tapes of 8 m that cross well.
func TestBollardsFromPin(t *testing.T) {
	l := Lay(kiosk(bollards(), pin(0, 3600)))
	require.Empty(t, l.Unlaid)
	require.Len(t, l.Rows, 13)
	require.Equal(t, "pin point", l.Rows[0].Name(), "pins come first")
	require.True(t, l.Rows[0].Pin)
	known := map[string][2]float64{ // to a tenth
		"bollard.1": {4056.9, 4687.0}, "bollard.3": {1087.0, 7656.9}, "bollard.9": {-1087.0, -456.9}, "bollard.10": {1087.0, -456.9},
	}
	for _, r := range l.Rows {
		requireServed(t, l, &r)
		if k, ok := known[r.Element]; ok {
			require.InDelta(t, k[0], r.At.X, 0.05)
			require.InDelta(t, k[1], r.At.Y, 0.05)
		}
	}
}

// The whole kiosk without a pin: the marks of deck, steps and ramp serve as well.
func TestKiosk(t *testing.T) {
	l := Lay(kiosk(kioskDeck(), frontSteps(), backRamp(), posts(), bollards()))
	require.Empty(t, l.Unlaid)
	require.Equal(t, "ramp corner 3", l.Rows[0].Name(), "the longest line of all is the ramp's, 3600; its far corners wait")
	require.Equal(t, "ramp corner 4", l.Rows[1].Name())
	require.Equal(t, "deck corner 1", l.Rows[2].Name())
	for _, r := range l.Rows {
		requireServed(t, l, &r)
	}
	require.Equal(t, Plumbed, byName(l, "canopy.1 centre").How)
	require.InDelta(t, 450, byName(l, "front riser 3 left").Level+150, 1e-9)
}

func byName(l *Layout, name string) *Row {
	for i := range l.Rows {
		if l.Rows[i].Name() == name {
			return &l.Rows[i]
		}
	}
	return nil
}

// requireServed checks one row against the rules: starts that are there, tapes that reach, tapes that cross well, an error that
// is that of its own tapes with the starts' errors added, and its place found again from the printed figures.
func requireServed(t *testing.T, l *Layout, r *Row) {
	t.Helper()
	require.GreaterOrEqual(t, len(r.Starts), 2, r.Name())
	e := [2]float64{}
	links := 0
	for i, tie := range r.Starts {
		from := tie.At
		own, n := 0.0, 0
		if tie.Row >= 0 {
			s := &l.Rows[tie.Row]
			require.Equal(t, s.Name(), tie.From)
			require.Equal(t, s.At, from)
			require.NotEqual(t, r.Name(), tie.From)
			own, n = s.Error, s.Links
		}
		require.InDelta(t, from.Dist(r.At), tie.Distance, 1e-9)
		if l.Longest > 0 {
			require.LessOrEqual(t, tie.Distance, l.Longest+1e-6)
		}
		if i < 2 {
			e[i] = Allowed(l.Class, tie.Distance) + own
			links = max(links, n+1)
		}
	}
	require.Equal(t, links, r.Links)
	require.GreaterOrEqual(t, r.Crossing, LeastCrossing-1e-6)
	require.LessOrEqual(t, r.Crossing, MostCrossing+1e-6)
	require.InDelta(t, Crossing(r.At, r.Starts[0].At, r.Starts[1].At), r.Crossing, 1e-9)
	require.InDelta(t, CrossingError(e[0], e[1], r.Crossing), r.Error, 1e-6)
	for _, step := range []float64{0.1, 0.5} {
		p, ok := rebuilt(r.Starts[0].At, r.Starts[1].At, toStep(r.Starts[0].Distance, step), toStep(r.Starts[1].Distance, step), r.Side)
		require.True(t, ok)
		// Metres away the circles are straight within a millimetre's reach; very near their bend adds a little.
		require.LessOrEqual(t, p.Dist(r.At), 1.0, r.Name())
	}
	if len(r.Starts) > 2 {
		require.NotEqual(t, r.Starts[2].From, r.Starts[0].From)
		require.NotEqual(t, r.Starts[2].From, r.Starts[1].From)
	}
}

func TestNoStations(t *testing.T) {
	for _, n := range []int{0, 1} {
		s := kiosk(kioskDeck(), pin(0, 3600))
		h := hall(8000, twoStations()[:n]...)
		s.Hall = h
		s.Elements[0] = h
		l := Lay(s)
		require.False(t, l.Measured())
		require.Len(t, l.Rows, 9)
		require.Empty(t, l.Unlaid)
		for _, r := range l.Rows {
			require.Empty(t, r.Starts)
		}
	}
	s := kiosk(kioskDeck())
	s.Hall, s.Elements = nil, s.Elements[1:]
	require.Len(t, Lay(s).Rows, 8)
}

// A point far from the stations that comes first in the file waits until there is something to tape it from.
func TestWaitingPoints(t *testing.T) {
	line := bollards()
	line.Copies = line.Copies[:0]
	for i := range 40 {
		line.Copies = append(line.Copies, at(float64(i%2)*900, float64(40-i)*1500, 0, 0)[0])
		line.Copies[i].Number = i + 1
	}
	l := Lay(kiosk(line))
	require.Empty(t, l.Unlaid)
	for i, r := range l.Rows {
		requireServed(t, l, &r)
		for _, tie := range r.Starts {
			require.Less(t, tie.Row, i)
		}
	}
	require.Greater(t, l.Rows[39].Links, 5)
}

func TestUnlaid(t *testing.T) {
	s := kiosk(pin(0, 3600))
	far := pin(0, 50000)
	far.Name = "far"
	s.Elements = append(s.Elements, far)
	l := Lay(s)
	require.Equal(t, []int{1}, l.Unlaid)
	require.Equal(t, "far point", l.Rows[1].Name())
	require.Empty(t, l.Rows[1].Starts)
	require.Equal(t, "needs a tape of 50.2 m, and tapes would cross at 9°", l.note(&l.Rows[1]))

	l = Lay(kiosk(pin(0, 100)))
	require.Equal(t, []int{0}, l.Unlaid)
	require.Equal(t, "tapes would cross at 177°", l.note(&l.Rows[0]))
	require.Contains(t, l.notes()[len(l.notes())-1], "Nothing serves pin point")
}

// A mark common to two pieces is one mark.
func TestSameMark(t *testing.T) {
	s := kiosk(kioskDeck(), frontSteps())
	second := frontSteps()
	second.Name = "second"
	s.Elements = append(s.Elements, second)
	l := Lay(s)
	a, b := byName(l, "front riser 1 left"), byName(l, "second riser 1 left")
	require.Equal(t, -1, a.Same)
	require.Equal(t, a.Name(), l.Rows[b.Same].Name())
	require.Equal(t, a.Starts, b.Starts)
	require.Equal(t, a.Error, b.Error)
	require.False(t, math.IsNaN(b.Error))
}

// Marks on a deck are taped on it from marks whose pieces reach its level, and only then.
func TestOnLevel(t *testing.T) {
	s := kiosk(kioskDeck())
	s.Hall.Shape.(*set.Hall).TapeLong = 5400 // too short from the stations
	post := &set.Element{Name: "lamp", Shape: &set.Post{Outline: circle(60), Diameter: 60, Height: 900}, Copies: at(200, 5200, 450, 0)}
	s.Elements = append(s.Elements, post)
	l := Lay(s)
	r := byName(l, "lamp centre")
	require.Equal(t, OnLevel, r.How, "%+v", r.Starts)
	require.Equal(t, "taped on its level", l.note(r))
	post.Copies = at(200, 5200, 300, 0)
	require.Equal(t, Plumbed, byName(Lay(s), "lamp centre").How)
}
