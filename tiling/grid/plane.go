package grid

// plane finds the number stored at a column and a row: a table where the box it covers is small, else a map, so that two
// pieces ten kilometres apart cost no more than two side by side.
type plane struct {
	c0, r0, w, h int
	table        []int32
	sparse       map[[2]int]int32
}

// densest is how many places a plane's table may have.
const densest = 1 << 21

// newPlane covers columns c0 to c1 and rows r0 to r1.
func newPlane(c0, r0, c1, r1 int) *plane {
	p := &plane{c0: c0, r0: r0, w: c1 - c0 + 1, h: r1 - r0 + 1}
	if p.w <= densest && p.h <= densest/p.w {
		p.table = make([]int32, p.w*p.h)
	} else {
		p.sparse = map[[2]int]int32{}
	}
	return p
}

// get returns the number at c, r; −1 where there is none.
func (p *plane) get(c, r int) int32 {
	c, r = c-p.c0, r-p.r0
	if c < 0 || r < 0 || c >= p.w || r >= p.h {
		return -1
	}
	if p.table != nil {
		return p.table[r*p.w+c] - 1
	}
	return p.sparse[[2]int{c, r}] - 1
}

// set stores a number, 0 or more, at c, r, which the plane covers.
func (p *plane) set(c, r int, n int32) {
	c, r = c-p.c0, r-p.r0
	if p.table != nil {
		p.table[r*p.w+c] = n + 1
		return
	}
	p.sparse[[2]int{c, r}] = n + 1
}

// each visits what is stored, in no order that holds.
func (p *plane) each(visit func(c, r int, n int32)) {
	for i, n := range p.table {
		if n > 0 {
			visit(i%p.w+p.c0, i/p.w+p.r0, n-1)
		}
	}
	for k, n := range p.sparse {
		visit(k[0]+p.c0, k[1]+p.r0, n-1)
	}
}
