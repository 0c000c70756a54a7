package sheet

import (
	"strings"

	"markout/layout/develop"
)

// matcher finds the pieces of an earlier issue among those of a model.
type matcher struct {
	bed  bed
	m    *develop.Model
	was  *Nests
	then map[string]string // of each element now: what it was called; empty where it was not there

	old    []oldPiece
	shapes []string // of each piece now
	of     []int    // of each piece now: index in old, -1 for none
}

// oldPiece is a piece of the earlier issue.
type oldPiece struct {
	LaidRecord
	copyName string
	number   int
	sheet    int // index in Nests.Sheets
	taken    bool
}

// match finds for each piece the one of the same shape in an earlier issue whose place it takes: first the one with its label,
// also under the name that its element had; then another of its own copy; then one of a copy that is there no more, whose label
// nothing else bears.
func match(m *develop.Model, was *Nests, b bed) *matcher {
	k := &matcher{bed: b, m: m, was: was, of: make([]int, len(m.Pieces)), shapes: make([]string, len(m.Pieces))}
	for i := range m.Pieces {
		k.of[i], k.shapes[i] = -1, shapeOf(&m.Pieces[i], b)
	}
	for i, s := range was.Sheets {
		for _, l := range s.Pieces {
			name, number, _, err := readLabel(l.Piece)
			if err != nil {
				continue // no record that was parsed has one
			}
			k.old = append(k.old, oldPiece{LaidRecord: l, copyName: name, number: number, sheet: i})
		}
	}
	k.rename()
	type label struct {
		copyName string
		number   int
		shape    string
	}
	exact := map[label]int{}
	byCopy, free := map[label][]int{}, map[string][]int{}
	present := map[string]bool{}
	for i := range m.Pieces {
		present[k.thenCopy(m.Pieces[i].Element)] = true
	}
	for i := range k.old {
		o := &k.old[i]
		exact[label{o.copyName, o.number, o.Shape}] = i
		byCopy[label{o.copyName, 0, o.Shape}] = append(byCopy[label{o.copyName, 0, o.Shape}], i)
		if !present[o.copyName] {
			free[o.Shape] = append(free[o.Shape], i)
		}
	}
	for i := range m.Pieces {
		p := &m.Pieces[i]
		if o, ok := exact[label{k.thenCopy(p.Element), p.Number, k.shapes[i]}]; ok {
			k.take(i, o)
		}
	}
	for i := range m.Pieces {
		if k.of[i] < 0 {
			k.takeFirst(i, byCopy[label{k.thenCopy(m.Pieces[i].Element), 0, k.shapes[i]}])
		}
	}
	for i := range m.Pieces {
		if k.of[i] < 0 {
			k.takeFirst(i, free[k.shapes[i]])
		}
	}
	return k
}

func (k *matcher) take(piece, old int) {
	k.of[piece], k.old[old].taken = old, true
}

func (k *matcher) takeFirst(piece int, olds []int) {
	for _, o := range olds {
		if !k.old[o].taken {
			k.take(piece, o)
			return
		}
	}
}

// thenCopy is what a copy was called in the earlier issue; empty where its element was not there.
func (k *matcher) thenCopy(copyName string) string {
	name := baseName(copyName)
	then := k.then[name]
	if then == "" {
		return ""
	}
	return then + strings.TrimPrefix(copyName, name)
}

// rename finds out what each element was called: as it is called now, or else as one that is there no more and was alike in all, or
// else as the one that most of its pieces are of.
func (k *matcher) rename() {
	k.then = map[string]string{}
	names := elementsOf(k.m)
	shapes := elementShapes(k.m, k.bed)
	now, gone := map[string]bool{}, map[string]bool{}
	for _, n := range names {
		now[n] = true
	}
	for _, e := range k.was.Elements {
		if now[e.Element] {
			k.then[e.Element] = e.Element
		} else {
			gone[e.Element] = true
		}
	}
	called := func(name, then string) {
		k.then[name] = then
		delete(gone, then)
	}
	for _, n := range names {
		for _, e := range k.was.Elements {
			if k.then[n] == "" && gone[e.Element] && e.Shape == shapes[n] {
				called(n, e.Element)
			}
		}
	}
	have := map[string]map[string]int{} // of each element gone: how many pieces of which shape
	for _, o := range k.old {
		n := baseName(o.copyName)
		if have[n] == nil {
			have[n] = map[string]int{}
		}
		have[n][o.Shape]++
	}
	own := map[string]map[string]int{}
	for i := range k.m.Pieces {
		n := baseName(k.m.Pieces[i].Element)
		if own[n] == nil {
			own[n] = map[string]int{}
		}
		own[n][k.shapes[i]]++
	}
	for _, n := range names {
		if k.then[n] != "" {
			continue
		}
		best, most := "", 0
		for _, e := range k.was.Elements {
			if !gone[e.Element] {
				continue
			}
			common := 0
			for shape, count := range own[n] {
				common += min(count, have[e.Element][shape])
			}
			if common > most {
				best, most = e.Element, common
			}
		}
		if best != "" {
			called(n, best)
		}
	}
}
