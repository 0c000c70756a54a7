package lettering

import (
	"strings"
	"unicode/utf8"
)

// Wrap breaks text into lines no wider than width millimetres, at spaces; a line break in text stays one. A word wider than
// a line by itself is broken between characters. An empty text is one empty line. No-break spaces and hyphens do not
// break, so that 7'-6" and a date stay whole.
func Wrap(text string, height float64, bold bool, width float64) []string {
	f := Of(bold)
	room := 1 << 30 // lettering of no height is no width either
	if height > 0 {
		room = int(min(max(width/height*capHeight+1e-6, 0), 1<<30))
	}
	var lines []string
	for line := range strings.SplitSeq(text, "\n") {
		lines = f.wrapLine(lines, strings.ReplaceAll(line, "\t", " "), room)
	}
	return lines
}

// wrapLine appends the lines of one paragraph, room in units of the em.
func (f *Face) wrapLine(lines []string, text string, room int) []string {
	space := f.Advance(f.Glyph(' '))
	start, end, used := 0, 0, 0 // the line so far is text[start:end], used wide
	for at := 0; at < len(text); {
		word := at
		for word < len(text) && text[word] == ' ' {
			word++
		}
		next := word
		for next < len(text) && text[next] != ' ' {
			next++
		}
		w := f.width(text[word:next])
		gap := (word - at) * space
		switch {
		case word == next: // trailing spaces
			at = next
			continue
		case end == start && start == at: // first of its line; leading spaces go
			start, end, used = word, next, w
		case used+gap+w <= room:
			end, used = next, used+gap+w
		default:
			lines = append(lines, text[start:end])
			start, end, used = word, next, w
		}
		for used > room {
			cut := f.most(text[start:end], room)
			if cut == end-start {
				break
			}
			lines = append(lines, text[start:start+cut])
			start += cut
			used = f.width(text[start:end])
		}
		at = next
	}
	return append(lines, text[start:end])
}

// most returns how many bytes of text fit into room, at least one character.
func (f *Face) most(text string, room int) int {
	used := 0
	for i, r := range text {
		if used += f.Advance(f.Glyph(r)); used > room && i > 0 {
			return i
		}
	}
	_, n := utf8.DecodeRuneInString(text)
	if used > room {
		return n
	}
	return len(text)
}
