package notation

import (
	"strings"
	"testing"
	"unicode/utf8"

	"github.com/stretchr/testify/require"

	"markout/layout/diag"
)

// seed adds the texts of the tests to a fuzz test.
func seed(f *testing.F) {
	_, cases := errorCases(f)
	for _, c := range cases {
		f.Add(c.source())
	}
	f.Add(untidy)
	f.Add(example)
	for _, c := range valueCases {
		f.Add(c.kind + "\n    " + c.line + "\n")
	}
}

// walk calls visit for every node under n, with the span of the node that holds it.
func walk(n Node, in diag.Span, visit func(n Node, in diag.Span)) {
	if n == nil {
		return
	}
	visit(n, in)
	at := n.Pos()
	switch n := n.(type) {
	case *Ref:
		for _, a := range n.Asks {
			walk(a.Argument, a.Span, visit)
		}
	case *Unary:
		walk(n.X, at, visit)
	case *Binary:
		walk(n.X, at, visit)
		walk(n.Y, at, visit)
	case *Paren:
		walk(n.X, at, visit)
	case *Pair:
		walk(n.X, at, visit)
		walk(n.Y, at, visit)
	case *Taped:
		for _, m := range []Node{n.A, n.DA, n.B, n.DB} {
			walk(m, at, visit)
		}
	case *Size:
		for _, m := range n.Values {
			walk(m, at, visit)
		}
	case *List:
		for _, m := range n.Items {
			walk(m, at, visit)
		}
		walk(n.By, at, visit)
	case *Outline:
		walkArgs(n.Args, at, visit)
		if n.Path != nil {
			walk(n.Path, at, visit)
		}
	case *Path:
		walk(n.Start, at, visit)
		for _, s := range n.Steps {
			for _, m := range append([]Node{s.Radius, s.Via, s.C1, s.C2}, s.Points...) {
				walk(m, s.Span, visit)
			}
		}
	}
}

func walkArgs(args Args, in diag.Span, visit func(Node, diag.Span)) {
	for _, a := range args {
		walk(a.Value, in, visit)
	}
}

func within(t *testing.T, in, sp diag.Span) {
	require.Equal(t, in.File, sp.File)
	require.LessOrEqual(t, in.From, sp.From)
	require.LessOrEqual(t, sp.From, sp.To)
	require.LessOrEqual(t, sp.To, in.To)
}

// Whatever the bytes are, reading ends; every node lies in the one that holds it; every error lies in the text; a text without
// errors has no Bad part, and one with a Bad part has errors.
func FuzzParse(f *testing.F) {
	seed(f)
	f.Add("platform \x01deck\n\theight \xff5\n")
	f.Fuzz(func(t *testing.T, text string) {
		file, list := parseText(t, text)
		all := diag.Span{File: file.ID, To: int32(len(text))}
		for _, d := range list.Sorted() {
			within(t, all, d.Span)
			require.NotEmpty(t, d.Message)
			if utf8.ValidString(text) {
				require.True(t, utf8.ValidString(text[d.Span.From:d.Span.To]), "%q in %q", text[d.Span.From:d.Span.To], text)
			}
		}
		bad := false
		visit := func(n Node, in diag.Span) { within(t, in, n.Pos()) }
		var attributes func(in diag.Span, as []*Attribute)
		attributes = func(in diag.Span, as []*Attribute) {
			for _, a := range as {
				bad = bad || a.Bad
				within(t, in, a.Span)
				within(t, a.Span, a.WordSpan)
				walkArgs(a.Args, a.Span, visit)
				attributes(a.Span, a.Sub)
				if a.Bad {
					require.Empty(t, a.Args)
				}
			}
		}
		for _, s := range file.Statements {
			bad = bad || s.Bad
			within(t, all, s.Span)
			within(t, s.Span, s.WordSpan)
			if s.Name != "" {
				within(t, s.Span, s.NameSpan)
				require.Equal(t, s.Name, text[s.NameSpan.From:s.NameSpan.To])
			}
			walkArgs(s.Args, s.Span, visit)
			attributes(s.Span, s.Attributes)
		}
		require.False(t, bad && !list.HasErrors())
		for _, c := range file.Comments {
			within(t, all, c.Span)
			require.True(t, strings.HasPrefix(c.Text, "#"))
		}
	})
}
