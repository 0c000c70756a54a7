// Package diag holds places in source text and the list of what is wrong there.
//
// A Span is three small integers; file, line and column are worked out only when a
// diagnostic is printed. Every reader of outside text (the geometry file, CSV, SVG)
// reports through one List, so that a run shows all its errors at once, sorted.
package diag

import (
	"bytes"
	"cmp"
	"fmt"
	"slices"
	"sort"
	"unicode/utf8"
)

// FileID numbers a text in Sources. Zero is no file.
type FileID int32

// Span is a half-open range of bytes [From, To) in one file. The zero Span is no place.
type Span struct {
	File     FileID
	From, To int32
}

// IsZero reports whether s names no place.
func (s Span) IsZero() bool { return s.File == 0 }

// Join returns the smallest span that covers s and t, which lie in one file.
// A zero span on either side yields the other.
func (s Span) Join(t Span) Span {
	if s.IsZero() {
		return t
	}
	if t.IsZero() || s.File != t.File {
		return s
	}
	return Span{s.File, min(s.From, t.From), max(s.To, t.To)}
}

// Severity tells an error (nothing is written) from a caution (the work goes on).
type Severity uint8

const (
	Error Severity = iota
	Caution
)

func (s Severity) String() string {
	if s == Caution {
		return "caution"
	}
	return "error"
}

// Diagnostic is one thing to say about one place.
type Diagnostic struct {
	Span     Span
	Severity Severity
	Code     string // stable code of a caution ("STEP-RISE"); empty for errors
	Message  string
	Hint     string // what would mend it, when that is known
}

// Position is a Span's start as a person counts: line and column from 1, the column in characters.
// Text after a leading byte order mark starts at column 1.
type Position struct {
	File         string
	Line, Column int
}

func (p Position) String() string {
	if p.File == "" {
		return "-"
	}
	return fmt.Sprintf("%s:%d:%d", p.File, p.Line, p.Column)
}

type source struct {
	name  string
	text  []byte
	lines []int32 // byte offset at which each line starts
}

// Sources holds the texts that spans point into, in the order in which they were added.
type Sources struct{ files []source }

// Add stores a text under the name as the user typed it and returns its number.
func (s *Sources) Add(name string, text []byte) FileID {
	f := source{name: name, text: text, lines: make([]int32, 1, bytes.Count(text, []byte{'\n'})+1)}
	for at := 0; ; {
		i := bytes.IndexByte(text[at:], '\n')
		if i < 0 {
			break
		}
		at += i + 1
		f.lines = append(f.lines, int32(at))
	}
	s.files = append(s.files, f)
	return FileID(len(s.files))
}

// Name returns the name of a file, empty for no file.
func (s *Sources) Name(id FileID) string {
	if id < 1 || int(id) > len(s.files) {
		return ""
	}
	return s.files[id-1].name
}

// Text returns the text of a file; the caller must not change it.
func (s *Sources) Text(id FileID) []byte {
	if id < 1 || int(id) > len(s.files) {
		return nil
	}
	return s.files[id-1].text
}

// Position expands the start of a span.
func (s *Sources) Position(sp Span) Position {
	if sp.File < 1 || int(sp.File) > len(s.files) {
		return Position{}
	}
	f := &s.files[sp.File-1]
	from := min(max(int(sp.From), 0), len(f.text))
	line := sort.Search(len(f.lines), func(i int) bool { return int(f.lines[i]) > from }) - 1
	start := int(f.lines[line])
	if line == 0 && len(f.text) >= 3 && string(f.text[:3]) == "\ufeff" {
		start = min(3, from)
	}
	return Position{File: f.name, Line: line + 1, Column: utf8.RuneCount(f.text[start:from]) + 1}
}

// line returns the text of the line a span starts in, without its line end, and the
// byte offset at which that text starts.
func (s *Sources) line(sp Span) ([]byte, int) {
	f := &s.files[sp.File-1]
	from := min(max(int(sp.From), 0), len(f.text))
	i := sort.Search(len(f.lines), func(i int) bool { return int(f.lines[i]) > from }) - 1
	start, end := int(f.lines[i]), len(f.text)
	if i+1 < len(f.lines) {
		end = int(f.lines[i+1]) - 1
	}
	if i == 0 && len(f.text) >= 3 && string(f.text[:3]) == "\ufeff" {
		start = 3
	}
	end = max(end, start)
	if end > start && f.text[end-1] == '\r' {
		end--
	}
	return f.text[start:end], start
}

// List collects diagnostics. The zero List is ready to use once Sources is set.
type List struct {
	Sources *Sources
	items   []Diagnostic
	errors  int
}

// Add appends d. The same message at the same place is kept once.
func (l *List) Add(d Diagnostic) {
	for i := len(l.items) - 1; i >= 0 && i >= len(l.items)-8; i-- {
		if l.items[i].Span == d.Span && l.items[i].Message == d.Message {
			return
		}
	}
	if d.Severity == Error {
		l.errors++
	}
	l.items = append(l.items, d)
}

// Errorf adds an error at a place.
func (l *List) Errorf(sp Span, format string, args ...any) {
	l.Add(Diagnostic{Span: sp, Message: fmt.Sprintf(format, args...)})
}

// Hintf adds an error with a hint: the message is used as it stands, the hint is formatted.
func (l *List) Hintf(sp Span, message, hint string, args ...any) {
	l.Add(Diagnostic{Span: sp, Message: message, Hint: fmt.Sprintf(hint, args...)})
}

// HasErrors reports whether anything in the list forbids going on.
func (l *List) HasErrors() bool { return l.errors > 0 }

// Errors returns how many errors the list has.
func (l *List) Errors() int { return l.errors }

// Sorted returns the diagnostics by file (in the order the files were read), place, severity, message.
func (l *List) Sorted() []Diagnostic {
	out := slices.Clone(l.items)
	slices.SortStableFunc(out, func(a, b Diagnostic) int {
		return cmp.Or(cmp.Compare(a.Span.File, b.Span.File), cmp.Compare(a.Span.From, b.Span.From),
			cmp.Compare(a.Severity, b.Severity), cmp.Compare(a.Span.To, b.Span.To), cmp.Compare(a.Message, b.Message))
	})
	return slices.CompactFunc(out, func(a, b Diagnostic) bool { return a == b })
}
