package cli

import (
	"strconv"
	"strings"

	"markout/layout/changes"
	"markout/layout/overhead"
	"markout/layout/table"
	"markout/layout/unit"
)

type (
	pieceChangeJSON struct {
		Element string   `json:"element"`
		Piece   string   `json:"piece"`
		Name    string   `json:"name"`
		Change  string   `json:"change"`
		Was     string   `json:"was"`
		Glued   []string `json:"glued"`
	}
	boardChangeJSON struct {
		Element  string  `json:"element"`
		Piece    string  `json:"piece"`
		Change   string  `json:"change"`
		Count    int     `json:"count"`
		Material string  `json:"material"`
		Length   float64 `json:"length_mm"`
		Width    float64 `json:"width_mm"`
		From     string  `json:"from"`
		Words    string  `json:"words"`
	}
	hangJSON struct {
		Piece  string `json:"piece"`
		Room   string `json:"room"`
		Panel  string `json:"panel"`
		Tag    int    `json:"tag"`
		Change string `json:"change"`
		Words  string `json:"words"`
	}
)

// pieceLines is each piece of the card model that something is done to, and what has to be parted from it. Rods that are alike share
// a line.
func pieceLines(list []changes.Piece) []string {
	var out []string
	for i := 0; i < len(list); {
		n, words := 1, pieceWords(list[i])
		for i+n < len(list) && list[i+n].Change == list[i].Change && pieceWords(list[i+n]) == words {
			n++
		}
		l := string(list[i].Change) + "  "
		if n > 1 {
			l += strconv.Itoa(n) + " × "
		}
		out = append(out, l+words)
		i += n
	}
	return out
}

// pieceWords names a piece of the card model, what it is in place of, and what has to be parted from it.
func pieceWords(p changes.Piece) string {
	l := p.Piece
	if p.Name != "" && !strings.HasPrefix(p.Piece, p.Name) {
		l += ", " + p.Name
	}
	if p.Was != "" && p.Was != p.Piece {
		l += ", in place of " + p.Was
	}
	if len(p.Glued) > 0 {
		l += "; " + strings.Join(p.Glued, ", ")
	}
	return l
}

// boardLines is each piece that a carpenter cuts, recuts or has over; its words begin with its name.
func boardLines(list []changes.Cut) []string {
	var out []string
	for _, c := range list {
		out = append(out, string(c.Change)+"  "+strconv.Itoa(c.Count)+" × "+c.Element+" "+c.Words)
	}
	return out
}

// hungLines is each piece overhead that something is done to, what is taken down first, then the weights that changed, and who
// decides. A piece that is taken down has its number from the earlier version, where another may have it now.
func hungLines(list []changes.Hang, totals []changes.TotalChange) []string {
	var down, out []string
	for _, h := range list {
		gone := h.Change == changes.TakeDown
		l := h.Piece + ": " + h.Words
		switch {
		case h.Tag > 0 && gone:
			l = "old tag " + strconv.Itoa(h.Tag) + ", " + l
		case h.Tag > 0:
			l = "tag " + strconv.Itoa(h.Tag) + ", " + l
		}
		if gone {
			down = append(down, l)
			continue
		}
		out = append(out, l)
	}
	out = append(down, out...)
	for _, t := range totals {
		out = append(out, t.Room+", "+t.Words)
	}
	if len(out) > 0 {
		out = append(out, overhead.Note)
	}
	return out
}

func (d *difference) piecesJSON() []pieceChangeJSON {
	out := []pieceChangeJSON{}
	for _, p := range d.pieces {
		out = append(out, pieceChangeJSON{p.Element, p.Piece, p.Name, string(p.Change), p.Was, append([]string{}, p.Glued...)})
	}
	return out
}

func (d *difference) boardsJSON() []boardChangeJSON {
	out := []boardChangeJSON{}
	for _, c := range d.boards {
		out = append(out, boardChangeJSON{c.Element, c.Piece, string(c.Change), c.Count, c.Material, unit.Round(c.Length, 0.1), unit.Round(c.Width, 0.1), c.From, c.Words})
	}
	return out
}

func (d *difference) overheadJSON() []hangJSON {
	out := []hangJSON{}
	for _, h := range d.hung {
		out = append(out, hangJSON{h.Piece, h.Room, h.Panel, h.Tag, string(h.Change), h.Words})
	}
	return out
}

// madeRows are the rows of the table for what is made, cut or hung.
func (d *difference) madeRows(add func(what string, cells map[string]table.Value)) {
	type cells = map[string]table.Value
	for _, p := range d.pieces {
		add("piece", cells{"element": table.T(p.Element), "point": table.T(p.Piece), "change": table.T(string(p.Change)), "words": table.T(pieceWords(p))})
	}
	for _, c := range d.boards {
		add("board", cells{"element": table.T(c.Element), "point": table.T(c.Piece), "change": table.T(string(c.Change)), "words": table.T(c.Words),
			"length_mm": table.N(c.Length), "count": table.N(float64(c.Count))})
	}
	for _, h := range d.hung {
		add("overhead", cells{"element": table.T(h.Piece), "point": table.T(h.Room), "change": table.T(string(h.Change)), "words": table.T(h.Words)})
	}
}
