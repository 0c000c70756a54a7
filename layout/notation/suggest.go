package notation

import (
	"strings"
	"unicode/utf8"
)

// tradeWords lists words of the trade as other countries and programs of daily use have them, with what they are called
// here; the first that fits the place is meant. Common practice, no source.
var tradeWords = map[string][]string{
	// pieces
	"rostrum": {"platform"}, "rostra": {"platform"}, "dais": {"platform"}, "podium": {"platform"}, "stage": {"hall", "platform"},
	"deck": {"platform"}, "decking": {"platform"}, "parallel": {"platform"}, "parallels": {"platform"}, "level": {"platform"}, "plinth": {"platform"},
	"riser": {"risers", "rise", "platform"}, "treads": {"risers", "steps"}, "tread_count": {"risers"}, "stair": {"steps"}, "stairs": {"steps", "risers"},
	"staircase": {"steps"}, "stairway": {"steps"}, "flight": {"steps"}, "step": {"steps"}, "steps": {"risers"}, "escape": {"steps"}, "stepunit": {"steps"},
	"wall": {"flat"}, "walls": {"flat"}, "panel": {"flat"}, "partition": {"flat"}, "hardwall": {"flat"}, "softwall": {"flat"}, "wing": {"flat"},
	"column": {"post"}, "pillar": {"post"}, "pole": {"post"}, "mast": {"post"}, "bollard": {"post"}, "pier": {"post"}, "tree": {"post"},
	"slope": {"ramp"}, "rake": {"ramp"}, "incline": {"ramp", "slope"}, "ramped": {"ramp"},
	"kerb": {"ring"}, "curb": {"ring"}, "coaming": {"ring"}, "bench": {"ring"}, "revolve": {"ring"},
	"board": {"shape"}, "cutout": {"shape", "figure"}, "profile": {"shape"}, "groundrow": {"shape"}, "ground_row": {"shape"}, "ground-row": {"shape"}, "cut-out": {"figure", "shape"}, "template": {"shape", "full-size"},
	"room": {"hall"}, "studio": {"hall"}, "theatre": {"hall"}, "theater": {"hall"}, "venue": {"hall"}, "auditorium": {"hall"}, "floor": {"hall"}, "space": {"hall", "reserve"},
	"spike": {"mark"}, "marker": {"mark"}, "pin": {"mark"}, "tapeline": {"mark"}, "line": {"mark"}, "floorline": {"mark"},
	"clearance": {"reserve", "keep"}, "keepout": {"reserve"}, "keep-out": {"reserve"}, "zone": {"reserve"}, "volume": {"reserve"}, "exclusion": {"reserve"},
	"funnel": {"cone"}, "spire": {"cone"}, "planter": {"cone"}, "backdrop": {"cloth"}, "backcloth": {"cloth"}, "drop": {"cloth"}, "drape": {"cloth"},
	"furniture": {"dressing"}, "prop": {"dressing"}, "props": {"dressing"}, "practical": {"dressing"}, "standee": {"figure"}, "person": {"figure"}, "silhouette": {"figure"},
	// statements
	"var": {"let"}, "const": {"let"}, "define": {"let"}, "value": {"let"}, "import": {"include"}, "require": {"include"}, "use": {"include"},
	"show": {"set"}, "production": {"set"}, "project": {"set"}, "distance": {"keep", "dim"}, "clear": {"keep"}, "dimension": {"dim"}, "measure": {"dim"},
	"ply": {"board"}, "plywood": {"board"}, "sheet": {"board"}, "timber": {"length"}, "batten": {"length"}, "lumber": {"length"}, "box": {"stock"}, "piece": {"part"},
	// attributes and words in them
	"center": {"centre", "at"}, "color": {"tape"}, "colour": {"tape"}, "elevation": {"level", "height"}, "z": {"level"}, "raised": {"level"},
	"rotate": {"turn"}, "rotation": {"turn"}, "rotated": {"turn"}, "angle": {"turn"}, "orientation": {"turn"}, "position": {"at"}, "pos": {"at"}, "place": {"at"}, "location": {"at"}, "xy": {"at"}, "origin": {"at"},
	"copies": {"repeat"}, "array": {"repeat"}, "times": {"repeat"}, "count": {"repeat", "risers"}, "material": {"of"}, "comment": {"note"}, "remark": {"note"}, "notes": {"note"},
	"diam": {"diameter"}, "dia": {"diameter"}, "radius": {"diameter"}, "circle": {"outline", "diameter"}, "thick": {"thickness"}, "depth": {"thickness", "going"},
	"tall": {"height"}, "high": {"height"}, "wide": {"width"}, "breadth": {"width"}, "long": {"length"}, "plan": {"outline"}, "footprint": {"outline"}, "form": {"outline"},
	"rect": {"outline"}, "polygon": {"outline"}, "points": {"outline", "point"}, "door": {"opening"}, "window": {"opening"}, "arch": {"opening"}, "aperture": {"opening"},
	"fullsize": {"full-size"}, "full_size": {"full-size"}, "full": {"full-size"}, "gradient": {"slope"}, "pitch": {"slope", "rise"}, "run": {"going", "length"}, "goings_list": {"goings"},
	"step_height": {"rise"}, "step_depth": {"going"}, "clockwise": {"right"}, "anticlockwise": {"left"}, "counterclockwise": {"left"}, "ccw": {"left"}, "cw": {"right"},
	"round": {"around"}, "spacing": {"every"}, "spaced": {"every"}, "direction": {"heading", "facing"}, "cut": {"opening", "hole"}, "sits": {"on"}, "inside": {"in"}, "ref": {"station"}, "datum": {"station"},
}

// Suggest returns the word of among that was probably meant by word: another country's word for it, or one that differs by
// a slip or two of the fingers. It is empty where nothing is near.
func Suggest(word string, among []string) string {
	lower := strings.ToLower(word)
	for _, w := range among {
		if w == word {
			return ""
		}
	}
	for _, w := range among {
		if strings.ToLower(w) == lower {
			return w
		}
	}
	if w := meantBy(lower, among); w != "" {
		return w
	}
	best, least := "", slips(lower)+1
	for _, w := range among {
		if d := distance(lower, strings.ToLower(w), least); d < least {
			best, least = w, d
		}
	}
	if best == "" {
		best = nearTradeWord(lower, among)
	}
	return best
}

// maxSuggestions is for how many words of one text a near word is sought: a file of another kind, read by mistake, has
// as many strange words as lines.
const maxSuggestions = 200

// suggest is Suggest as long as there is sense in it.
func (p *parser) suggest(word string, among []string) string {
	if p.suggested++; p.suggested > maxSuggestions {
		return ""
	}
	return Suggest(word, among)
}

// meantBy returns the word of among that a trade word stands for.
func meantBy(word string, among []string) string {
	for _, meant := range tradeWords[word] {
		for _, w := range among {
			if w == meant {
				return w
			}
		}
	}
	return ""
}

// nearTradeWord is meantBy for a trade word with a slip in it.
func nearTradeWord(word string, among []string) string {
	if utf8.RuneCountInString(word) < 6 {
		return ""
	}
	best := ""
	for trade := range tradeWords {
		if (best == "" || trade < best) && distance(word, trade, 2) < 2 && meantBy(trade, among) != "" {
			best = trade
		}
	}
	return meantBy(best, among)
}

// slips is how many slips of the fingers a word of that length is trusted to hold.
func slips(word string) int {
	switch n := utf8.RuneCountInString(word); {
	case n < 3:
		return 0
	case n < 6:
		return 1
	}
	return 2
}

// distance counts the letters to insert, delete, change or swap with their neighbour to make b of a; it may stop
// counting at most.
func distance(a, b string, most int) int {
	x, y := []rune(a), []rune(b)
	if d := len(x) - len(y); d >= most || -d >= most || len(x) > 64 {
		return most
	}
	before := make([]int, len(y)+1)
	last := make([]int, len(y)+1)
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(x); i++ {
		row := make([]int, len(y)+1)
		row[0] = i
		for j := 1; j <= len(y); j++ {
			same := 1
			if x[i-1] == y[j-1] {
				same = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+same)
			if i > 1 && j > 1 && x[i-1] == y[j-2] && x[i-2] == y[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
		}
		before, last = last, row
	}
	return last[len(y)]
}
