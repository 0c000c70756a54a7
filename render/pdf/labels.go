package pdf

import "strconv"

// labelsALeaf is how many pages one leaf of the tree of page labels covers.
const labelsALeaf = 256

// labels is the number tree of page labels in the making: each label is the whole text of its page, so each page
// has an entry of its own. Leaves are written as soon as they are full.
type labels struct {
	leaves      []byte // references
	nums        []byte
	first, last int
	any         bool
}

func (d *document) addLabel(page int, label string) {
	l := &d.labels
	l.any = l.any || label != ""
	if len(l.nums) == 0 {
		l.first = page
	}
	l.last = page
	l.nums = append(strconv.AppendInt(l.nums, int64(page), 10), "<</P"...)
	l.nums = append(appendText(l.nums, label), ">>"...)
	if page-l.first+1 == labelsALeaf {
		d.flushLabels()
	}
}

func (d *document) flushLabels() {
	l := &d.labels
	if len(l.nums) == 0 {
		return
	}
	r := d.file.alloc(1)
	b := append([]byte("<</Limits["), strconv.Itoa(l.first)...)
	b = append(append(b, ' '), strconv.Itoa(l.last)...)
	b = append(append(b, "]/Nums["...), l.nums...)
	d.file.object(r, append(b, "]>>"...))
	l.leaves = append(appendRef(l.leaves, r), ' ')
	l.nums = l.nums[:0]
}

// writeLabels ends the tree and returns its root's body, nil where no page has a label.
func (d *document) writeLabels() []byte {
	d.flushLabels()
	if !d.labels.any {
		return nil
	}
	return append(append([]byte("<</Kids["), d.labels.leaves...), "]>>"...)
}
