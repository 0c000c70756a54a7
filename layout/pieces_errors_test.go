package layout_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout"
)

func TestPieceErrors(t *testing.T) {
	post := func(more ...string) string {
		return lines("post p", append([]string{"diameter 60", "height 700"}, more...)...)
	}
	wall := func(more ...string) string {
		return lines("flat w", append([]string{"from 0, 0 to 3000, 0", "height 2400"}, more...)...)
	}
	shape := func(outline string, more ...string) string {
		return lines("shape s", append([]string{"outline " + outline}, more...)...)
	}
	flight := func(more ...string) string {
		return lines("steps f", append([]string{"starts 0, 0 heading 90deg", "width 900"}, more...)...)
	}
	for name, c := range map[string]struct{ text, want string }{
		"needs its height":        {lines("platform «deck»", "outline rect 100 x 100"), "`deck` needs its `height`|write `height 450`"},
		"needs its outline":       {lines("platform «deck»", "height 100"), "`deck` needs its `outline`"},
		"unknown attribute":       {post("«weight» 3kg"), "`post` takes no `weight`"},
		"name twice":              {deck + "let «deck» = 3\n", "`deck` is a name already; the first is at main.markout:1:10"},
		"set twice":               {"set \"A\"\n«set» \"B\"\n", "there is one `set`, and the first is at main.markout:1:1"},
		"deck thicker":            {lines("platform d", "outline rect 9 x 9", "height 12", "deck «18»"), "the board is thicker than the platform is high: 18 mm and 12 mm"},
		"two thicknesses of post": {post("«outline rect 50 x 50»"), "`diameter` and `outline` do not go together"},
		"ring inside out":         {lines("ring r", "outer 900", "inner «1000»", "height 100"), "the inner edge does not lie inside the outer one"},
		"ring touches":            {lines("ring r", "outer rect 900 x 900", "inner «circle 900»", "height 100"), "does not lie inside"},
		"level and top":           {post("level 100", "«top 900»"), "`level` and `top` do not go together"},
		"level and on":            {deck + post("on deck", "«level 900»"), "`on` and `level` do not go together"},
		"on itself":               {post("on «p»"), "`p` cannot sit on itself"},
		"on a place":              {deck + post("on deck.«front»"), "an element is wanted here, not a place"},
		"on a hall":               {lines("hall h", "outline rect 9m x 9m") + post("on «h»"), "a hall is worked in|write `in h`"},
		"on a reserve":            {lines("reserve r", "outline circle 900", "height 900") + post("on «r»"), "nothing sits on it"},
		"on at and at":            {deck + post("on deck at centre", "«at 0, 0»"), "both say where it stands"},
		"level on a deck":         {deck + post("on deck at centre level «300»"), "`deck` is no flat"},
		"in a deck":               {deck + post("in «deck»"), "`deck` is no hall"},
		"no tread there":          {flight("risers 3", "rise 150", "going 300") + post("«on f»", "at 0, 700"), "no tread of `f` lies under 0 mm, 700 mm"},
		"not over the ramp":       {lines("ramp r", "starts 0, 0 heading 90deg", "length 3600", "rise 450", "width 1200") + post("«on r»", "at 900, 700"), "this does not stand over `r`"},
		"beyond the face":         {wall() + post("on w at «3100» level 900"), "`w` is 3000 mm long, and this is at 3100 mm"},

		"on a face, no level": {wall() + post("on w at «1500»"), "a place on a face has a level too|write `on w at 1500 level 1400`"},
		"a broken line":       {post("also «at» 0, 0"), "a text in double quotes is wanted here"},
		"anchor misspelt":     {deck + post("at deck.«frnt»"), "`deck` has no place `frnt`|did you mean `deck.front`?"},
		"centre as elsewhere": {deck + post("at deck.«center»"), "has no place `center`|did you mean `deck.centre`?"},
		"a value is no place": {deck + post("at deck.«height»"), "`deck.height` is one value, and a place is wanted here"},
		"a piece is no place": {deck + post("at «deck»"), "`deck` is a piece, and one place of it is wanted here|`deck.centre`"},
		"edge without number": {deck + post("at deck.«edge»"), "`edge` wants to know which|write `deck.edge(1)`"},
		"edge too far":        {deck + post("at deck.edge(«5»)"), "`deck` has 4 edges"},
		"corner too far":      {deck + post("at deck.corner(«9»)"), "`deck` has 4 corners"},
		"front in brackets":   {deck + post("at deck.front(«2»)"), "`front` takes nothing in brackets"},
		"edge of a round one": {post() + lines("mark m", "point p.«edge(1)»"), "a round outline has no edges"},
		"along too far":       {wall() + lines("mark m", "point w.along(«3001»)"), "`w` is 3000 mm long"},
		"a copy's number":     {post("repeat 3 by 600, 0") + lines("mark m", "point «p.centre»"), "`p` has 3 copies, and one is wanted here|say which: `p.1.centre`"},
		"a copy too far":      {post("repeat 3 by 600, 0") + lines("mark m", "point p.«4».centre"), "`p` has copies 1 to 3"},
		"a copy left out":     {post("repeat 3 by 600, 0", "except 2") + lines("mark m", "point p.«2».centre"), "copy 2 of `p` is left out"},
		"a copy of one":       {post() + lines("mark m", "point p.«1».centre"), "`p` is one piece and has no copies|write `p` alone"},
		"level of a stack":    {post("stack 3") + lines("post q", "diameter 9", "height 9", "level «p.top»"), "`p` has 3 copies|say which: `p.1.top`"},

		"except beyond":          {post("repeat 3 by 600, 0", "except «4»"), "`p` has copies 1 to 3"},
		"except all":             {post("repeat 2 by 600, 0", "«except 1 2»"), "this leaves no copy of `p`"},
		"except of one":          {post("«except 1»"), "`except` leaves out copies, and `p` is one piece"},
		"shift beyond":           {post("repeat 3 by 600, 0", "shift «4» by 0, 9"), "`p` has copies 1 to 3"},
		"shift one left out":     {post("repeat 3 by 600, 0", "except 2", "shift «2» by 0, 9"), "copy 2 is left out"},
		"shift twice":            {post("repeat 3 by 600, 0", "shift 2 by 0, 9", "shift «2» by 0, 9"), "copy 2 is shifted twice"},
		"stack of marks":         {lines("mark m", "point 0,0", "«stack» 3"), "`mark` takes no `stack`"},
		"stack of nothing":       {shape("rect 9 x 9", "«stack 3»"), "`s` has no height, so it cannot be stacked"},
		"too many copies":        {post("repeat 200 by 600, 0", "«stack 51»"), "this makes 10200 copies, more than 10000, the limit"},
		"at and around":          {post("«at 0, 0»", "repeat 3 around 0, 0 radius 900"), "`repeat … around` says where the copies stand"},
		"by nothing":             {post("«repeat 3 by 0, 0»"), "the copies would all stand in one place"},
		"does not fit":           {post("repeat 4 along path 0,0 line 1200,0 every «600»"), "copy 4 does not fit: the line is 1200 mm long, room for 3 copies"},
		"does not fit, closed":   {deck + post("repeat 5 along deck every «3000»"), "copy 5 does not fit: the line is 12000 mm long, room for 4 copies"},
		"along no line":          {flight("risers 3", "rise 150", "going 300") + post("repeat 5 along «f»"), "`f` is no line along which copies can stand"},
		"also and repeat":        {post("repeat 3 by 600, 0", "«also \"two\" at 0, 0»"), "`repeat` and `also` do not go together"},
		"also twice":             {post("also \"two\" at 0, 0", "«also \"two\" at 9, 0»"), "two positions called \"two\""},
		"beyond 10 km":           {post("«at 9999990, 0»"), "`p` reaches more than 10 km"},
		"beyond 10 km by copies": {post("«repeat 9999 by 6m, 0»"), "`p` reaches more than 10 km"},

		"tapes too short":    {lines("hall h", "outline rect 9m x 9m", "station A -1000,0", "station B 1000,0") + post("at «A 900 B 900 upstage»"), "the tapes do not meet: their starts are 2000 mm apart, and the distances are 900 mm and 900 mm"},
		"polygon odd across": {shape("polygon «7» across 900"), "only an even number of corners|`polygon 7 corners 900`"},
		"polygon of two":     {shape("polygon «2» corners 900"), "`polygon` is at least 3"},
		"rect of nothing":    {shape("rect «0» x 900"), "`rect` is more than 0"},
		"circle of 25 km":    {shape("circle «25000m»"), "more than 10 km"},
		"two points":         {shape("points «0,0 900,0»"), "an outline has at least 3 corners, and here are 2"},
		"point twice":        {shape("points «0,0 900,0 900,0 0,900»"), "points 2 and 3 are one place"},
		"self-crossing":      {shape("«points 0,0 900,900 900,0 0,900»"), "the outline crosses or touches itself: edge 1 and edge 3 meet at 450, 450"},
		"no area":            {shape("«points 0,0 900,0 1800,0»"), "the outline"},
		"arc does not reach": {shape("path 0,0 line 900,0 arc to 900,900 radius «300» left close"), "an arc of this radius does not reach: its ends are 900 mm apart|the least radius is 450 mm"},
		"arc in line":        {shape("path 0,0 line 900,0 «arc to 900,900 through 900,450» close"), "stand in one line"},
		"svg breaks off":     {shape("svg \"M0 0 L 900 0 L 900 «x»\""), "this path data breaks off here"},
		"svg of two":         {shape("svg «\"M0 0 L 900 0 L 900 900 z M 0 0 L 9 0 L 9 9 z\"»"), "this path data has 2 lines"},
		"diagonal":           {lines("hall h", "outline sides 9012 7988 9005 8010 diagonal «22000»"), "the front wall and the second side and this diagonal close no triangle|between 1024 mm and 17000 mm"},
		"three sides":        {lines("hall h", "outline sides «9012 7988 9005» diagonal 12000"), "a measured hall has 4 sides, and here are 3"},
		"station twice":      {lines("hall h", "outline rect 9m x 9m", "station A 0,0", "station «A» 9,0"), "`h` has two stations called `A`"},
		"two halls":          {lines("hall h", "outline rect 9m x 9m") + lines("hall «g»", "outline rect 9m x 9m"), "there are several halls|`--hall g`"},

		"opening off the end": {wall("«opening door at 2400 size 800 x 2000»"), "this opening ends at 3200 mm, and the flat is 3000 mm long"},
		"opening off the top": {wall("«opening window at 0 size 800 x 2000\n        sill 900»"), "this opening reaches up to 2900 mm, and the flat is 2400 mm high"},
		"openings overlap":    {wall("opening door at 0 size 800 x 2000", "«opening door at 700 size 800 x 2000»"), "this opening overlaps the door in line 4"},
		"opening before P":    {wall("opening door at «-1» size 800 x 2000"), "`at` is not less than 0"},
		"arch too high":       {wall("opening arch at 0 size 800 x 500\n        arch «600»"), "the arch rises 600 mm, and the opening is only 500 mm high"},
		"half round too high": {wall("opening arch at 0 size «1800 x 500»"), "a half-round arch 1800 mm wide is 900 mm high, more than the opening|`arch 500`"},
		"P is Q":              {lines("flat w", "«from 9, 9 to 9, 9»", "height 900"), "P and Q are one place"},
		"stands and at":       {shape("rect 9 x 9", "stands from 0,0 to 9,0", "«at 0, 0»"), "P and Q say where it stands"},
		"a lying brace":       {shape("rect 9 x 9", "«brace»"), "a lying piece has no brace"},
		"hole outside":        {shape("rect 900 x 900", "«hole circle 300 at 400, 0»"), "this hole does not lie inside the outline"},
		"holes meet":          {shape("rect 900 x 900", "hole circle 300", "«hole circle 300 at 100, 0»"), "this hole runs into hole 1"},
		"mark of nothing":     {lines("mark «m»", "dashed"), "`m` needs its `point` or its `path`"},
		"dashed point":        {lines("mark m", "point 0,0", "«dashed»"), "`dashed` is of a line"},
		"point and at":        {lines("mark m", "point 0,0", "«at 9,0»"), "`point` and `at` do not go together"},

		"tape without unit":     {"set \"F\"\n    units ft\n" + post("tape \"white\" «1»"), "`tape` needs a unit in a set that is not in mm|write `1mm` or `1ft`"},
		"card without unit":     {"set \"F\"\n    units in\n    card wall «1.5»\n", "`card` needs a unit"},
		"issue letter I":        {"set \"F\"\n    issue «I 2026-11-20»\n", "`I` is no issue letter|letters skip I and O"},
		"issue without date":    {"set \"F\"\n    issue «B»\n", "an issue has a letter and a date"},
		"no such day":           {"set \"F\"\n    issue «B 2026-02-29»\n", "that month has no day 29"},
		"scale without its end": {"set \"F\"\n    scale 1«:»\n", "a number is wanted here"},
		"keep to itself":        {deck + "keep deck to «deck» at least 900\n", "`deck` is as near to itself as can be"},
	} {
		t.Run(name, func(t *testing.T) { wrong(t, c.text, c.want) })
	}
}

func TestFlightErrors(t *testing.T) {
	starts := func(more ...string) string {
		return lines("steps «f»", append([]string{"starts 0, 0 heading 90deg", "width 900"}, more...)...)
	}
	flight := func(more ...string) string {
		return lines("steps f", append([]string{"starts 0, 0 heading 90deg", "width 900"}, more...)...)
	}
	meets := func(more ...string) string {
		return deck + lines("steps f", append([]string{"meets deck.front", "width 900", "going 300"}, more...)...)
	}
	for name, c := range map[string]struct{ text, want string }{
		"too little said":        {starts("risers 3", "going 300"), "`f` needs two of `risers`, `rise` and `total`, or its `rises`"},
		"too much said":          {flight("risers 3", "rise 150", "«total 450»", "going 300"), "any two of `risers`, `rise` and `total` give the third"},
		"rises and rise":         {flight("rises 100 200", "«rise 150»", "going 300"), "`rises` and `rise` do not go together"},
		"nothing said":           {deck + lines("steps «f»", "meets deck.front", "going 300", "width 900"), "`f` needs its `risers` or its `rise`"},
		"total at a deck":        {deck + lines("steps «f»", "meets deck.front", "total 450", "going 300", "width 900"), "`f` needs its `risers` or its `rise`"},
		"no place":               {lines("steps «f»", "risers 3", "rise 150", "going 300", "width 900"), "`f` needs its place"},
		"two places":             {meets("risers 3", "«starts 0, 0 heading 90deg»"), "`meets` and `starts` do not go together"},
		"meets a corner":         {deck + lines("steps f", "meets «deck.corner(1)»", "risers 3", "going 300", "width 900"), "an edge is wanted here"},
		"meets a point":          {lines("steps f", "meets «0, 0»", "rises 100 100", "going 300", "width 900"), "an edge is wanted here"},
		"no whole number":        {meets("«rise 160»"), "450 mm is no whole number of rises of 160 mm|write `risers 3` for rises of 150 mm"},
		"does not climb":         {deck + lines("steps f", "«meets deck.front»", "risers 3", "level 450", "going 300", "width 900"), "the flight does not climb: its foot stands at 450 mm and lands at 450 mm"},
		"level follows":          {meets("risers 3", "rise 100", "«level 90»"), "`meets` and `level` do not go together"},
		"top is held":            {meets("risers 3", "«top 900»"), "`meets` and `top` do not go together"},
		"goings, wrong count":    {flight("risers 4", "rise 150", "goings «300 300»"), "`goings` has 2 values, and there are 3 treads"},
		"goings with landing":    {flight("risers 4", "rise 150", "goings «300 300 300»", "landing after 2 depth 900"), "`goings` has 3 values, and there are 2 treads"},
		"widths, wrong count":    {lines("steps f", "starts 0, 0 heading 90deg", "risers 4", "rise 150", "going 300", "widths «900 800»"), "`widths` has 2 values, and there are 3 treads"},
		"widths to nothing":      {lines("steps f", "starts 0, 0 heading 90deg", "risers 4", "rise 150", "going 300", "widths «900 by -450»"), "width 3 is more than 0, and this is 0 mm"},
		"shift, wrong count":     {flight("risers 4", "rise 150", "going 300", "shift «0 10»"), "`shift` has 2 values, and there are 3 treads"},
		"landing on top":         {flight("risers 4", "rise 150", "going 300", "landing after «4» depth 900"), "a landing comes after riser 1 to 3"},
		"landing twice":          {flight("risers 4", "rise 150", "going 300", "landing after 2 depth 900", "landing after «2» depth 900"), "is a landing already"},
		"a rise of nothing":      {flight("rises «150 0 150»", "going 300"), "rise 2 is more than 0, and this is 0 mm"},
		"risers of nothing":      {flight("risers «0»", "rise 150", "going 300"), "`risers` is at least 1"},
		"risers beyond":          {flight("risers «1001»", "rise 150", "going 300"), "`risers` is more than 1000, the limit"},
		"tread thicker":          {flight("risers 3", "rise 15", "going 300", "«tread 18»"), "the tread is 18 mm thick, and a rise is only 15 mm"},
		"nosing deeper":          {flight("risers 3", "rise 150", "going 20", "«nosing 25»"), "the nosing is 25 mm, and a going is only 20 mm"},
		"lid of a flight":        {flight("risers 3", "rise 150", "going 300", "«lid 18»"), "a `lid` is of blocks"},
		"tread of blocks":        {flight("risers 3", "rise 150", "going 300", "built blocks", "«tread 18»"), "`tread` is of a flight|`lid`"},
		"lid higher":             {flight("risers 3", "rise 15", "going 300", "built blocks", "«lid 18»"), "the lid is 18 mm, and the first block is only 15 mm high"},
		"no one rise":            {flight("«rises 150 160»", "going 300") + "let v = f.rise\n", "the rises of `f` run from 150 mm to 160 mm; there is no one `rise`"},
		"going needed":           {lines("steps «f»", "starts 0, 0 heading 90deg", "risers 3", "rise 150", "width 900"), "`f` needs its `going`"},
		"ramp slope and length":  {lines("ramp r", "starts 0, 0 heading 90deg", "rise 450", "width 900", "length 3600", "«slope 1:12»"), "`length` and `slope` do not go together"},
		"ramp slope of a number": {lines("ramp r", "starts 0, 0 heading 90deg", "rise 450", "width 900", "slope «12»"), "`slope` wants a slope, and this is a plain number|write `1:12`"},
		"ramp without rise":      {lines("ramp «r»", "starts 0, 0 heading 90deg", "width 900", "length 3600"), "`r` needs its `rise`"},
	} {
		t.Run(name, func(t *testing.T) { wrong(t, c.text, c.want) })
	}
}

func TestLimits(t *testing.T) {
	many := ""
	for i := range 21 {
		name := "p" + string(rune('a'+i))
		if i == 20 {
			name = "«" + name + "»"
		}
		many += lines("post "+name, "diameter 6", "height 7", "repeat 10000 by 1, 0")
	}
	wrong(t, many, "the set has more than 200000 pieces, copies counted, the limit")

	// Each value leans on the next: far more of them than a person writes, and than a stack holds.
	chain := make([]string, 0, 30002)
	for i := range 30000 {
		chain = append(chain, fmt.Sprintf("let v%d = ((((v%d))))", i, i+1))
	}
	chain = append(chain, "let v30000 = 1")
	_, list := layout.Open(texts{"m": strings.Join(chain, "\n")}, "m", layout.Options{})
	require.Contains(t, printed(list), "values lean on one another more than 20000 deep, the limit")
	slices.Reverse(chain)
	open(t, strings.Join(chain, "\n"))

	tower := []string{lines("platform d0", "outline rect 9 x 9", "height 1")}
	for i := 1; i < 3000; i++ {
		tower = append(tower, lines(fmt.Sprintf("platform d%d", i), "outline rect 9 x 9", "height 1", fmt.Sprintf("on d%d", i-1)))
	}
	slices.Reverse(tower)
	s := open(t, strings.Join(tower, ""))
	require.Equal(t, 2999.0, s.Find("d2999").Copies[0].Places[0].Level())
}
