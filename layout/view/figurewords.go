package view

import (
	"strconv"

	"markout/layout/drawing"
	"markout/layout/figures"
	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/layout/set"
)

// label says what the figure is, on which side the paper goes and how it is held, where nothing of the figure lies; more lines
// follow. Lines are short, so that they find room near the figure and take no page of their own.
func (p *figurePaper) label(e *set.Element, more ...drawing.Text) {
	f := p.f
	side, behind := "FRONT", ""
	if p.behind {
		side, behind = "BACK", "seen from behind"
	}
	margin := ""
	if f.Margin > geom.Tolerance {
		margin = "as drawn; cut " + figure(p.s, f.Margin) + " outside"
	}
	air := ""
	if f.Ground > floorNear {
		air = figure(p.s, f.Ground) + " of air under it"
	}
	lines := append([]drawing.Text{
		name(e.Name, drawing.Lettering10),
		word(side, drawing.Lettering7),
		word(behind, drawing.Lettering5),
		word(figure(p.s, f.Height)+" high", drawing.Lettering7),
		word(figure(p.s, f.Width)+" wide", drawing.Lettering7),
		word(margin, drawing.Lettering5),
		word(looks(f, p.behind), drawing.Lettering7),
		word(air, drawing.Lettering7),
	}, more...)
	box := p.turned(f.Box())
	p.put(geom.Point{X: box.Mid().X, Y: box.Min.Y}, lines)
	if f.Hung {
		p.thisEdgeUp(box)
	}
}

// thisEdgeUp marks the edge of a hung figure's paper that goes up, by words and an arrow over them.
func (p *figurePaper) thisEdgeUp(box geom.Rect) {
	const arrowLong = 60
	lines := []drawing.Text{
		word("HUNG:", drawing.Lettering10),
		word("this edge up", drawing.Lettering10),
		word("upside down: turned,", drawing.Lettering5),
		word("not mirrored", drawing.Lettering5),
	}
	w, h := blockSize(lines)
	at := p.words.place(geom.Point{X: box.Mid().X, Y: box.Max.Y}, w, h+2*arrowLong)
	p.stack(at, lines...)
	foot := at.Add(geom.Point{Y: h / 2})
	p.stroke(fullSize.arrowUp(foot, foot.Add(geom.Point{Y: arrowLong})), thin)
}

// headWords says what a head is and how long its pole, beside the pole below the head.
func (p *figurePaper) headWords(e *set.Element, h *figures.Head, foot geom.Point) {
	to := "to the middle of the head"
	if _, ok := p.f.EyeLine(); ok {
		to = "to the eye line"
	}
	hung := ""
	cutAt := "cut straight " + figure(p.s, p.f.Head) + " below the crown"
	if p.f.Hung {
		hung = "HUNG: the straight cut is up"
		cutAt = "cut straight " + figure(p.s, p.f.Head) + " above the crown, which is below"
	}
	others := ""
	switch {
	case h.Others == 1:
		others = "1 other part of the figure beyond the cut left out"
	case h.Others > 1:
		others = strconv.Itoa(h.Others) + " other parts of the figure beyond the cut left out"
	}
	side := "HEAD, front"
	if p.behind {
		side = "HEAD, seen from behind"
	}
	title := name(e.Name, drawing.Lettering10)
	title.At, title.Align = foot, drawing.AlignMiddle
	p.text(title) // whoever lays the pages chooses its place
	lines := []drawing.Text{
		word(side, drawing.Lettering7),
		word(hung, drawing.Lettering7),
		word(joined(looks(p.f, p.behind), p.eyeWords()), drawing.Lettering5),
		word("pole "+figure(p.s, h.Pole.Length)+" from the floor "+to+",", drawing.Lettering5),
		word(figure(p.s, h.Pole.Behind)+" of it behind the head", drawing.Lettering5),
		word(cutAt, drawing.Lettering5),
		word(others, drawing.Lettering5),
	}
	y := poleOut - keepOff
	for _, t := range lines {
		if t.Text == "" {
			continue
		}
		y -= pitch * t.Height
		t.At, t.Align = foot.Add(geom.Point{X: 2 * keepOff, Y: y}), drawing.AlignLeft
		p.text(t)
	}
}

// eyeWords says where the eye line is; empty where none is given.
func (p *figurePaper) eyeWords() string {
	z, ok := p.f.EyeLine()
	switch {
	case !ok:
		return ""
	case p.f.Hung:
		return "eye line, " + figure(p.s, z) + " up"
	case p.f.Ground > geom.Tolerance:
		return "eye line " + figure(p.s, p.f.Eye) + ", " + figure(p.s, z) + " above the floor"
	}
	return "eye line " + figure(p.s, p.f.Eye)
}

// looks says which way a figure looks as the paper shows it, and whether it was turned over for that.
func looks(f *set.Figure, behind bool) string {
	way := f.Looks()
	if behind {
		switch way {
		case "left":
			way = "right"
		case "right":
			way = "left"
		}
	}
	says := ""
	switch {
	case way == "front":
		says = "faces front"
	case way != "":
		says = "faces " + way
	}
	if f.Flipped {
		says = joined(says, "flipped")
	}
	return says
}

// put stacks lines near a place, clear of the figure where there is room within its box.
func (p *figurePaper) put(near geom.Point, lines []drawing.Text) {
	w, h := blockSize(lines)
	p.stack(p.words.place(near, w, h), lines...)
}

// blockSize returns the paper that lines under one another take.
func blockSize(lines []drawing.Text) (w, h float64) {
	for _, t := range lines {
		if t.Text != "" {
			w, h = max(w, lettering.Width(t.Text, t.Height, t.Bold)), h+pitch*t.Height
		}
	}
	return w, h
}
