package reference

import "markout/layout/notation"

var artworkChapter = page{topic: "artwork", title: "Artwork: what is read of drawings and pictures", blocks: []block{
	say("A `figure` is cut out of artwork, a `cloth` is artwork enlarged. The artwork is a file beside the geometry file, named by " +
		"its path from there; several pieces may name the same one, and it is read once. What kind of file it is shows in its " +
		"bytes, not in its name. Nothing outside the folder is opened unless `--allow FOLDER` lets it, and of what a drawing links to only PNG and JPEG files there."),
	terms(
		row{"SVG", "drawings: lines and areas that stay sharp at any size. Measured in millimetres: a frame given in px counts 96 to the inch, as CSS has it"},
		row{"PNG", "pictures made of pixels, see-through or not. Measured in pixels"},
		row{"JPEG", "photographs and scans, turned upright as their Exif block asks. Measured in pixels. Printing inks (CMYK) are turned into red, green and " +
			"blue by the plain formula where they have to be, which is said"},
	),
	say("Drawn of SVG are paths, shapes, groups, `use` and `symbol`, styles and style sheets, gradients, patterns on areas, " +
		"dashes, markers, clip paths, masks, and pictures that are embedded. Text is not: its letters would come out as others on another " +
		"machine. Convert text to outlines (paths) in the drawing program and export again. Filters and blending are left out too. Each thing " +
		"left out is a caution at its line of the drawing, and the rest is drawn; `markout explain ART-TEXT` and its neighbours say more."),
	say("The pixels of a picture are printed as they are in its file, however large: they are neither made more nor fewer. An issue holds a drawing " +
		"whole; of a picture made of pixels it holds the name, the size and the digest."),
	say("A figure's outline is drawn round what the artwork shows, not round its frame. Of a drawing that is everything painted, lines by their " +
		"width. Of a picture made of pixels it is the edge against the `background`: what is transparent, where anything is, otherwise what has the " +
		"colour of the border. The outline keeps within one pixel of that edge unless `within` says otherwise, and corners stay corners. The largest body " +
		"is cut, with its holes; what lies apart is left out and counted, unless `bodies all` asks for it."),
	example(`figure heron
    artwork    "pilot.svg"
    height     900
    ground     40
    bodies     all
    at         1200, 6000
    thickness  9
    margin     3
`),
	say("`hung` turns a figure half round in its face, as it hangs from its feet; `flipped` mirrors it. A figure that looks to the left looks to the right " +
		"when it is hung, and when it is flipped, and the sheets say which way it looks as it stands there. Its `height` and `eye` are always those of the " +
		"upright figure. `look at` gives the eye line's turn and tilt to a place, or into another figure's eyes."),
	example(`figure captain
    artwork "pilot.svg"
    height  1780
    eye     1660
    at      -900, 3600
    look    at mate

figure mate
    artwork "pilot.svg"
    height  1650
    eye     1535
    flipped
    at      900, 3600
    look    at captain
`),
	wrong(`figure captain
    artwork "pilot.svg"
    height  1780
    show    head
`),
	say("A cloth takes its other side from the artwork's proportions where one is given. With both, and other proportions, `fit` says how it goes on. " +
		"`crop` takes a part, measured from the artwork's lower left corner. What is allowed for hems and webbing lies beyond the finished size, and the artwork " +
		"goes on over it where there is any."),
	example(`cloth harbour
    artwork "harbour.svg"
    width   9000
    height  5000
    fit     fill
    allow   top 100 bottom 200 sides 50
    at      0, 7600
    grid    500 fine 100 in 0, 900 size 1000 x 800
`),
	wrong(`cloth harbour
    artwork "harbour.svg"
    width   9000
    height  5000
`),
}}

var csvChapter = page{topic: "csv", title: "CSV: pieces from a list", blocks: []block{
	say("Many pieces of a kind may stand in a list beside the file, one row a piece: comma-separated, UTF-8, with a byte order mark or without. " +
		"The header names attributes, `name` first. What stands under the line that names the list holds for every row that has no such value itself."),
	example(`figure from "figures.csv"
    thickness 9
    brace
`),
	say("The list may be this:"),
	terms(
		row{"name,artwork,height,at,turn,hung", "the header: the name, then attributes in any order"},
		row{`heron,pilot.svg,900,"1200, 600",30deg,`, "a cell with a comma in it stands in double quotes"},
		row{"gull,pilot.svg,1'-6\",deck.centre,,yes", "an empty cell is an attribute that the piece does not have"},
	),
	say("A cell holds what would stand after the attribute's word, names of lets and measures of other pieces among it; a single text (artwork, a note) " +
		"stands without quotes, and an attribute without a value is `yes`. A quote in a cell that begins with one stands twice. A spreadsheet's " +
		"formula is no value. What is wrong is said at its line and column in the list; `--with heron.height=950` changes a row for one run."),
	say("Kinds that may stand in a list: " + listedKinds() + ". A list of parts (`part from`) has columns of its own: see `markout explain materials`."),
}}

// listedKinds names the kinds of which a list may be named.
func listedKinds() string {
	out := ""
	for _, k := range kinds() {
		if !k.Listed {
			continue
		}
		if out != "" {
			out += ", "
		}
		out += "`" + k.Word + " " + notation.ListedForm + "`"
	}
	return out
}
