package cli

import (
	"markout/layout/changes"
	"markout/layout/geom"
	"markout/layout/unit"
	"markout/render/issue"
)

// The JSON of changes, a contract; blocks, moves and overhead go beyond it.
type (
	changesJSON struct {
		Elements []elementChangeJSON `json:"elements"`
		Lift     []markJSON          `json:"lift"`
		Lay      []markJSON          `json:"lay"`
		Tape     tapesJSON           `json:"tape"`
		Pieces   []pieceChangeJSON   `json:"pieces"`
		Boards   []boardChangeJSON   `json:"boards"`
		Blocks   []blockChangeJSON   `json:"blocks"`
		Moves    []moveJSON          `json:"moves"`
		Overhead []hangJSON          `json:"overhead"`
		Pages    pagesJSON           `json:"pages"`
	}
	elementChangeJSON struct {
		Name   string `json:"name"`
		Change string `json:"change"`
		Words  string `json:"words"`
		Held   string `json:"held"`
	}
	markJSON struct {
		Element string  `json:"element"`
		Point   string  `json:"point"`
		X       float64 `json:"x_mm"`
		Y       float64 `json:"y_mm"`
		Tape    string  `json:"tape"`
	}
	tapesJSON struct {
		Lift []tapeJSON `json:"lift"`
		Lay  []tapeJSON `json:"lay"`
	}
	tapeJSON struct {
		Tape   string  `json:"tape"`
		Metres float64 `json:"m"`
	}
	blockChangeJSON struct {
		Element string     `json:"element"`
		Block   int        `json:"block"`
		Change  string     `json:"change"`
		Words   string     `json:"words"`
		From    [2]float64 `json:"from_mm"`
		To      [2]float64 `json:"to_mm"`
	}
	moveJSON struct {
		Element string     `json:"element"`
		Words   string     `json:"words"`
		From    [2]float64 `json:"from_mm"`
		To      [2]float64 `json:"to_mm"`
	}
	pagesJSON struct {
		Keep     []pageJSON `json:"keep"`
		Reprint  []pageJSON `json:"reprint"`
		Withdraw []pageJSON `json:"withdraw"`
	}
	pageJSON struct {
		File  string `json:"file"`
		Page  int    `json:"page"`
		Sheet string `json:"sheet"`
		Was   string `json:"was,omitempty"`
	}
)

func (d *difference) json() changesJSON {
	out := changesJSON{
		Elements: []elementChangeJSON{}, Lift: marksJSON(d.lift), Lay: marksJSON(d.lay),
		Tape: tapesJSON{metresJSON(d.off), metresJSON(d.on)}, Blocks: []blockChangeJSON{}, Moves: []moveJSON{},
		Pieces: d.piecesJSON(), Boards: d.boardsJSON(), Overhead: d.overheadJSON(),
		Pages: pagesJSON{refsJSON(d.pages.Keep), refsJSON(d.pages.Reprint), refsJSON(d.pages.Withdraw)},
	}
	for _, e := range d.elements {
		out.Elements = append(out.Elements, elementChangeJSON{e.Name, e.Change, e.Words, e.Held})
	}
	for _, b := range d.blocks {
		out.Blocks = append(out.Blocks, blockChangeJSON{b.Element, b.Number, string(b.Change), b.Words, pointJSON(b.From), pointJSON(b.To)})
	}
	for _, m := range d.moves {
		out.Moves = append(out.Moves, moveJSON{m.Element, m.Words, pointJSON(m.From), pointJSON(m.To)})
	}
	return out
}

func pointJSON(p geom.Point) [2]float64 {
	return [2]float64{unit.Round(p.X, 0.1), unit.Round(p.Y, 0.1)}
}

func marksJSON(list []changes.Mark) []markJSON {
	out := []markJSON{}
	for _, m := range list {
		at := pointJSON(m.At)
		out = append(out, markJSON{m.Element, m.Point, at[0], at[1], m.Tape})
	}
	return out
}

func metresJSON(lines []changes.Line) []tapeJSON {
	out := []tapeJSON{}
	for _, m := range changes.Metres(lines) {
		out = append(out, tapeJSON{m.Tape, unit.Round(m.Metres, 0.001)})
	}
	return out
}

func refsJSON(list []issue.PageRef) []pageJSON {
	out := []pageJSON{}
	for _, r := range list {
		out = append(out, pageJSON(r))
	}
	return out
}
