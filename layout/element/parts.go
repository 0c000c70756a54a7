package element

import (
	"slices"
	"strings"

	"markout/layout/diag"
	"markout/layout/geom"
	"markout/layout/notation"
	"markout/layout/set"
)

// parts takes up the pieces that no element says, from the text and from lists.
type parts struct {
	sc    *scene
	out   *set.Set
	known *materials
	named map[string]diag.Span // lets, elements and parts
	opt   Options
}

// take takes up one statement.
func (p *parts) take(st *notation.Statement) {
	if from, ok := st.Args.Get("from").(*notation.Text); ok {
		p.list(from)
		return
	}
	name, ok := st.Args.Get("").(*notation.Word)
	of, ok2 := st.Args.Get("of").(*notation.Text)
	if !ok || !ok2 {
		return
	}
	part := set.Part{Name: name.Value, Of: of.Value, Count: 1, Grain: grainOf(word(st.Args.Get("grain"))), Span: st.Span}
	ok = p.name(part.Name, name.Span)
	at := spots{of: of.Span, length: st.Args.Get("length").Pos(), width: st.Span}
	part.Length, ok2 = p.sc.ev.Positive(st.Args.Get("length"), "length")
	ok = ok && ok2
	if n := st.Args.Get("width"); n != nil {
		at.width = n.Pos()
		part.Width, ok2 = p.sc.ev.Positive(n, "width")
		ok = ok && ok2
	}
	if n := st.Args.Get("count"); n != nil {
		part.Count, ok2 = p.sc.ev.Count(n, "count", 1, mostCount)
		ok = ok && ok2
	}
	p.add(part, at, ok)
}

// spots are where a part's values stand.
type spots struct{ of, length, width diag.Span }

// name takes up a part's name: parts, elements and lets share theirs.
func (p *parts) name(name string, at diag.Span) bool {
	if first, twice := p.named[name]; twice {
		p.sc.list.Errorf(at, "`%s` is a name already; the first is at %s", name, p.sc.list.Sources.Position(first))
		return false
	}
	p.named[name] = at
	return true
}

// add holds a part against the material it is of: it must be one, and the part must come out of it.
func (p *parts) add(part set.Part, at spots, ok bool) {
	if !p.sc.of(part.Of, at.of, p.known) || !ok {
		return
	}
	sc := p.sc
	if i := slices.IndexFunc(p.out.Lengths, func(l set.Length) bool { return l.Name == part.Of }); i >= 0 {
		l := p.out.Lengths[i]
		switch {
		case part.Width != 0:
			sc.list.Hintf(at.width, "\""+l.Name+"\" is bought by the length, and its section is its width", "leave `width` out")
			return
		case part.Grain != set.GrainFree:
			sc.list.Hintf(part.Span, "\""+l.Name+"\" is bought by the length, and its grain runs along it", "leave `grain` out")
			return
		case part.Length > l.Long+geom.Tolerance:
			sc.list.Hintf(at.length, "a part of "+sc.ev.Show(part.Length)+" does not come out of \""+l.Name+"\"", "the longest that fits is %s", sc.ev.Show(l.Long))
			return
		}
	}
	if i := slices.IndexFunc(p.out.Boards, func(b set.Board) bool { return b.Name == part.Of }); i >= 0 {
		b := p.out.Boards[i]
		if part.Width == 0 {
			sc.list.Hintf(at.width, "a part of a board needs its `width`", "write `part %s of \"%s\" length 900 width 300`", part.Name, b.Name)
			return
		}
		if !fits(part, b) {
			sc.list.Hintf(at.length, "a part of "+sc.ev.Show(part.Length)+" x "+sc.ev.Show(part.Width)+" does not come out of \""+b.Name+"\"",
				"the largest that fits is %s x %s%s", sc.ev.Show(b.Length), sc.ev.Show(b.Width), along(part, b))
			return
		}
	}
	p.out.Parts = append(p.out.Parts, part)
}

// fits reports whether a part comes out of a board, turned a quarter where the grain lets it.
func fits(p set.Part, b set.Board) bool {
	const hair = geom.Tolerance
	lies := p.Length <= b.Length+hair && p.Width <= b.Width+hair
	turned := p.Length <= b.Width+hair && p.Width <= b.Length+hair
	if p.Grain == set.GrainFree || b.Grain == set.GrainFree {
		return lies || turned
	}
	if p.Grain == b.Grain {
		return lies
	}
	return turned
}

// along adds why a part may not be turned.
func along(p set.Part, b set.Board) string {
	if p.Grain == set.GrainFree || b.Grain == set.GrainFree {
		return ""
	}
	return ", with the grain as it is said"
}

// columns of a list of parts, in the order in which they are told.
var columns = []string{"name", "of", "length", "width", "count", "grain"}

// list reads parts from a list.
func (p *parts) list(from *notation.Text) {
	if p.opt.Read == nil {
		return
	}
	id, text, ok := p.opt.Read(from)
	if !ok {
		return
	}
	list := p.sc.list
	c := notation.NewCSV(id, text, list)
	at, ok := p.header(c)
	if !ok {
		return
	}
	for n := 1; ; n++ {
		row, ok := c.Row()
		if !ok {
			return
		}
		if n > notation.MostRows {
			list.Errorf(row[0].Span, "a list has at most %d rows, the limit", notation.MostRows)
			return
		}
		p.row(row, at)
	}
}

// header finds the columns: the place of each of columns, −1 for one that is not there.
func (p *parts) header(c *notation.CSV) (at [6]int, ok bool) {
	for i := range at {
		at[i] = -1
	}
	cells := c.Header()
	ok = len(cells) > 0
	for i := range cells {
		word := cells[i].Value
		k := slices.Index(columns, word)
		switch {
		case k < 0:
			hint := "the columns are " + strings.Join(columns, ", ")
			if near := notation.Suggest(word, columns); near != "" {
				hint = "did you mean `" + near + "`?"
			}
			p.sc.list.Hintf(cells[i].Span, "a part has no `"+word+"`", "%s", hint)
			ok = false
		case at[k] >= 0:
			p.sc.list.Errorf(cells[i].Span, "`%s` is a column already", word)
			ok = false
		default:
			at[k] = i
		}
	}
	for k, word := range columns[:3] {
		if ok && at[k] < 0 {
			p.sc.list.Hintf(cells[0].Span, "the column `"+word+"` is missing", "the header is name,of,length and, where wanted, width,count,grain")
			ok = false
		}
	}
	return at, ok
}

// row takes up one row of a list.
func (p *parts) row(row []notation.Cell, at [6]int) {
	cell := func(k int) *notation.Cell {
		if at[k] < 0 || row[at[k]].Value == "" {
			return nil
		}
		return &row[at[k]]
	}
	ok := true
	for k, word := range columns[:3] {
		if cell(k) == nil {
			p.sc.list.Errorf(row[at[k]].Span, "this part needs its `%s`", word)
			ok = false
		}
	}
	if !ok {
		return
	}
	name, of, length := cell(0), cell(1), cell(2)
	part := set.Part{Name: name.Value, Of: of.Value, Count: 1, Span: name.Span}
	if _, ok = name.Name(p.sc.list); ok {
		ok = p.name(part.Name, name.Span)
	}
	where := spots{of: of.Span, length: length.Span, width: name.Span}
	ok = p.sc.inCell(length, func(n notation.Node) (fine bool) {
		part.Length, fine = p.sc.ev.Positive(n, "length")
		return fine
	}) && ok
	if c := cell(3); c != nil {
		where.width = c.Span
		ok = p.sc.inCell(c, func(n notation.Node) (fine bool) {
			part.Width, fine = p.sc.ev.Positive(n, "width")
			return fine
		}) && ok
	}
	if c := cell(4); c != nil {
		ok = p.sc.inCell(c, func(n notation.Node) (fine bool) {
			part.Count, fine = p.sc.ev.Count(n, "count", 1, mostCount)
			return fine
		}) && ok
	}
	if c := cell(5); c != nil {
		if !slices.Contains([]string{"along", "across", "free"}, c.Value) {
			p.sc.list.Hintf(c.Span, "\""+c.Value+"\" is no grain", "write along, across or free, or leave the cell empty")
			ok = false
		}
		part.Grain = grainOf(c.Value)
	}
	p.add(part, where, ok)
}

// inCell reads a cell's text as one value and hands it on. What is wrong is reported where it stands in the cell.
func (sc *scene) inCell(c *notation.Cell, use func(notation.Node) bool) bool {
	if c.Formula(sc.list) {
		return false
	}
	own := sc.list
	there := &diag.List{Sources: own.Sources}
	sc.list, sc.ev.List = there, there
	args, ok := notation.ParseForm(c.Span.File, []byte(c.Value), 0, "VALUE", there)
	if ok {
		ok = use(args.Get(""))
	}
	sc.list, sc.ev.List = own, own
	for _, d := range there.Sorted() {
		if d.Span.File == c.Span.File {
			d.Span = c.At(int(d.Span.From), int(d.Span.To))
		}
		own.Add(d)
	}
	return ok
}
