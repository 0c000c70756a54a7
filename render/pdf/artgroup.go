package pdf

import (
	"strconv"

	"markout/layout/artwork"
	"markout/layout/geom"
)

// together appends a group. What is only clipped to plain outlines stands in the content itself; what is composed by itself is a
// form of its own.
func (c *canvas) together(g *artwork.Group) {
	if g.Opacity >= 1 && g.Mask == nil && c.isPlain(g.Clip) {
		mark := len(c.buf)
		c.push()
		c.clip(g.Clip)
		bare := len(c.buf)
		c.nodes(g.Nodes)
		empty := len(c.buf) == bare
		c.pop()
		if empty {
			c.buf = c.buf[:mark]
		}
		return
	}
	whole := c.child()
	whole.nodes(g.Nodes)
	if len(whole.buf) == 0 || c.err != nil {
		return
	}
	box := common(c.boxOf(g.Nodes), c.box(g))
	var mask string
	if g.Mask != nil {
		if mask = c.mask(g.Mask); mask == "" {
			return // a mask of nothing lets nothing through
		}
	}
	c.push()
	soft := c.clip(g.Clip)
	form := whole.form(box, whole.group())
	c.coloured = c.coloured || whole.coloured
	on := c
	if soft && mask != "" { // one mask at a time
		on = c.child()
		on.coloured = whole.coloured
	}
	if mask != "" {
		on.state(mask)
	}
	on.setFillAlpha(g.Opacity)
	on.do(form)
	if on != c {
		c.do(on.form(box, on.group()))
	}
	c.pop()
}

// mask returns the graphics state of a mask, empty where the mask has nothing on it.
func (c *canvas) mask(m *artwork.Mask) string {
	k := c.child()
	k.grey = !m.Alpha
	k.nodes(m.Nodes)
	if len(k.buf) == 0 {
		return ""
	}
	kind := "Luminosity"
	if m.Alpha {
		kind = "Alpha"
	}
	return softMask(kind, k.form(c.boxOf(m.Nodes), k.group()))
}

func softMask(kind string, form ref) string {
	return "<</SMask<</S/" + kind + "/G " + strconv.Itoa(int(form)) + " 0 R>>>>"
}

// isPlain reports whether a clip is one outline, and so all that it lies in: those are clipped to one after the other.
func (c *canvas) isPlain(p *artwork.Clip) bool {
	if p == nil {
		return true
	}
	plain, known := c.plain[p]
	if !known {
		plain = len(p.Outlines) == 1 && c.isPlain(p.Outlines[0].Clip) && c.isPlain(p.Clip)
		c.plain[p] = plain
	}
	return plain
}

// clip clips what follows, until the next pop. It reports whether it took a mask for it.
func (c *canvas) clip(p *artwork.Clip) bool {
	if p == nil {
		return false
	}
	if !c.isPlain(p) {
		c.name('G', c.clipMask(p))
		c.put("gs\n")
		return true
	}
	done := map[*artwork.Clip]bool{}
	var within func(p *artwork.Clip)
	within = func(p *artwork.Clip) {
		if p == nil || done[p] {
			return
		}
		done[p] = true
		within(p.Clip)
		o := p.Outlines[0]
		within(o.Clip)
		if !c.paths(o.Paths) {
			c.put("0 0 m ") // nothing lies inside
		}
		if o.EvenOdd {
			c.put("W* n\n")
		} else {
			c.put("W n\n")
		}
	}
	within(p)
	return false
}

// clipMask returns the graphics state of a clip of several outlines: white where it lets through.
func (c *canvas) clipMask(p *artwork.Clip) ref {
	if r, ok := c.clipMasks[p]; ok {
		return r
	}
	box := geom.EmptyRect()
	k := c.child()
	k.grey = true
	for _, o := range p.Outlines {
		for _, q := range o.Paths {
			box = box.Union(q.Bounds())
		}
		k.push()
		k.clip(o.Clip)
		k.put("1 g\n")
		if k.paths(o.Paths) {
			if o.EvenOdd {
				k.put("f*\n")
			} else {
				k.put("f\n")
			}
		}
		k.pop()
	}
	form := k.form(box, k.group())
	if p.Clip != nil {
		outer := c.child()
		outer.grey = true
		outer.clip(p.Clip)
		outer.do(form)
		form = outer.form(box, outer.group())
	}
	r := c.object([]byte(softMask("Luminosity", form)))
	c.clipMasks[p] = r
	return r
}
