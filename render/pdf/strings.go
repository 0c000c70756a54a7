package pdf

import (
	"encoding/binary"
	"unicode/utf16"
)

// appendHex appends a string in hexadecimal.
func appendHex(b, s []byte) []byte {
	const digits = "0123456789ABCDEF"
	b = append(b, '<')
	for _, c := range s {
		b = append(b, digits[c>>4], digits[c&15])
	}
	return append(b, '>')
}

// appendText appends a text string for people: as it is where it is printable ASCII, otherwise as UTF-16 with its mark
// (ISO 32000-1, 7.9.2.2).
func appendText(b []byte, s string) []byte {
	for i := range len(s) {
		if s[i] < 0x20 || s[i] >= 0x7f {
			u := binary.BigEndian.AppendUint16(nil, 0xfeff)
			for _, v := range utf16.Encode([]rune(s)) {
				u = binary.BigEndian.AppendUint16(u, v)
			}
			return appendHex(b, u)
		}
	}
	b = append(b, '(')
	for i := range len(s) {
		if s[i] == '(' || s[i] == ')' || s[i] == '\\' {
			b = append(b, '\\')
		}
		b = append(b, s[i])
	}
	return append(b, ')')
}

// appendRef appends a reference to an object.
func appendRef(b []byte, r ref) []byte { return append(appendInt(b, int64(r)), '0', ' ', 'R') }
