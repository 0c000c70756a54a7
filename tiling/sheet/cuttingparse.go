package sheet

import (
	"encoding/hex"
	"encoding/json"
	"fmt"
	"math"

	"markout/layout/geom"
)

// ParseCuts reads what Record gave, as issue.json keeps it; nil where nothing was cut. The error says what cannot be true. Whether pieces
// lie over one another is seen only with their outlines: LayCutting does.
func ParseCuts(text []byte) (*Cuts, error) {
	if len(text) == 0 {
		return nil, nil
	}
	var r *Cuts
	if err := json.Unmarshal(text, &r); err != nil {
		return nil, err
	}
	if r == nil {
		return nil, nil
	}
	k := cutsChecker{r: r, items: map[int]*ItemRecord{}, left: map[int]int{}, names: map[string]bool{}}
	if err := k.check(); err != nil {
		return nil, err
	}
	return r, nil
}

// cutsChecker holds a record to what it must be.
type cutsChecker struct {
	r     *Cuts
	items map[int]*ItemRecord
	left  map[int]int // of each item: how many have no place yet
	names map[string]bool
}

// lengths reports whether each is a length, from 0 on.
func lengths(xs ...float64) bool {
	for _, x := range xs {
		if !(x >= 0 && x <= geom.MostCoordinate) {
			return false
		}
	}
	return true
}

func (k *cutsChecker) check() error {
	r := k.r
	for _, n := range [3]int{r.LastItem, r.Strips, r.Lists} {
		if n < 0 || n > mostSheets {
			return fmt.Errorf("%d items, strips of bars or lists cannot be", n)
		}
	}
	for i := range r.Items {
		p := &r.Items[i]
		if p.Item < 1 || p.Item > r.LastItem || k.items[p.Item] != nil {
			return fmt.Errorf("item %d of %d stands twice or cannot be", p.Item, r.LastItem)
		}
		if b, err := hex.DecodeString(p.Shape); err != nil || len(b) != shapeBytes {
			return fmt.Errorf("item %d has no shape", p.Item)
		}
		if p.Count < 0 || p.Count > mostSheets {
			return fmt.Errorf("item %d has a count of %d", p.Item, p.Count)
		}
		k.items[p.Item], k.left[p.Item] = p, p.Count
	}
	for i := range r.Boards {
		if err := k.boards(&r.Boards[i]); err != nil {
			return err
		}
	}
	for i := range r.Bars {
		if err := k.bars(&r.Bars[i]); err != nil {
			return err
		}
	}
	for i := range r.Items {
		if !k.names[r.Items[i].Of] {
			return fmt.Errorf("item %d is of %q, which has no boards and no bars", r.Items[i].Item, r.Items[i].Of)
		}
	}
	return k.blocks()
}

// material notes the name of a material.
func (k *cutsChecker) material(name string, last int) error {
	if k.names[name] {
		return fmt.Errorf("%s stands twice", name)
	}
	if last < 0 || last > mostSheets {
		return fmt.Errorf("%s/%d cannot be its last", name, last)
	}
	k.names[name] = true
	return nil
}

// piece notes the place of a piece.
func (k *cutsChecker) piece(item int, of string) error {
	p := k.items[item]
	if p == nil || p.Of != of {
		return fmt.Errorf("%s has no item %d", of, item)
	}
	if k.left[item]--; k.left[item] < 0 {
		return fmt.Errorf("item %d is cut more often than its count, %d", item, p.Count)
	}
	return nil
}

func (k *cutsChecker) boards(m *BoardsOf) error {
	if err := k.material(m.Name, m.Last); err != nil {
		return err
	}
	if !(m.Size[0] > 0 && m.Size[1] > 0) || !lengths(m.Size[0], m.Size[1], m.Thick, m.Kerf) {
		return fmt.Errorf("%s has a size that cannot be", m.Name)
	}
	if m.Free < 0 || m.Free > mostSheets {
		return fmt.Errorf("%s cannot do with %d boards", m.Name, m.Free)
	}
	before := 0
	for i := range m.Boards {
		b := &m.Boards[i]
		if b.Number <= before || b.Number > m.Last || b.Sheet < 1 || b.Sheet > b.Number || b.List < 1 || b.List > k.r.Lists {
			return fmt.Errorf("%s stands after %s, of %d, or is drawn nowhere", from(m.Name, b.Number), from(m.Name, before), m.Last)
		}
		before = b.Number
		for _, x := range b.Cuts {
			if err := k.piece(x.Item, m.Name); err != nil {
				return err
			}
			if !(math.Abs(x.At[0]) <= geom.MostCoordinate) || !(math.Abs(x.At[1]) <= geom.MostCoordinate) || !(math.Abs(x.Turn) <= 360) {
				return fmt.Errorf("item %d lies nowhere on %s", x.Item, from(m.Name, b.Number))
			}
		}
		if b.Part != nil {
			seen := make([]bool, len(b.Cuts))
			if n := b.Part.pieces(seen); n != len(b.Cuts) {
				return fmt.Errorf("the cuts of %s do not free each of its pieces once", from(m.Name, b.Number))
			}
		}
	}
	return nil
}

// pieces counts the pieces of a part, or is −1 where it cannot be one: a piece that stands twice, a cut without its near part.
func (p *PartRecord) pieces(seen []bool) int {
	cuts := p.Across != 0 || p.Along != 0
	switch {
	case cuts != (p.Near != nil) || !cuts && p.Far != nil || cuts && p.Piece != nil || p.Across != 0 && p.Along != 0 || !lengths(p.Across, p.Along):
		return -1
	case p.Piece != nil:
		if n := *p.Piece; n < 0 || n >= len(seen) || seen[n] {
			return -1
		}
		seen[*p.Piece] = true
		return 1
	case !cuts:
		return 0
	}
	near, far := p.Near.pieces(seen), 0
	if p.Far != nil {
		far = p.Far.pieces(seen)
	}
	if near < 0 || far < 0 {
		return -1
	}
	return near + far
}

func (k *cutsChecker) bars(m *BarsOf) error {
	if err := k.material(m.Name, m.Last); err != nil {
		return err
	}
	if !(m.Long > 0) || !lengths(m.Section[0], m.Section[1], m.Long, m.Kerf) {
		return fmt.Errorf("%s has a size that cannot be", m.Name)
	}
	before := 0
	for i := range m.Bars {
		b := &m.Bars[i]
		if b.Number <= before || b.Number > m.Last || b.Strip < 0 || b.Strip >= k.r.Strips || b.List < 1 || b.List > k.r.Lists {
			return fmt.Errorf("%s stands after %s, of %d, or is drawn nowhere", from(m.Name, b.Number), from(m.Name, before), m.Last)
		}
		before = b.Number
		at := 0.0
		for _, x := range b.Cuts {
			if err := k.piece(x.Item, m.Name); err != nil {
				return err
			}
			if !(x.From >= at && x.From <= m.Long) {
				return fmt.Errorf("item %d lies nowhere on %s", x.Item, from(m.Name, b.Number))
			}
			at = x.From
		}
	}
	return nil
}

func (k *cutsChecker) blocks() error {
	items := map[int]bool{}
	for i := range k.r.Blocks {
		b := &k.r.Blocks[i]
		if b.Item < 1 || b.Item > k.r.LastItem || items[b.Item] || k.items[b.Item] != nil {
			return fmt.Errorf("item %d of %d stands twice or cannot be", b.Item, k.r.LastItem)
		}
		items[b.Item] = true
		if b.Count < 1 || b.Count > mostSheets || !lengths(b.Size[:]...) || !lengths(b.Plates...) {
			return fmt.Errorf("%s of %s has a size or count that cannot be", b.Block, b.Element)
		}
		for _, l := range b.Layers {
			if !lengths(l[:]...) {
				return fmt.Errorf("%s of %s stands on boxes that cannot be", b.Block, b.Element)
			}
		}
	}
	return nil
}
