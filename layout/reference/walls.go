package reference

var wallsChapter = page{topic: "walls", title: "Walls: straight and curved flats, and their openings", blocks: []block{
	say("A flat's face is on a line at the floor: from P to Q, or `along` a drawn line or the line of another piece. Who stands at P " +
		"and walks to Q has the face on the right and the thickness on the left; `face left` turns that. The line's length is the " +
		"true length of the face, and openings are placed along it."),
	example(`mark quay_edge
    path -3000,9000 line -1000,9000 arc to 1000,9000 radius 1200 right line 3000,9000

flat bay
    along     quay_edge
    height    2400
    thickness 60
    opening   door at 800 size 800 x 2000
    opening   window at 2600 size 900 x 900
        sill  1000
    full-size floor face

shape sign
    outline   rect 400 x 300
    thickness 12
    on        bay at 5200 level 1500
`),
	say("A drawn line counts in the flat's own axes, which `at` and `turn` place; along another piece's line the flat stands where " +
		"that line does. The line has two ends and meets itself nowhere. Its corners are mitred; where an arc bends round the " +
		"thickness, its radius is more than the thickness, and a piece between two corners is long enough for both."),
	wrong(`flat niche
    along     path 0,0 arc to 80,0 radius 40 left
    height    2400
    thickness 50
`),
	say("An opening lies on the flat and clear of the others. Its edges keep clear of a corner that it would cut into from the side; " +
		"it may go round one."),
	wrong(`flat screen
    along     path 0,0 line 1000,0 1000,1000
    height    2400
    thickness 60
    opening   door at 1020 size 800 x 2000
`),
	say("`full-size face` is the face laid flat, true along its line, with a thin line where its pieces meet; `full-size floor` is what " +
		"it stands on. Tape tables have P and Q, `end 1` … where the pieces of its line meet, and `middle 1` … in the middle of each arc."),
}}

var cardsChapter = page{topic: "cards", title: "Cards: what the model is made of, and how its parts may lie", blocks: []block{
	say("`card` in `set` names the cards of the model with their thickness; a card without a name is for what says nothing else. " +
		"`model` picks one for an element, or says that it is a `rod`, a rolled `tube`, or not modelled."),
	example(`set "Quayside kiosk"
    scale 1:25
    card  wall 1.5 detail 0.3

platform deck
    outline rect 3600 x 2400
    height  450

ring kerb
    outer   900
    inner   700
    height  120
    model   detail

post mast
    diameter 60
    height   3600
    model    rod

post lamp
    at       900, 0
    diameter 40
    height   1200
    model    no
`),
	wrong(`post mast
    diameter 60
    height   3600
    model    detial
`),
	say("`turns` or `grain` says how an element's flat parts may lie on a sheet or a board; without them any way. A part is never laid " +
		"face down, unless `either side` says that it may be: on the line of `turns` or `grain`, or on a line of its own."),
	example(`platform quay
    outline rect 2400 x 1200
    height  450
    grain   along
    of      "ply 18"

shape gull
    outline   circle 400
    thickness 12
    turns     0 180 either side
`),
}}
