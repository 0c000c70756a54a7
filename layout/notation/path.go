package notation

const (
	arcExample   = "as in `arc to 1500,300 radius 300 left` or `arc to 1500,300 through 1400,80`"
	curveExample = "as in `curve to 1500,300 handles 1200,0 1500,100`"
)

// path reads a drawn line: its start, then lines, arcs and curves, and `close` at the end.
func (p *parser) path() Node {
	from := p.tok.from
	out := &Path{Start: p.listedPoint()}
	for !p.failed {
		switch {
		case p.atWord("line"):
			p.add(out, p.lineStep)
		case p.atWord("arc"):
			p.add(out, p.arcStep)
		case p.atWord("curve"):
			p.add(out, p.curveStep)
		case p.atWord("close"):
			p.next()
			out.Close = true
			return p.finishPath(out, from)
		default:
			return p.finishPath(out, from)
		}
	}
	return nil
}

func (p *parser) finishPath(out *Path, from int) Node {
	if len(out.Steps) == 0 {
		p.want("`line`, `arc` or `curve`")
		return nil
	}
	out.Span = p.span(from, p.prev.to)
	return out
}

// add reads one step, whose word stands next.
func (p *parser) add(out *Path, read func(*Step)) {
	from := p.tok.from
	s := Step{Word: p.words(p.tok)}
	p.next()
	read(&s)
	s.Span = p.span(from, p.prev.to)
	out.Steps = append(out.Steps, s)
}

// lineStep reads line P Q R.
func (p *parser) lineStep(s *Step) {
	for {
		n := p.listedPoint()
		if p.failed {
			return
		}
		s.Points = append(s.Points, n)
		p.between()
		if p.failed || !p.startsExpression() {
			return
		}
	}
}

// arcStep reads arc to E radius R left|right [long], or arc to E through Q.
func (p *parser) arcStep(s *Step) {
	p.ending(s)
	switch {
	case p.failed:
	case p.atWord("through"):
		p.next()
		s.Via = p.listedPoint()
	case p.atWord("radius"):
		p.next()
		s.Radius = p.item()
		if p.failed {
			return
		}
		switch {
		case p.atWord("left"):
			s.Left = true
		case p.atWord("right"):
			s.Right = true
		default:
			p.wantAs("`left` or `right`", arcExample)
			return
		}
		p.next()
		if p.atWord("long") {
			s.Long = true
			p.next()
		}
	default:
		p.wantAs("`radius` or `through`", arcExample)
	}
}

// curveStep reads curve to E handles C1 C2.
func (p *parser) curveStep(s *Step) {
	p.ending(s)
	if p.failed {
		return
	}
	if !p.atWord("handles") {
		p.wantAs("`handles`", curveExample)
		return
	}
	p.next()
	s.C1 = p.listedPoint()
	if !p.failed {
		s.C2 = p.listedPoint()
	}
}

// ending reads to E.
func (p *parser) ending(s *Step) {
	if !p.atWord("to") {
		hint := arcExample
		if s.Word == "curve" {
			hint = curveExample
		}
		p.wantAs("`to`", hint)
		return
	}
	p.next()
	if n := p.listedPoint(); n != nil {
		s.Points = []Node{n}
	}
}
