package layout_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/geom"
	"markout/layout/set"
)

func TestCone(t *testing.T) {
	s := open(t, lines("cone spire", "lower 900", "upper 0", "height 1800", "at 100, 200", "level 50")+
		lines("cone planter", "sides 4", "lower 300", "upper 450", "height 420", "turn 30deg", "repeat 2 by 600, 0")+
		lines("cone drum", "lower 500", "upper 500", "height 20", "sides 5")+
		lines("post cup", "on planter.2", "at planter.2.centre", "diameter 60", "height spire.lower / 3 + planter.sides * 1mm"))
	spire := s.Find("spire")
	require.Equal(t, &set.Cone{Lower: 900, Height: 1800}, spire.Shape)
	require.Equal(t, []string{"1: 100 200 50 turn 0"}, where(spire))
	require.Equal(t, &set.Cone{Lower: 300, Upper: 450, Height: 420, Sides: 4}, s.Find("planter").Shape)
	require.Equal(t, []string{"1: 0 0 0 turn 30", "2: 600 0 0 turn 30"}, where(s.Find("planter")))
	require.Equal(t, []string{"1: 600 0 420 turn 0"}, where(s.Find("cup")), "it stands on the planter's upper face")
	require.Equal(t, 304.0, s.Find("cup").Shape.(*set.Post).Height)
	require.Equal(t, 5, s.Find("drum").Shape.(*set.Cone).Sides)
}

func TestConeAnchors(t *testing.T) {
	cone := lines("cone c", "sides 4", "lower 300", "upper 450", "height 420", "at 1000, 0")
	for at, want := range map[string]geom.Point{
		"c.centre": {X: 1000}, "c.front": {X: 1000, Y: -225}, "c.corner(3)": {X: 1225, Y: 225}, "c.edge(2)": {X: 1225},
	} {
		s := open(t, cone+lines("mark m", "point "+at))
		got := s.Find("m").Copies[0].Places[0].Frame.T.Plan()
		require.InDelta(t, want.X, got.X, 1e-9, at)
		require.InDelta(t, want.Y, got.Y, 1e-9, at)
	}
}

func TestConeErrors(t *testing.T) {
	cone := func(more ...string) string { return lines("cone c", more...) }
	for name, c := range map[string]struct{ text, want string }{
		"both 0":     {cone("lower 0", "«upper 0»", "height 900"), "`lower` and `upper` are both 0|`lower 900` and `upper 0`"},
		"no height":  {cone("lower 900", "upper 0", "height «0»"), "`height` is more than 0, and this is 0 mm"},
		"below 0":    {cone("lower «-9»", "upper 0", "height 900"), "`lower` is not less than 0"},
		"two sides":  {cone("lower 900", "upper 0", "height 900", "sides «2»"), "`sides` is at least 3, and this is 2"},
		"361 sides":  {cone("lower 900", "upper 0", "height 900", "sides «361»"), "`sides` is more than 360, the limit"},
		"half sides": {cone("lower 900", "upper 0", "height 900", "sides «4.5»"), "`sides` is a whole number"},
		"on a point": {cone("lower 900", "upper 0", "height 900") + lines("post p", "diameter 60", "height 900", "«on c»"), "`c` ends in a point, and nothing stands on it"},
		"no upper":   {lines("cone «c»", "lower 900", "height 900"), "`c` needs its `upper`|`upper 300`"},
	} {
		t.Run(name, func(t *testing.T) { wrong(t, c.text, c.want) })
	}
}

func TestCurvedFlat(t *testing.T) {
	// A quarter of a circle of radius 2000 about 0, 2000: P at 2000, 2000 and Q at 0, 4000 turns left, the thickness inside.
	s := open(t, lines("flat bay", "along path 2000,2000 arc to 0,4000 radius 2000 left", "at 500, 0", "turn 90deg", "height 2400", "thickness 60",
		"opening door at 600 size 800 x 2000"))
	bay := s.Find("bay")
	f := bay.Shape.(*set.Flat)
	require.InDelta(t, 1000*math.Pi, f.Length, 1e-9)
	require.Equal(t, []string{"1: 500 0 0 turn 90"}, where(bay))
	require.Equal(t, geom.Point{X: 2000, Y: 2000}, f.Line.Start())
	require.Len(t, f.Openings, 1)
}

func TestFlatAlongAMark(t *testing.T) {
	s := open(t, lines("mark edge", "path 0,0 line 3000,0 3000,2000", "at 100, 200", "turn 90deg")+
		lines("flat bay", "along edge", "height bay.length / 2", "thickness 60")+
		lines("post p", "at bay.along(4000)", "diameter 60", "height 900")+
		lines("post q", "repeat 3 along bay", "diameter 60", "height 900")+
		lines("shape sign", "outline rect 400 x 300", "thickness 12", "on bay at 3500 level 1400"))
	require.Equal(t, []string{"1: 100 200 0 turn 90"}, where(s.Find("bay")))
	f := s.Find("bay").Shape.(*set.Flat)
	require.Equal(t, 5000.0, f.Length)
	require.Equal(t, 2500.0, f.Height)
	// 1000 up the second piece, which runs to plan-left from 100, 3200.
	require.Equal(t, []string{"1: -900 3200 0 turn 0"}, where(s.Find("p")))
	require.Equal(t, []string{"1: 100 200 0 turn 180", "2: 100 2700 0 turn 180", "3: -1900 3200 0 turn 270"}, where(s.Find("q")))
	// The face looks upstage there, to the right of who walks to plan-left: the sign's left end is at 3300 and stands 12 before it.
	require.Equal(t, []string{"1: -200 3212 1400 turn 180"}, where(s.Find("sign")))
}

func TestCurvedFlatSpreads(t *testing.T) {
	// Its middle lies on the circle: of the arc about 0, −1000 from −1000, −1000 over 0, 0 to 1000, −1000 that is 0, 0.
	s := open(t, lines("flat bay", "along path -1000,-1000 arc to 1000,-1000 radius 1000 right", "height 900", "repeat 2 around 0, 0 radius 500 from 90deg facing same"))
	require.Equal(t, []string{"1: 0 500 0 turn 0", "2: 0 -500 0 turn 0"}, where(s.Find("bay")))
}

func TestCurvedFlatErrors(t *testing.T) {
	bay := func(more ...string) string { return lines("flat w", append(more, "height 2400")...) }
	corner := "along path 0,0 line 1000,0 1000,1000"
	for name, c := range map[string]struct{ text, want string }{
		"neither":         {lines("flat «w»", "height 2400"), "`w` needs its `from` or its `along`"},
		"both":            {bay("from 0,0 to 900,0", "«along path 0,0 line 900,0»"), "`from` and `along` do not go together"},
		"from and at":     {bay("from 0,0 to 900,0", "«at 0, 0»"), "`from` and `at` do not go together"},
		"mark and turn":   {lines("mark m", "path 0,0 line 900,0") + bay("along m", "«turn 9deg»"), "`along` and `turn` do not go together"},
		"along a point":   {lines("mark m", "point 0,0") + bay("along «m»"), "`m` is no line along which a flat can stand"},
		"along itself":    {bay("along «w»"), "`w` cannot run along itself"},
		"closed":          {bay("along path «0,0 line 900,0 900,900 close»"), "this line closes, and a flat has two ends"},
		"ends at start":   {bay("along path «0,0 line 900,0 900,900 0,0»"), "this line closes"},
		"crosses":         {bay("along path «0,0 line 900,0 900,900 450,-450»"), "the line crosses or touches itself: piece 1 and piece 3 at 600 mm, 0 mm"},
		"hollow too deep": {bay("along path «0,0 arc to 80,0 radius 40 left»", "thickness 50"), "piece 1 of the line has a radius of 40 mm, and behind it the flat is 50 mm thick|more than 50 mm fits, or a thickness of less than 40 mm"},
		"too short":       {bay("along path «0,0 line 900,0 900,40 0,40»", "thickness 60"), "piece 2 of the line is too short for a flat 60 mm thick: its corners take 120 mm of the 40 mm|at least 80 mm longer"},
		"turns back":      {bay("along path «0,0 line 900,0 0,100»", "thickness 60"), "after piece 1 the line turns back too sharply"},
		"into itself":     {bay("along path «0,0 line 2000,0 2000,1000 100,1000 100,30»", "thickness 60"), "the flat is 60 mm thick, and there it runs into itself"},
		"door at corner":  {bay(corner, "thickness 60", "«opening door at 1020 size 800 x 2000»"), "the edge of this opening at 1020 mm stands 20 mm beside a corner|keep it 60 mm from the corner at 1000 mm"},
		"door to corner":  {bay(corner, "thickness 60", "«opening door at 190 size 800 x 2000»"), "the edge of this opening at 990 mm stands 10 mm beside a corner|keep it 60 mm from the corner at 1000 mm"},
		"off the end":     {bay("along path 0,0 arc to 1000,0 radius 500 right", "«opening door at 900 size 800 x 2000»"), "this opening ends at 1700 mm, and the flat is 1570.8 mm long|`at 770.8` fits, or a width of 670.8 mm"},
	} {
		t.Run(name, func(t *testing.T) { wrong(t, c.text, c.want) })
	}
	open(t, bay(corner, "thickness 60", "opening door at 1060 size 800 x 2000", "opening door at 90 size 850 x 2000"))
	open(t, bay(corner, "thickness 60", "face left", "opening door at 1000 size 800 x 2000"))
	open(t, bay("along path 0,0 line 1000,0 1000,1000", "thickness 60", "opening window at 500 size 1000 x 900"))
}

func TestOpeningErrors(t *testing.T) {
	wall := func(more ...string) string {
		return lines("flat w", append([]string{"from 0,0 to 3000,0", "height 2400"}, more...)...)
	}
	for name, c := range map[string]struct{ text, want string }{
		"no width":      {wall("opening door at 0 size «0» x 2000"), "`size` is more than 0, and this is 0 mm"},
		"no height":     {wall("opening door at 0 size 800 x «0»"), "`size` is more than 0, and this is 0 mm"},
		"off the end":   {wall("«opening door at 2400 size 800 x 2000»"), "this opening ends at 3200 mm, and the flat is 3000 mm long|`at 2200` fits, or a width of 600 mm"},
		"past the end":  {wall("«opening door at 3000 size 800 x 2000»"), "and the flat is 3000 mm long|`at 2200` is the furthest that fits"},
		"too wide":      {wall("«opening door at 0 size 3100 x 2000»"), "this opening ends at 3100 mm|room for one 3000 mm wide"},
		"too high":      {wall("«opening door at 0 size 800 x 2500»"), "this opening reaches up to 2500 mm|room for one 2400 mm high"},
		"sill too high": {wall("«opening window at 0 size 800 x 1000\n        sill 1500»"), "this opening reaches up to 2500 mm|`sill 1400` fits, or a height of 900 mm"},
		"overlaps":      {wall("opening door at 100 size 800 x 2000", "«opening door at 850 size 800 x 2000»"), "this opening overlaps the door in line 4|at 900 mm it is clear of the others"},
		"no room":       {wall("opening door at 500 size 2000 x 2000", "«opening door at 600 size 800 x 2000»"), "this opening overlaps the door in line 4|there is no room for one 800 mm wide"},
	} {
		t.Run(name, func(t *testing.T) { wrong(t, c.text, c.want) })
	}
}

func TestMadeOf(t *testing.T) {
	s := open(t, "set \"Quay\"\n    card wall 1.5 detail 0.3\n"+
		"board \"foam\" 2400 x 1200 thick 50\nlength \"batten 44\" 44 x 69 long 4800\n"+
		lines("post p", "diameter 60", "height 900", "of \"batten 44\"", "model rod", "turns 180 0 90deg either side")+
		lines("platform d", "outline rect 900 x 900", "height 150", "model detail", "grain across")+
		lines("ring r", "outer 900", "height 150", "model no", "grain along", "either side")+
		lines("flat w", "from 0,0 to 900,0", "height 150", "grain free")+
		lines("cone c", "lower 900", "upper 0", "height 150", "of \"foam\"", "model wall"))
	p := s.Find("p")
	require.Equal(t, "batten 44", p.Material)
	require.Equal(t, "rod", p.Model)
	require.Equal(t, set.Lie{Turns: []float64{0, 90, 180}, EitherSide: true}, p.Lie)
	require.Equal(t, set.Lie{Grain: set.GrainAcross}, s.Find("d").Lie)
	require.Equal(t, "detail", s.Find("d").Model)
	require.Equal(t, set.Lie{Grain: set.GrainAlong, EitherSide: true}, s.Find("r").Lie)
	require.Equal(t, set.Lie{}, s.Find("w").Lie)
	require.Equal(t, "foam", s.Find("c").Material)
	require.False(t, p.Spans["of"].IsZero())
}

func TestMadeOfErrors(t *testing.T) {
	post := func(more ...string) string {
		return "set \"Quay\"\n    card wall 1.5 detail 0.3\n" + lines("post p", append([]string{"diameter 60", "height 900"}, more...)...)
	}
	for name, c := range map[string]struct{ text, want string }{
		"near card":       {post("model «detial»"), "there is no card `detial`|did you mean `detail`?"},
		"no such card":    {post("model «velvet»"), "there is no card `velvet`|the cards of `set` are: wall, detail"},
		"no cards":        {lines("post p", "diameter 60", "height 900", "model «wall»"), "there is no card `wall`|`card wall 1.5`"},
		"near word":       {post("model «rods»"), "there is no card `rods`|did you mean `rod`?"},
		"turns and grain": {post("turns 0 180", "«grain along»"), "`turns` and `grain` do not go together"},
		"turn beyond":     {post("turns 0 «360»"), "a turn is from 0 to less than 360 degrees, and this is 360"},
		"turn twice":      {post("turns 0 90 «0»"), "this turn stands in the list twice"},
		"turn a length":   {post("turns «90mm»"), "`turns` wants angles"},
		"turns stepped":   {post("turns 0 by «90»"), "`turns` lists every turn"},
		"of a mark":       {lines("mark m", "point 0,0", "«of» \"ply 18\""), "`mark` takes no `of`"},
	} {
		t.Run(name, func(t *testing.T) { wrong(t, c.text, c.want) })
	}
}
