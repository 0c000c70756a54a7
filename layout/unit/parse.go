package unit

import (
	"fmt"
	"strings"
)

// Parse reads a text that holds one quantity and nothing else but spaces around it; it may begin with a sign.
// bare is true for a plain number. The error is a *ScanError whose place counts from the start of text.
func Parse(text string) (v Value, bare bool, err error) {
	from := len(text) - len(strings.TrimLeft(text, " \t"))
	body := strings.TrimRight(text[from:], " \t")
	sign := 1.0
	if rest, ok := strings.CutPrefix(body, "-"); ok {
		sign, body = -1, rest
		from++
	} else if rest, ok := strings.CutPrefix(body, "+"); ok {
		body = rest
		from++
	}
	v, bare, n, err := ScanQuantity([]byte(body))
	if e, ok := err.(*ScanError); ok {
		e.Offset += from
		return Value{}, false, e
	}
	if n < len(body) {
		e := &ScanError{Offset: from + n, Length: len(body) - n, Message: fmt.Sprintf("`%s` is not part of a quantity", body[n:])}
		if hint := CommaHint(body[:n], body[n:]); hint != "" {
			e.Message, e.Hint = "a number has a decimal point, not a comma", hint
		} else if IsUnit(strings.TrimSpace(body[n:])) {
			e.Message, e.Hint = "a unit touches its number", fmt.Sprintf("write `%s%s`", strings.TrimSpace(body[:n]), strings.TrimSpace(body[n:]))
		}
		return Value{}, false, e
	}
	v.X *= sign
	return v, bare, nil
}

// ParseLength reads a length; a bare number is in the unit sys.
func ParseLength(text string, sys System) (mm float64, err error) {
	v, bare, err := Parse(text)
	switch {
	case err != nil:
		return 0, err
	case bare:
		return v.X * sys.Factor(), nil
	case v.Kind != Length:
		return 0, &ScanError{Length: len(text), Message: fmt.Sprintf("a length is wanted, not a%s", article(v.Kind))}
	}
	return v.X, nil
}

func article(k Kind) string {
	if k == Angle || k == Area {
		return "n " + k.String()
	}
	return " " + k.String()
}

// CommaHint returns what to write where a comma was typed for a decimal point: before is the whole number that was
// read, after begins with the comma. It is empty where no digit touches the comma.
func CommaHint(before, after string) string {
	if !strings.HasPrefix(after, ",") {
		return ""
	}
	i := 1
	for i < len(after) && isDigit(after[i]) {
		i++
	}
	if i == 1 || strings.Trim(before, "0123456789") != "" {
		return ""
	}
	j := i
	for j < len(after) && after[j] > ' ' && after[j] != ',' && after[j] != ')' {
		j++
	}
	if i == 4 {
		return fmt.Sprintf("write `%s%s` for thousands, `%s.%s` for a decimal", before, after[1:j], before, after[1:j])
	}
	return fmt.Sprintf("write `%s.%s`", before, after[1:j])
}
