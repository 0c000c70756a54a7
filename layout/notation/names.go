package notation

import (
	"slices"
	"unicode"
	"unicode/utf8"
)

// joining are the words that join values; only they may not be names.
var joining = []string{
	"x", "at", "by", "to", "from", "in", "on", "of", "line", "arc", "curve", "close", "radius", "through", "handles",
	"long", "around", "along", "every", "facing", "least",
}

// isJoining reports whether a word as typed joins values.
func isJoining(word []byte) bool {
	for _, w := range joining {
		if string(word) == w {
			return true
		}
	}
	return false
}

// IsJoining reports whether a word joins values, so that it cannot be a name.
func IsJoining(word string) bool { return slices.Contains(joining, word) }

// IsName reports whether word is a name: letters, digits and _, not beginning with a digit, and no joining word.
func IsName(word string) bool {
	return word != "" && nameLength([]byte(word)) == len(word) && !IsJoining(word)
}

// nameLength returns how many bytes at the start of text are a name.
func nameLength(text []byte) int {
	i := 0
	for i < len(text) {
		c := text[i]
		if c|0x20 >= 'a' && c|0x20 <= 'z' || c == '_' || i > 0 && c-'0' <= 9 {
			i++
			continue
		}
		if c < utf8.RuneSelf {
			break
		}
		r, n := utf8.DecodeRune(text[i:])
		if r == utf8.RuneError || !unicode.IsLetter(r) {
			break
		}
		i += n
	}
	return i
}

// wordLength returns how many bytes at the start of text are a word that may have hyphens inside: full-size, plan-left.
func wordLength(text []byte) int {
	n := nameLength(text)
	for n > 0 && n+1 < len(text) && text[n] == '-' {
		more := nameLength(text[n+1:])
		if more == 0 {
			break
		}
		n += 1 + more
	}
	return n
}
