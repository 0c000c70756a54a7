package sheet

import (
	"markout/layout/geom"
	"markout/tiling"
)

// workPart is something that stands whole in a column of a work order: a heading, a line, a row of a table.
type workPart struct {
	above float64 // room over it, but at the top of a column
	tall  float64
	draw  func(p *tiling.Page, left, top float64)
	over  *workPart // drawn over it again where a column begins with it: a table's headings
}

// workSpot is where a part stands: its upper left corner.
type workSpot struct {
	part *workPart
	at   geom.Point
}

// flowParts sets parts into columns one after another, each column filled before the next; ok is false where not all find room.
func flowParts(parts []workPart, columns []geom.Rect) (spots []workSpot, ok bool) {
	column, top := 0, true
	y := 0.0
	for i := range parts {
		p := &parts[i]
		for {
			if column == len(columns) {
				return spots, false
			}
			c := columns[column]
			over := 0.0
			switch {
			case !top:
				over = p.above
			case p.over != nil:
				over, y = p.over.tall, c.Max.Y
			default:
				y = c.Max.Y
			}
			if y-over-p.tall >= c.Min.Y-geom.Tolerance {
				if top && p.over != nil {
					spots = append(spots, workSpot{p.over, geom.Point{X: c.Min.X, Y: y}})
				}
				y -= over
				spots = append(spots, workSpot{p, geom.Point{X: c.Min.X, Y: y}})
				y -= p.tall
				top = false
				break
			}
			column, top = column+1, true
		}
	}
	return spots, true
}

// stackParts sets parts under one another and returns where they end.
func stackParts(parts []workPart, left, top float64, spots []workSpot) ([]workSpot, float64) {
	for i := range parts {
		top -= parts[i].above
		spots = append(spots, workSpot{&parts[i], geom.Point{X: left, Y: top}})
		top -= parts[i].tall
	}
	return spots, top
}

// columnsIn cuts a box into n columns of equal width, apart from one another.
func columnsIn(box geom.Rect, n int, apart float64) []geom.Rect {
	w := (box.W()+apart)/float64(n) - apart
	out := make([]geom.Rect, n)
	for i := range out {
		x := box.Min.X + float64(i)*(w+apart)
		out[i] = geom.Rect{Min: geom.Point{X: x, Y: box.Min.Y}, Max: geom.Point{X: x + w, Y: box.Max.Y}}
	}
	return out
}

// level is the least height of n columns in which parts find room, to a twentieth of a millimetre.
func level(parts []workPart, n int) float64 {
	lo, hi := 0.0, 0.0
	for i := range parts {
		hi += parts[i].above + parts[i].tall
	}
	if len(parts) > 0 && parts[0].over != nil {
		hi += parts[0].over.tall
	}
	if n == 1 {
		return hi
	}
	for hi-lo > 0.05 {
		mid := (lo + hi) / 2
		if _, ok := flowParts(parts, columnsIn(geom.Rect{Max: geom.Point{Y: mid}}, n, 0)); ok {
			hi = mid
		} else {
			lo = mid
		}
	}
	return hi
}

// greatest returns the greatest whole number up to n for which fits holds, −1 where it holds for none; where it holds for a number
// it is taken to hold for all below.
func greatest(n int, fits func(int) bool) int {
	lo, hi := -1, n
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if fits(mid) {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	return lo
}
