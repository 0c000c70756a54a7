package changes

import (
	"markout/layout/develop"
	"markout/layout/unit"
)

// What is done to pieces of the card model.
const (
	Remake Change = "remake" // in place of an old one, which is scrap
	Make   Change = "make"
	Scrap  Change = "scrap"
	Part   Change = "part" // from what it is glued to; it is kept
)

// Piece is a piece of the card model, or a rod of it, that something is done to.
type Piece struct {
	Element string // with the copy's number: of what is scrap or parted in the old model, otherwise in the new one
	Piece   string // its label, deck-2/9; of a rod "rod Ø3.6, 96 long"
	Name    string // front wall
	Change  Change
	Was     string // label of the old piece that a remade one is in place of
	// Glued says which pieces that are kept are glued to the old piece, and have to be parted from it: "deck-2/9 is glued to it along J4".
	// Labels and joints are those of the old model.
	Glued []string
}

// Pieces returns what is done to the pieces of a model: those to remake and to make in the new model's order, then those to part
// from one another and those that are scrap, in the old one's. A piece is kept that has the card's thickness, the outline, openings, folds, half-cuts,
// bevels and tabs that an old one has, whatever it is called and wherever it stands; of several alike the one of the same number
// in its copy first, also under the name that its element had, then one of the same copy. Both models are taken to be
// printed on the same side; labels and joints are as the models have them, so that those of models laid on sheets are as printed.
func Pieces(old, new *develop.Model) []Piece {
	c := carried(old, new)
	var out []Piece
	inPlace := c.replaced()
	for j := range new.Pieces {
		p := &new.Pieces[j]
		if c.of[j] >= 0 {
			continue
		}
		x := Piece{Element: p.Element, Piece: p.Label(), Name: p.Name, Change: Make}
		if i := inPlace[j]; i >= 0 {
			x.Change, x.Was, x.Glued = Remake, old.Pieces[i].Label(), c.glued(i)
		}
		out = append(out, x)
	}
	gone := make([]bool, len(old.Pieces))
	for _, i := range inPlace {
		if i >= 0 {
			gone[i] = true
		}
	}
	out = append(out, c.parted()...)
	for i := range old.Pieces {
		if p := &old.Pieces[i]; c.to[i] < 0 && !gone[i] {
			out = append(out, Piece{Element: p.Element, Piece: p.Label(), Name: p.Name, Change: Scrap, Glued: c.glued(i)})
		}
	}
	return append(out, rods(old, new)...)
}

// rods returns the rods of a model that are cut anew or are scrap. One of the same section and length serves anywhere.
func rods(old, new *develop.Model) []Piece {
	kind := func(r *develop.Rod) string {
		var k key
		k.word(r.Section)
		k.numbers(r.Diameter, r.Length)
		return k.String()
	}
	have := map[string]int{}
	for i := range old.Rods {
		have[kind(&old.Rods[i])]++
	}
	var out []Piece
	made := map[string]bool{}
	for i := range new.Rods {
		r := &new.Rods[i]
		if k := kind(r); have[k] > 0 {
			have[k]--
			continue
		}
		made[r.Element] = true
		out = append(out, Piece{Element: r.Element, Piece: rodWords(r), Name: "rod", Change: Make})
	}
	then := map[string]string{}
	for i := len(old.Rods) - 1; i >= 0; i-- { // of several alike the last are scrap
		r := &old.Rods[i]
		k := kind(r)
		if have[k] == 0 {
			continue
		}
		have[k]--
		then[r.Element] = rodWords(r)
	}
	for i := range out {
		if was, ok := then[out[i].Element]; ok {
			out[i].Change, out[i].Was = Remake, was
		}
	}
	for i := range old.Rods {
		r := &old.Rods[i]
		if was, ok := then[r.Element]; ok && !made[r.Element] {
			out = append(out, Piece{Element: r.Element, Piece: was, Name: "rod", Change: Scrap})
		}
	}
	return out
}

func rodWords(r *develop.Rod) string {
	mm := func(x float64) string { return unit.FormatNumber(x, 0.1) }
	return "rod Ø" + mm(r.Diameter) + ", " + mm(r.Length) + " long"
}
