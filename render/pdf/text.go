package pdf

import (
	"math"
	"strconv"
	"unicode/utf8"

	"markout/layout/geom"
	"markout/layout/lettering"
	"markout/tiling"
)

// texts appends lettering as one text object.
func (c *content) texts(texts []tiling.Text) {
	open := false
	var line textLine
	for i := range texts {
		t := &texts[i]
		size := units(lettering.Em(t.Height))
		if t.Text == "" || size <= 0 {
			continue
		}
		if !open {
			c.buf = append(c.buf, "BT "...)
			open, c.font = true, textFont{}
			line = textLine{turn: 0}
		}
		c.fillTone(float64(t.Tone))
		if t.Hidden != c.hidden {
			mode := byte('0')
			if t.Hidden {
				mode = '3'
			}
			c.hidden = t.Hidden
			c.buf = append(c.buf, mode, ' ', 'T', 'r', ' ')
		}
		c.moveText(&line, t)
		c.showText(t.Text, t.Bold, size)
	}
	if open {
		c.buf = append(c.buf, "ET\n"...)
	}
}

// textLine is where the current line of a text object begins and how it is turned. Quarter turns are counted;
// any other turn is −1.
type textLine struct {
	turn int
	x, y int64
}

// moveText begins a line at a text's place: by its distance from the line before where both stand the same way
// up by quarter turns, otherwise by a matrix.
func (c *content) moveText(line *textLine, t *tiling.Text) {
	x, y := units(t.At.X)+c.x, units(t.At.Y)+c.y
	turn := quarterTurns(t.Turn)
	if turn >= 0 && turn == line.turn {
		dx, dy := x-line.x, y-line.y
		switch turn {
		case 1:
			dx, dy = dy, -dx
		case 2:
			dx, dy = -dx, -dy
		case 3:
			dx, dy = -dy, dx
		}
		c.int(dx)
		c.int(dy)
		c.buf = append(c.buf, "Td "...)
	} else {
		sin, cos := geom.SincosDeg(t.Turn)
		if turn >= 0 {
			sin, cos = geom.SincosDeg(90 * float64(turn))
		}
		for _, v := range [4]float64{cos, sin, -sin, cos} {
			c.buf = append(appendReal(c.buf, v, 7), ' ')
		}
		c.int(x)
		c.int(y)
		c.buf = append(c.buf, "Tm "...)
	}
	*line = textLine{turn, x, y}
}

// quarterTurns returns 0 to 3 for a turn of whole right angles, −1 for any other.
func quarterTurns(degrees float64) int {
	q := degrees / 90
	whole := math.Round(q)
	if !(math.Abs(q-whole) < 1e-9) {
		return -1
	}
	return int(math.Mod(math.Mod(whole, 4)+4, 4))
}

// textFont is the font that text is set in: a face and code page, and a size in micrometres.
type textFont struct {
	key  fontKey
	size int64
	used *[256]bool
}

func (c *content) setFont(key fontKey, size int64) {
	if c.font.used != nil && c.font.key == key && c.font.size == size {
		return
	}
	c.font = textFont{key, size, c.used.of(key)}
	c.buf = append(c.buf, '/')
	c.buf = append(c.buf, key.name()...)
	c.buf = append(c.buf, ' ')
	c.buf = append(strconv.AppendInt(c.buf, size, 10), " Tf"...)
}

// showText appends a text's strings, a new one wherever the code page changes.
func (c *content) showText(text string, bold bool, size int64) {
	open := false
	for i := 0; i < len(text); {
		at := place{0, text[i]}
		n := 1
		if text[i] < firstCode || text[i] >= missingCode {
			r, width := utf8.DecodeRuneInString(text[i:])
			at, n = c.codes.place(r), width
		}
		i += n
		key := fontKey{bold, at.page}
		if !open || c.font.key != key {
			if open {
				c.buf = append(c.buf, ")Tj"...)
			}
			c.setFont(key, size)
			c.buf = append(c.buf, '(')
			open = true
		}
		c.font.used[at.code] = true
		if at.code == '(' || at.code == ')' || at.code == '\\' {
			c.buf = append(c.buf, '\\')
		}
		c.buf = append(c.buf, at.code)
	}
	c.buf = append(c.buf, ")Tj\n"...)
}
