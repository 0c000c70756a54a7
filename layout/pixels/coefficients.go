package pixels

// coefficientBytes is what a block takes while a picture is held whole: its first coefficient in two bytes and the
// others in one each. Those of more than 127, which are few, stand in a map.
const coefficientBytes = 2 + 63

// mostFar is the most coefficients of one component that may stand in the map: some 200 MB.
const mostFar = 4 << 20

// plane is all coefficients of one component, in zigzag order.
type plane struct {
	across, down int // blocks, whole MCUs
	usedX, usedY int // blocks that show at least one pixel: what scans of this component alone hold
	dc           []int16
	ac           []int8 // 63 a block
	far          map[int]int16
}

// isFar marks a coefficient that stands in the map.
const isFar = -128

func (f *jpegFile) planes() []*plane {
	planes := make([]*plane, len(f.comps))
	most := f.comps[0]
	for i, c := range f.comps {
		p := &plane{across: f.across * c.h, down: f.down * c.v, far: map[int]int16{}}
		// The component's own size in samples, T.81 A.1.1, in blocks.
		p.usedX = ((f.width*c.h+most.h-1)/most.h + 7) / 8
		p.usedY = ((f.height*c.v+most.v-1)/most.v + 7) / 8
		p.dc = make([]int16, p.across*p.down)
		p.ac = make([]int8, 63*p.across*p.down)
		planes[i] = p
	}
	return planes
}

// at is the coefficient k, from 1, of a block.
func (p *plane) at(block, k int) int32 {
	i := 63*block + k - 1
	if v := p.ac[i]; v != isFar {
		return int32(v)
	}
	return int32(p.far[i])
}

// set stores the coefficient k, from 1, of a block.
func (p *plane) set(block, k int, v int32) {
	i := 63*block + k - 1
	if v > -128 && v < 128 {
		if p.ac[i] == isFar {
			delete(p.far, i)
		}
		p.ac[i] = int8(v)
		return
	}
	p.ac[i] = isFar
	p.far[i] = int16(v)
}
