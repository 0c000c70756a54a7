package reference

// Surroundings is the set in which every example of the reference works: an example stands below these lines, and where it
// defines one of their names itself, that statement is left out here. An example that opens a set of its own stands alone.
const Surroundings = `set "Quayside kiosk"
    production "Low Tide"
    card       wall 1.5 detail 0.3

let rise  = 150mm
let going = 300mm

hall quay_hall
    outline rect 9000 x 8000
    at      0, 3600
    station A -4000, 400
    station B  4000, 400

platform deck
    outline polygon 8 across 4800
    at      0, 3600
    height  450
    deck    18

steps front
    meets   deck.front
    risers  3
    going   300
    width   1800

flat wall
    from    -1800, 7000 to 1800, 7000
    height  2400
    thickness 45

mark kerb
    path    -2000, -400 line 2000, -400

board "ply 18" 2440 x 1220 thick 17.6 density 620kg/m3 kerf 3 grain along count 6

length "batten 44" 44 x 69 long 4800 density 480kg/m3 kerf 3 count 20

post bollard
    repeat   12 around deck.centre radius 4200 from 15deg
    diameter 60
    height   700
`
