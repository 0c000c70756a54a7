package layout_test

import (
	"fmt"
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
	"markout/layout/geom"
	"markout/layout/set"
)

// where gives the place of each copy's position as people would measure it: x y z turn.
func where(e *set.Element) []string {
	var out []string
	for _, c := range e.Copies {
		for _, p := range c.Places {
			name := fmt.Sprint(c.Number)
			if p.Position != "" {
				name += " " + p.Position
			}
			out = append(out, fmt.Sprintf("%s: %s %s %s turn %s", name, n(p.Frame.T.X), n(p.Frame.T.Y), n(p.Frame.T.Z), n(p.Frame.TurnDeg())))
		}
	}
	return out
}

// n prints a number to 0.1 without a minus before 0.
func n(x float64) string { return fmt.Sprint(math.Round(x*10)/10 + 0) }

func TestMeasuresAndValues(t *testing.T) {
	for text, want := range map[string]float64{
		"2400":                     2400,
		"2.4m":                     2400,
		"7'-6 1/2\"":               2298.7, // 90.5 × 25.4
		"2 * 150 + 5mm":            305,
		"150mm + 2 * 3":            156,
		"2m * 3m / 1500":           0, // an area over a bare number is an area: see the error tests
		"2m * 3m / 1500mm":         4000,
		"1:12 * 3600mm":            300,
		"450mm / 1:12":             5400,
		"deck.height":              450,
		"deck.top":                 650,
		"deck.level":               200,
		"front.rise":               150,
		"front.total":              450,
		"front.run":                600,
		"front.length":             600,
		"front.going":              300,
		"front.width":              1800,
		"front.top":                650,
		"up.rise":                  450,
		"up.length":                3600,
		"wall.length":              2500,
		"wall.height":              2400,
		"mast.2.top":               1000,
		"edge.length":              1200,
		"front.risers * 100mm":     300,
		"front.total / front.rise": 3, // a count, taken for millimetres where a length is wanted
	} {
		t.Run(text, func(t *testing.T) {
			src := lines("platform deck", "outline rect 3600 x 2400", "height 450", "level 200") +
				lines("steps front", "meets deck.front", "risers 3", "going 300", "width 1800", "level 200") +
				lines("ramp up", "meets deck.back", "slope 1:8", "width 1200", "level 200") +
				lines("flat wall", "from 0,0 to 1500, 2000", "height 2400") +
				lines("mark edge", "path 0,0 line 1200,0") +
				lines("post mast", "diameter 60", "height 500", "stack 2") +
				lines("post probe", "diameter 60", "height "+text)
			if want == 0 {
				wrong(t, src[:len(src)-len(text)-1]+"«"+text+"»\n", "`height` wants a length, and this is an area")
				return
			}
			require.InDelta(t, want, open(t, src).Find("probe").Shape.(*set.Post).Height, 1e-9)
		})
	}
}

func TestFeet(t *testing.T) {
	s := open(t, "set \"F\"\n    units ft\n"+lines("post p", "diameter 3in", "height 7.5", "at 2, -1")+lines("post q", "diameter 3in", "height p.height + 1"))
	require.Equal(t, 7.5*304.8, s.Find("p").Shape.(*set.Post).Height)
	require.InDelta(t, 8.5*304.8, s.Find("q").Shape.(*set.Post).Height, 1e-9)
	require.Equal(t, []string{"1: 609.6 -304.8 0 turn 0"}, where(s.Find("p")))
}

func TestCountNearAWholeNumber(t *testing.T) {
	s := open(t, lines("post p", "diameter 60", "height 700", "repeat 0.3m / 0.1m by 600, 0"))
	require.Len(t, s.Find("p").Copies, 3, "0.3/0.1 is 2.9999999999999996")
}

func TestAnchors(t *testing.T) {
	pieces := lines("platform deck", "outline rect 3600 x 2400", "height 450", "at 0, 3600") +
		lines("platform turned", "outline rect 3600 x 2400", "height 450", "at 0, 3600", "turn 90deg") +
		lines("platform oct", "outline polygon 8 across 4800", "height 450", "at 0, 3600") +
		lines("platform ell", "outline points 0,0 1200,0 1200,400 400,400 400,900 0,900", "height 450") +
		lines("platform drum", "outline circle 900", "height 450", "at 100, 100", "turn 90deg") +
		lines("platform egg", "outline ellipse 2400 x 1200", "height 450") +
		lines("platform bay", "outline path 0,0 line 0,600 arc to 600,0 radius 600 right close", "height 450") +
		lines("flat wall", "from 0,0 to 0, 2000", "height 2400") +
		lines("mark edge", "path 0,0 line 1200,0 1200,900", "at 100, 0") +
		lines("post mast", "diameter 60", "height 500", "repeat 3 by 600, 0") +
		lines("steps front", "meets deck.front", "risers 3", "going 300", "width 1800") +
		lines("ramp up", "meets deck.back", "slope 1:8", "width 1200") +
		lines("hall room", "outline rect 9000 x 8000", "at 0, 3600", "station A -4000, 400", "station B 4000, 400") +
		"let span = 200\n"
	for at, want := range map[string]geom.Point{
		"deck.centre":                       {X: 0, Y: 3600},
		"deck.front":                        {X: 0, Y: 2400},
		"deck.back":                         {X: 0, Y: 4800},
		"deck.left":                         {X: -1800, Y: 3600},
		"deck.right":                        {X: 1800, Y: 3600},
		"deck.stage_left":                   {X: 1800, Y: 3600},
		"deck.stage_right":                  {X: -1800, Y: 3600},
		"deck.edge(2)":                      {X: 1800, Y: 3600},
		"deck.corner(1)":                    {X: -1800, Y: 2400},
		"deck.corner(3)":                    {X: 1800, Y: 4800},
		"deck.corner(1 + 1)":                {X: 1800, Y: 2400},
		"turned.front":                      {X: 1200, Y: 3600},
		"turned.corner(1)":                  {X: 1200, Y: 1800},
		"oct.front":                         {X: 0, Y: 1200},
		"oct.edge(3)":                       {X: 2400, Y: 3600},
		"ell.front":                         {X: 600, Y: 0},
		"ell.corner(4)":                     {X: 400, Y: 400},
		"ell.centre":                        {X: (1200*400*600 + 400*500*200) / 680000.0, Y: (1200*400*200 + 400*500*650) / 680000.0}, // two rectangles
		"drum.front":                        {X: 550, Y: 100},                                                                         // turned a quarter
		"drum.centre":                       {X: 100, Y: 100},
		"egg.right":                         {X: 1200, Y: 0},
		"bay.front":                         {X: 300, Y: 0},
		"bay.edge(2)":                       {X: 300 * math.Sqrt2, Y: 300 * math.Sqrt2}, // the arc's middle
		"wall.start":                        {X: 0, Y: 0},
		"wall.end":                          {X: 0, Y: 2000},
		"wall.along(1200)":                  {X: 0, Y: 1200},
		"edge.start":                        {X: 100, Y: 0},
		"edge.along(1500)":                  {X: 1300, Y: 300},
		"edge.end":                          {X: 1300, Y: 900},
		"mast.3.centre":                     {X: 1200, Y: 0},
		"front.foot":                        {X: 0, Y: 1800},
		"front.landing":                     {X: 0, Y: 2400},
		"up.foot":                           {X: 0, Y: 8400},
		"up.front":                          {X: 0, Y: 8400},
		"room.front":                        {X: 0, Y: -400},
		"room.centre":                       {X: 0, Y: 3600},
		"deck.centre + (200, 50)":           {X: 200, Y: 3650},
		"deck.centre - (span, 50)":          {X: -200, Y: 3550},
		"deck.centre + (1, 1) + (2 * 3, 1)": {X: 7, Y: 3602},
		"200, -1, 5":                        {}, // an error of the text
		"2 * span, deck.height":             {X: 400, Y: 450},
		"A 5m B 5m upstage":                 {X: 0, Y: 3000},
		"A 5m B 5m downstage":               {X: 0, Y: -3000},
		"A 5m deck.front 4m downstage":      {},
	} {
		if want == (geom.Point{}) && at != "wall.start" {
			continue
		}
		t.Run(at, func(t *testing.T) {
			s := open(t, pieces+lines("post probe", "diameter 9", "height 9", "at "+at))
			got := s.Find("probe").Copies[0].Places[0].Frame.T.Plan()
			require.InDelta(t, want.X, got.X, 1e-9)
			require.InDelta(t, want.Y, got.Y, 1e-9)
		})
	}
}

func TestPlacing(t *testing.T) {
	room := lines("hall room", "outline rect 9000 x 8000", "at 1000, 3600", "turn 90deg")
	for name, c := range map[string]struct {
		text string
		want []string
	}{
		"at and turn":        {lines("post p", "diameter 60", "height 700", "at 100, 200", "turn 30deg", "level 50"), []string{"1: 100 200 50 turn 30"}},
		"top":                {lines("post p", "diameter 60", "height 700", "top 4400"), []string{"1: 0 0 3700 turn 0"}},
		"in a hall":          {room + lines("post p", "diameter 60", "height 700", "in room", "at 100, 200", "turn 30deg"), []string{"1: 4800 3700 0 turn 120"}},
		"in, by anchor":      {room + deck + lines("post p", "diameter 60", "height 700", "in room", "at deck.front + (100, 0)"), []string{"1: 0 -1100 0 turn 90"}},
		"in, repeat by":      {room + lines("post p", "diameter 60", "height 700", "in room", "at 0, 0", "repeat 2 by 100, 0", "shift 2 by 0, 10"), []string{"1: 5000 3600 0 turn 90", "2: 4990 3700 0 turn 90"}},
		"on what is in":      {room + lines("platform d", "outline rect 900 x 900", "height 100", "in room", "at 0, 500") + lines("post p", "diameter 60", "height 700", "on d", "at 0, 500"), []string{"1: 4500 3600 100 turn 90"}},
		"on":                 {deck + lines("post p", "diameter 60", "height 700", "on deck", "at 5, 5"), []string{"1: 5 5 450 turn 0"}},
		"on at centre":       {deck + lines("post p", "diameter 60", "height 700", "on deck at centre + (200, 50)"), []string{"1: 200 50 450 turn 0"}},
		"on at corner":       {deck + lines("post p", "diameter 60", "height 700", "on deck at deck.corner(2)"), []string{"1: 1800 -1200 450 turn 0"}},
		"on a copy":          {lines("platform d", "outline rect 900 x 900", "height 100", "repeat 3 by 2000, 0", "level 7") + lines("post p", "diameter 60", "height 700", "on d.2 at front"), []string{"1: 2000 -450 107 turn 0"}},
		"on a stack":         {lines("platform d", "outline rect 900 x 900", "height 100", "stack 3") + lines("post p", "diameter 60", "height 700", "on d.3 at centre"), []string{"1: 0 0 300 turn 0"}},
		"around, out":        {lines("post p", "diameter 60", "height 700", "repeat 4 around 0, 0 radius 1000"), []string{"1: 1000 0 0 turn 90", "2: 0 1000 0 turn 180", "3: -1000 0 0 turn 270", "4: 0 -1000 0 turn 0"}},
		"around, in":         {lines("post p", "diameter 60", "height 700", "repeat 2 around 0, 0 radius 1000 from 90deg facing in"), []string{"1: 0 1000 0 turn 0", "2: 0 -1000 0 turn 180"}},
		"around, same":       {lines("post p", "diameter 60", "height 700", "turn 10deg", "repeat 2 around 0, 0 radius 1000 facing same"), []string{"1: 1000 0 0 turn 10", "2: -1000 0 0 turn 10"}},
		"around, turned":     {lines("post p", "diameter 60", "height 700", "turn 10deg", "repeat 2 around 0, 0 radius 1000"), []string{"1: 1000 0 0 turn 100", "2: -1000 0 0 turn 280"}},
		"around in hall":     {room + lines("post p", "diameter 60", "height 700", "in room", "repeat 2 around 0, 4000 radius 1000 from 10deg facing same"), []string{"1: 826.4 4584.8 0 turn 90", "2: 1173.6 2615.2 0 turn 90"}},
		"around, flats":      {lines("flat p", "from 0, 0 to 1200, 0", "height 700", "repeat 2 around 0, 0 radius 1000 from 270deg"), []string{"1: -600 -1000 0 turn 0", "2: 600 1000 0 turn 180"}},
		"along, spread":      {lines("post p", "diameter 60", "height 700", "repeat 3 along path 0,0 line 1200,0"), []string{"1: 0 0 0 turn 90", "2: 600 0 0 turn 90", "3: 1200 0 0 turn 90"}},
		"along, every":       {lines("mark m", "path 0,0 line 0,1200", "at 50, 0") + lines("post p", "diameter 60", "height 700", "turn 5deg", "repeat 3 along m every 600"), []string{"1: 50 0 0 turn 185", "2: 50 600 0 turn 185", "3: 50 1200 0 turn 185"}},
		"along, closed":      {deck + lines("post p", "diameter 60", "height 700", "repeat 4 along deck"), []string{"1: -1800 -1200 0 turn 90", "2: 1200 -1200 0 turn 90", "3: 1800 1200 0 turn 270", "4: -1200 1200 0 turn 270"}},
		"along, one":         {lines("post p", "diameter 60", "height 700", "repeat 1 along path 0,0 line 1200,0"), []string{"1: 0 0 0 turn 90"}},
		"by and except":      {lines("post p", "diameter 60", "height 700", "at 10, 0", "repeat 4 by 600, 10", "except 1 3", "shift 4 by 0, 200"), []string{"2: 610 10 0 turn 0", "4: 1810 230 0 turn 0"}},
		"stack":              {lines("post p", "diameter 60", "height 700", "stack 2", "level 100"), []string{"1: 0 0 100 turn 0", "2: 0 0 800 turn 0"}},
		"rounds":             {lines("post p", "diameter 60", "height 700", "repeat 2 by 600, 0", "stack 2", "except 3"), []string{"1: 0 0 0 turn 0", "2: 600 0 0 turn 0", "4: 600 0 700 turn 0"}},
		"also":               {lines("post p", "diameter 60", "height 700", "at 1, 2", "turn 5deg", "level 3", `also "two" at 10, 20`, `also "three" at 0, 0 turn 30deg level 600`), []string{"1: 1 2 3 turn 5", "1 two: 10 20 3 turn 5", "1 three: 0 0 600 turn 30"}},
		"also carries":       {lines("platform cart", "outline rect 1000 x 1000", "height 200", `also "two" at 3000, 0 turn 90deg level 50`) + lines("post p", "diameter 60", "height 700", "at 100, 0", "on cart", "repeat 2 by 0, 100"), []string{"1: 100 0 200 turn 0", "1 two: 3000 100 250 turn 90", "2: 100 100 200 turn 0", "2 two: 2900 100 250 turn 90"}},
		"also carries on":    {lines("platform cart", "outline rect 1000 x 1000", "height 200", `also "two" at 3000, 0`) + lines("platform box", "outline rect 100 x 100", "height 100", "on cart", `also "three" at 9, 9`) + lines("post p", "diameter 60", "height 700", "on box"), []string{"1: 0 0 300 turn 0", "1 two: 3000 0 300 turn 0", "1 three: 9 9 300 turn 0"}},
		"on steps":           {lines("steps f", "starts 0, 0 heading 90deg", "risers 3", "rise 150", "going 300", "width 900") + lines("post p", "diameter 60", "height 700", "on f", "at 0, 100", "repeat 2 by 0, 300"), []string{"1: 0 100 150 turn 0", "2: 0 400 300 turn 0"}},
		"on steps' edge":     {lines("steps f", "starts 0, 0 heading 90deg", "risers 3", "rise 150", "going 300", "width 900") + lines("post p", "diameter 60", "height 700", "on f", "at 0, 300"), []string{"1: 0 300 300 turn 0"}},
		"on a ramp":          {lines("ramp r", "starts 0, 0 heading 90deg", "length 3600", "rise 450", "width 1200") + lines("post p", "outline rect 100 x 400", "height 700", "on r", "at 0, 1000"), []string{"1: 0 1000 150 turn 0"}},
		"partly on a ramp":   {lines("ramp r", "starts 0, 0 heading 90deg", "length 3600", "rise 450", "width 1200") + lines("post p", "outline points 0,0 1000,1000 0,1000", "height 700", "on r", "at 200, 0"), []string{"1: 200 0 125 turn 0"}},
		"mark on a ramp":     {lines("ramp r", "starts 0, 0 heading 90deg", "length 3600", "rise 450", "width 1200") + lines("mark p", "point 0, 800", "on r"), []string{"1: 0 800 100 turn 0"}},
		"on a wall":          {lines("flat w", "from 0, 0 to 0, 3000", "height 2400", "thickness 50") + lines("platform p", "outline rect 600 x 200", "height 20", "on w at 1500 level 1400"), []string{"1: 100 1500 1400 turn 90"}},
		"on a wall, left":    {lines("flat w", "from 0, 0 to 0, 3000", "height 2400", "face left", "level 10") + lines("platform p", "outline rect 600 x 200", "height 20", "on w at 1500 level 1400"), []string{"1: -100 1500 1410 turn 270"}},
		"flat":               {lines("flat p", "from 100, 0 to 100, 2000", "height 700", "level 30"), []string{"1: 100 0 30 turn 90"}},
		"ground row":         {lines("shape p", "outline rect 1000 x 300", "stands from 0, 0 to 2000, 0"), []string{"1: 0 0 0 turn 0"}},
		"starts":             {lines("steps p", "starts 100, 200 heading 0deg", "risers 3", "rise 150", "going 300", "width 900"), []string{"1: 100 200 0 turn 270"}},
		"starts in hall":     {room + lines("steps p", "in room", "starts 100, 200 heading 0deg", "risers 3", "rise 150", "going 300", "width 900"), []string{"1: 4800 3700 0 turn 0"}},
		"meets":              {deck + lines("steps p", "meets deck.left", "risers 3", "going 300", "width 900"), []string{"1: -2400 0 0 turn 270"}},
		"meets, both":        {deck + lines("steps p", "meets deck.front", "risers 2", "rise 150", "going 300", "width 900"), []string{"1: 0 -1500 150 turn 0"}},
		"meets, rise":        {deck + lines("steps p", "meets deck.front", "rise 225", "going 300", "width 900"), []string{"1: 0 -1500 0 turn 0"}},
		"meets, offset":      {deck + lines("steps p", "meets deck.front + (300, 0)", "risers 3", "going 300", "width 900"), []string{"1: 300 -1800 0 turn 0"}},
		"meets, shifted":     {deck + lines("steps p", "meets deck.front", "risers 3", "going 300", "width 900", "shift 0 50"), []string{"1: -50 -1800 0 turn 0"}},
		"meets from a level": {deck + lines("platform low", "outline rect 9m x 9m", "height 150") + lines("steps p", "meets deck.front", "risers 2", "going 300", "width 900", "on low"), []string{"1: 0 -1500 150 turn 0"}},
		"meets a landing":    {deck + lines("steps one", "meets deck.front", "risers 3", "going 300", "width 900") + lines("steps p", "meets one.landing", "risers 3", "going 300", "width 900"), []string{"1: 0 -600 0 turn 180"}},
		"from a landing":     {lines("steps one", "starts 0, 0 heading 90deg", "risers 3", "rise 150", "going 300", "width 900") + lines("steps p", "starts one.landing heading one.heading - 90deg", "risers 2", "rise 150", "going 300", "width 900", "level one.top"), []string{"1: 0 600 450 turn 270"}},
		"ramp with rise":     {deck + lines("ramp p", "meets deck.back", "rise 300", "length 2400", "width 900"), []string{"1: 0 3600 150 turn 180"}},
		"mark of points":     {lines("mark p", "point 100,0 200,0 100,50", "turn 90deg"), []string{"1: 100 0 0 turn 90"}},
		"spike":              {lines("mark p", "repeat 2 around 0, 0 radius 900"), []string{"1: 900 0 0 turn 90", "2: -900 0 0 turn 270"}},
	} {
		t.Run(name, func(t *testing.T) { require.Equal(t, c.want, where(open(t, c.text).Find("p"))) })
	}
}

func TestFlights(t *testing.T) {
	flight := func(more ...string) *set.Steps {
		return open(t, lines("steps f", append([]string{"starts 0, 0 heading 90deg"}, more...)...)).Find("f").Shape.(*set.Steps)
	}
	s := flight("risers 4", "total 600", "goings 300 by 10", "landing after 2 depth 1100", "widths 900 by -50", "shift 20")
	require.Equal(t, []float64{150, 150, 150, 150}, s.Rises)
	require.Equal(t, []float64{300, 1100, 310}, s.Goings, "the landing takes the place of a going")
	require.Equal(t, []int{2}, s.Landings)
	require.Equal(t, []float64{900, 850, 800}, s.Widths)
	require.Equal(t, []float64{20, 20, 20}, s.Shifts)
	require.Equal(t, []float64{100, 120}, flight("rises 100 120", "going 300", "width 900").Rises)
	require.Equal(t, 3, len(flight("rise 150", "total 450", "going 300", "width 900").Rises))
	one := flight("risers 1", "rise 150", "width 900")
	require.Empty(t, one.Goings, "one riser lands at once")
	require.Equal(t, []float64{900}, one.Widths)
}

func TestFeetOfFlights(t *testing.T) {
	for name, c := range map[string]struct {
		text string
		on   string
		gap  float64
	}{
		"floor":   {deck + lines("steps f", "meets deck.front", "risers 3", "going 300", "width 900"), "floor", 0},
		"air":     {deck + lines("steps f", "meets deck.front", "risers 2", "rise 150", "going 300", "width 900"), "", 150},
		"a top":   {deck + lines("platform low", "outline rect 9m x 9m", "height 150") + lines("steps f", "meets deck.front", "risers 2", "rise 150", "going 300", "width 900"), "low", 0},
		"over it": {deck + lines("platform low", "outline rect 9m x 9m", "height 140") + lines("steps f", "meets deck.front", "risers 2", "rise 150", "going 300", "width 900"), "", 10},
	} {
		t.Run(name, func(t *testing.T) {
			s := open(t, c.text).Find("f").Shape.(*set.Steps)
			require.Equal(t, c.on, s.FootOn)
			require.InDelta(t, c.gap, s.FootGap, 1e-9)
		})
	}
}

func TestOutlinesOfHalls(t *testing.T) {
	s := open(t, lines("hall h", "outline sides 9012 7988 9005 8010 diagonal 12031", "at 100, 0", "pillar 1000, 2000 circle 400", "pillar 0, 500 size 200 x 300", "tapes 20m class I", "station A 0, 0"))
	h := s.Hall.Shape.(*set.Hall)
	v := h.Outline.Path.Vertices()
	require.Equal(t, geom.Point{X: -4506, Y: 0}, v[0], "the front wall lies on y 0 with its middle at x 0")
	require.InDelta(t, 12031, v[0].Dist(v[2]), 1e-9)
	require.InDelta(t, 8010, v[3].Dist(v[0]), 1e-9)
	require.Equal(t, []string{"1: 100 0 0 turn 0"}, where(s.Hall))
	require.Equal(t, geom.Rect{Min: geom.Point{X: 800, Y: 1800}, Max: geom.Point{X: 1200, Y: 2200}}, h.Pillars[0].Outline.Path.Bounds())
	require.Equal(t, 1, h.Class)

	two := lines("hall a", "outline rect 9m x 8m") + lines("hall b", "outline points 0,0 9m,0 9m,8m 0,8m", "at 100, 0", "station A 0, 0")
	got, list := layout.Open(texts{"m": two}, "m", layout.Options{Hall: "b"})
	require.Empty(t, printed(list))
	require.Equal(t, "b", got.Hall.Name)
	require.Equal(t, []string{"1: 4600 0 0 turn 0"}, where(got.Hall), "x from the middle of its box, y from its front")
	_, list = layout.Open(texts{"m": two}, "m", layout.Options{Hall: "c"})
	require.Contains(t, printed(list), "--hall c: there is no hall of this name")
}

func TestDrawnOutlines(t *testing.T) {
	outline := func(s string) set.Outline {
		return open(t, lines("platform p", "outline "+s, "height 9")).Find("p").Shape.(*set.Platform).Outline
	}
	o := outline(`svg "M0 0 L 900 0 L 900 600 z"`)
	require.Equal(t, geom.Rect{Min: geom.Point{Y: -600}, Max: geom.Point{X: 900}}, o.Path.Bounds(), "read as on paper, y down")
	require.True(t, o.Reversed, "clockwise as people see it on paper")
	require.Equal(t, geom.Point{}, o.Path.Start())
	o = outline("path 0,0 line 900,0 900,600 arc to 0,600 radius 450 left")
	require.True(t, o.Path.Closed(), "closed though it does not say so")
	require.False(t, o.Reversed)
	require.Equal(t, 4, o.Path.Len())
	require.InDelta(t, 900*600+math.Pi*450*450/2, o.Path.Area(), 1e-6)
	o = outline("points 0,0 0,600 900,600 900,0 0,0")
	require.Equal(t, geom.Point{}, o.Path.Start(), "anticlockwise from the front edge's plan-left end, the last point once")
	require.Equal(t, geom.Point{X: 900}, o.Path.Segment(0).To)
	o = outline("points 0,0 1,0 2,0 3,0 4,0 5,0 6,0 7,0 8,0 9,0 9,9 0,9")
	require.Equal(t, 12, o.Path.Len(), "every corner that was typed is kept")
}

func TestPanels(t *testing.T) {
	p := open(t, lines("shape p", "outline rect 1000 x 300", "hole circle 100 at 200, 50", "stands from 0, 0 to 2000, 0", "thickness 18", "brace")).Find("p").Shape.(*set.Panel)
	require.Equal(t, geom.Rect{Min: geom.Point{X: 500}, Max: geom.Point{X: 1500, Y: 300}}, p.Outline.Path.Bounds(), "in the middle of its line, its lowest point at its foot")
	require.Equal(t, geom.Rect{Min: geom.Point{X: 1150, Y: 150}, Max: geom.Point{X: 1250, Y: 250}}, p.Holes[0].Path.Bounds())
	require.True(t, p.Brace)
	p = open(t, lines("shape p", "outline path 100,-50 line 900,-50 500,400", "stands from 0, 0 to 2000, 0")).Find("p").Shape.(*set.Panel)
	require.Equal(t, geom.Rect{Min: geom.Point{X: 100}, Max: geom.Point{X: 900, Y: 450}}, p.Outline.Path.Bounds(), "a drawn one from P")
	lying := open(t, lines("shape p", "outline rect 1000 x 300", "thickness 18")+lines("post q", "diameter 9", "height 9", "on p")).Find("q")
	require.Equal(t, []string{"1: 0 0 18 turn 0"}, where(lying))
}

func TestOpenings(t *testing.T) {
	f := open(t, lines("flat w", "from 0, 0 to 6000, 0", "height 2400", "face left",
		"opening door main at 600 size 800 x 2000\n        hinge left opens up",
		"opening window at 2000 size 900 x 900\n        sill 900",
		"opening window at 2000 size 900 x 900",
		"opening arch at 4000 size 1000 x 2000",
		"opening hole at 5200 size 400 x 400\n        arch 100\n        sill 100")).Find("w").Shape.(*set.Flat)
	require.True(t, f.FaceLeft)
	require.Equal(t, []set.Opening{
		{Word: "door", Name: "main", At: 600, Width: 800, Height: 2000, Hinge: "left", Opens: "up"},
		{Word: "window", At: 2000, Sill: 900, Width: 900, Height: 900},
		{Word: "window", At: 2000, Width: 900, Height: 900},
		{Word: "arch", At: 4000, Width: 1000, Height: 2000, Arch: 500},
		{Word: "hole", At: 5200, Sill: 100, Width: 400, Height: 400, Arch: 100},
	}, f.Openings)
}

func TestSetLine(t *testing.T) {
	s, list := layout.Open(texts{"dir/kiosk.markout": `set "Kiosk"
    production "Low Tide"
    issue AA 2028-02-29
    units in
    scale 1/4" = 1'-0"
    card 1/16" wall 1.5mm
    sides camera
    drawn "A"
    owner "O"
` + lines("post p", "diameter 3", "height 30", "note \"one\"", "note \"two\"", "tape \"red\" 1\"", "full-size floor")}, "dir/kiosk.markout", layout.Options{})
	require.Empty(t, printed(list))
	require.Equal(t, "AA", s.Letter)
	require.Equal(t, "2028-02-29", s.Date)
	require.False(t, s.Trial)
	require.Equal(t, 48.0, s.Scale)
	require.Equal(t, []set.Card{{Thickness: 25.4 / 16}, {Name: "wall", Thickness: 1.5}}, s.Cards)
	require.Equal(t, "camera", s.Sides)
	p := s.Find("p")
	require.Equal(t, []string{"one", "two"}, p.Notes)
	require.Equal(t, &set.Tape{Colour: "red", Width: 25.4}, p.Tape)
	require.Equal(t, []string{"floor"}, p.FullSize)
	s, _ = layout.Open(texts{"dir/kiosk.markout": ""}, "dir/kiosk.markout", layout.Options{Date: "2026-01-02"})
	require.Equal(t, "kiosk", s.Name, "a file without a set is called by its name")
	require.Equal(t, "2026-01-02", s.Date)
	_, list = layout.Open(texts{"k": ""}, "k", layout.Options{Date: "2026-13-02"})
	require.Contains(t, printed(list), "there is no month 13")
}

func TestKeepsAndDims(t *testing.T) {
	s := open(t, deck+lines("post p", "diameter 3", "height 30", "repeat 2 by 900, 0")+"keep deck to p.2 at least 1.8m\nkeep deck to p at least 6'\ndim deck.left to p.2.centre + (9, 0)\ndim deck to 3, 4\n")
	require.Equal(t, "p.2", s.Keeps[0].B)
	require.Equal(t, "p", s.Keeps[1].B)
	require.InDelta(t, 1828.8, s.Keeps[1].AtLeast, 1e-9)
	require.Equal(t, set.Anchor{Words: "p.2.centre + (9, 0)", Element: "p.2", At: geom.Point{X: 909}}, s.Dims[0].B)
	require.Equal(t, set.Anchor{Words: "deck", Element: "deck", Whole: true}, s.Dims[1].A)
	require.Equal(t, set.Anchor{Words: "3, 4", At: geom.Point{X: 3, Y: 4}}, s.Dims[1].B)
}
