package artwork

import (
	"math"
	"strconv"
	"strings"

	"golang.org/x/image/colornames"
)

// tint is a colour that may let something through.
type tint struct {
	Colour
	opacity float64
}

// parseColour reads a colour of CSS Color 3, with four and eight hexadecimal digits and the newer way to write
// rgb() and hsl() of CSS Color 4. currentColor is not one of them. What follows a colour (icc-color) is
// returned as rest.
func parseColour(text string) (c tint, rest string, ok bool) {
	text = strings.TrimSpace(text)
	if hex, found := strings.CutPrefix(text, "#"); found {
		digits := len(hex)
		for i := range len(hex) {
			if isSpace(hex[i]) {
				digits = i
				break
			}
		}
		c, ok = hexColour(hex[:digits])
		return c, hex[digits:], ok
	}
	s := scanner{text: text}
	name := strings.ToLower(s.word())
	if s.take('(') {
		c, ok = s.colourFunction(name)
		return c, s.text[s.at:], ok
	}
	rest = s.text[s.at:]
	switch name {
	case "transparent":
		return tint{}, rest, true
	case "rebeccapurple": // the one name of CSS Color 4 that SVG 1.1 did not have
		return tint{Colour{0x66, 0x33, 0x99}, 1}, rest, true
	}
	named, ok := colornames.Map[name]
	return tint{Colour{named.R, named.G, named.B}, 1}, rest, ok
}

func hexColour(hex string) (tint, bool) {
	n, err := strconv.ParseUint(hex, 16, 32)
	if err != nil {
		return tint{}, false
	}
	v := uint32(n)
	switch len(hex) {
	case 3:
		v = v<<4 | 0xf
	case 6:
		v = v<<8 | 0xff
	}
	switch len(hex) {
	case 3, 4:
		var wide uint32
		for i := range 4 {
			d := v >> (4 * i) & 0xf
			wide |= d * 0x11 << (8 * i)
		}
		v = wide
	case 6, 8:
	default:
		return tint{}, false
	}
	return tint{Colour{uint8(v >> 24), uint8(v >> 16), uint8(v >> 8)}, float64(v&0xff) / 255}, true
}

// colourFunction reads the arguments of rgb(), rgba(), hsl() or hsla(), the bracket behind them included.
func (s *scanner) colourFunction(name string) (tint, bool) {
	var v [4]float64
	var percent [4]bool
	n := 0
	s.space()
	for !s.take(')') {
		x, ok := s.number()
		if !ok || n == 4 {
			return tint{}, false
		}
		percent[n] = s.take('%')
		if n == 0 && strings.HasPrefix(name, "hsl") {
			switch s.word() {
			case "", "deg":
			case "rad":
				x *= 180 / math.Pi
			case "grad":
				x *= 0.9
			case "turn":
				x *= 360
			default:
				return tint{}, false
			}
		}
		v[n] = x
		n++
		s.comma()
		if n == 3 && s.take('/') {
			s.space()
		}
	}
	opacity := 1.0
	switch {
	case n == 4 && percent[3]:
		opacity = unit(v[3] / 100)
	case n == 4:
		opacity = unit(v[3])
	case n != 3:
		return tint{}, false
	}
	switch name {
	case "rgb", "rgba":
		var c [3]uint8
		for i := range c {
			if percent[i] != percent[0] {
				return tint{}, false
			}
			x := v[i] / 255
			if percent[i] {
				x = v[i] / 100
			}
			c[i] = level(x)
		}
		return tint{Colour{c[0], c[1], c[2]}, opacity}, true
	case "hsl", "hsla":
		if percent[0] || !percent[1] || !percent[2] {
			return tint{}, false
		}
		return tint{hsl(v[0], unit(v[1]/100), unit(v[2]/100)), opacity}, true
	}
	return tint{}, false
}

// hsl returns a colour by hue in degrees, saturation and lightness (CSS Color 3, section 4.2.4).
func hsl(hue, saturation, lightness float64) Colour {
	a := saturation * min(lightness, 1-lightness)
	channel := func(n float64) uint8 {
		k := math.Mod(math.Mod(n+hue/30, 12)+12, 12)
		return level(lightness - a*max(-1, min(k-3, 9-k, 1)))
	}
	return Colour{channel(0), channel(8), channel(4)}
}

// unit returns x kept within 0 and 1.
func unit(x float64) float64 { return min(max(x, 0), 1) }

// level returns a share of full light as one of 256 steps.
func level(x float64) uint8 { return uint8(math.Round(unit(x) * 255)) }
