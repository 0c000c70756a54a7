package grid

import (
	"fmt"
	"strings"

	"markout/layout/unit"
	"markout/tiling/paper"
)

// cost is what a way of printing takes.
type cost struct {
	pages  int
	metres float64 // of a roll
	area   float64 // square metres
}

func (c cost) add(d cost) cost { return cost{c.pages + d.pages, c.metres + d.metres, c.area + d.area} }

// cost returns what the plan takes, covers aside.
func (p *Plan) cost() cost {
	var c cost
	for _, r := range p.pages {
		g := p.grids[r.grid]
		c.pages++
		if g.strips != nil {
			l := g.cutLength(&g.cells[r.cell]) / 1000
			c.metres += l
			c.area += l * p.opt.Paper.W / 1000
		} else {
			c.area += g.size.W * g.size.H / 1e6
		}
	}
	return c
}

// costOn returns what all of the plan's drawings would take on another paper.
func (p *Plan) costOn(other paper.Paper) (cost, bool) {
	var c cost
	opt := p.opt
	opt.Paper = other
	for _, g := range p.printed() {
		q := &grid{title: g.title, info: g.info, ink: g.ink}
		if q.lay(opt) != nil {
			return cost{}, false
		}
		for i := range q.cells {
			c.pages++
			if other.Roll {
				l := q.cutLength(&q.cells[i]) / 1000
				c.metres += l
				c.area += l * other.W / 1000
			} else {
				c.area += q.size.W * q.size.H / 1e6
			}
		}
	}
	return c, true
}

func (p *Plan) words(c cost, name string, roll bool) string {
	area := unit.FormatArea(c.area*1e6, p.info.Units)
	if roll {
		length := unit.FormatNumber(c.metres, 0.1) + " m"
		if p.info.Units.Imperial() {
			length = unit.FormatNumber(c.metres/0.3048, 1) + " ft"
		}
		return fmt.Sprintf("%s of %s in %s, %s of paper", length, name, plural(c.pages, "strip"), area)
	}
	return fmt.Sprintf("%s of %s, %s of paper", plural(c.pages, "sheet"), name, area)
}

// Words says what the paper costs, and a cheaper way where there is one: a roll, or a larger sheet.
func (p *Plan) Words() string {
	all := p.cost()
	var b strings.Builder
	b.WriteString(p.words(all, p.opt.Paper.Name, p.opt.Paper.Roll))
	if len(p.opt.Names) > 0 {
		b.WriteString(" for " + strings.Join(p.opt.Names, ", "))
		return b.String()
	}
	var ways []string
	for _, name := range p.otherPapers() {
		other, err := paper.Parse(name)
		if err != nil || other.Name == p.opt.Paper.Name {
			continue
		}
		c, ok := p.costOn(other)
		if ok && (c.pages < all.pages*3/4 || c.area < all.area*0.9) {
			asked := name
			if other.Roll {
				asked = `"` + name + `"`
			}
			ways = append(ways, fmt.Sprintf("%s (--paper %s)", p.words(c, other.Name, other.Roll), asked))
		}
	}
	if len(ways) > 0 {
		b.WriteString("; less work: " + strings.Join(ways, ", or "))
	}
	return b.String()
}

// otherPapers lists what the same drawings might be cheaper on: the next larger sheet that offices have, and a roll.
func (p *Plan) otherPapers() []string {
	imperial := p.info.Units.Imperial()
	if p.opt.Paper.Roll {
		if p.opt.Paper.W < 1000 {
			return []string{"roll 1067"}
		}
		return nil
	}
	sheet := ""
	switch long := max(p.opt.Paper.W, p.opt.Paper.H); {
	case long < 380 && imperial:
		sheet = "Tabloid"
	case long < 380:
		sheet = "A3"
	}
	if sheet == "" {
		return []string{"roll 914"}
	}
	return []string{sheet, "roll 914"}
}

// Summary says in a line what was made.
func (p *Plan) Summary() string {
	s := p.words(p.cost(), p.paperWords(), p.opt.Paper.Roll) + " and " + plural(len(p.cover), "cover page")
	empty := 0
	for _, g := range p.printed() {
		empty += g.empty
	}
	if empty > 0 {
		s += fmt.Sprintf("; %s of the grid %s nothing and %s not printed", plural(empty, "page"), verb(empty, "carries", "carry"), verb(empty, "is", "are"))
	}
	if p.hidden > 0 {
		s += fmt.Sprintf("; %s left out because %s nothing of %s", plural(p.hidden, "page"), verb(p.hidden, "it shows", "they show"), strings.Join(p.opt.Names, ", "))
	}
	return s
}

// paperWords names the paper and how it lies, where all of it lies alike.
func (p *Plan) paperWords() string {
	name := p.opt.Paper.Name
	if p.opt.Paper.Roll {
		return name
	}
	printed := p.printed()
	for _, g := range printed {
		if g.size != printed[0].size {
			return name
		}
	}
	return name + " " + paper.Lie(printed[0].size.W, printed[0].size.H)
}

func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}

func verb(n int, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}
