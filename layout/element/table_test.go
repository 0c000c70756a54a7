package element

import (
	"slices"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/diag"
	"markout/layout/notation"
)

func TestTables(t *testing.T) {
	kinds := Kinds()
	require.NoError(t, notation.CheckKinds(kinds))
	for _, k := range kinds {
		require.NotEmpty(t, k.Doc, k.Word)
		seen := map[string]bool{}
		var check func(a notation.Attr, under string)
		check = func(a notation.Attr, under string) {
			require.NotEmpty(t, a.Doc, "%s %s", under, a.Word)
			require.True(t, strings.HasPrefix(a.Example, a.Word), "%s %s: %q", under, a.Word, a.Example)
			for _, s := range a.Sub {
				check(s, under+" "+a.Word)
			}
		}
		for _, a := range k.Attributes {
			require.False(t, seen[a.Word], "%s %s twice", k.Word, a.Word)
			seen[a.Word] = true
			check(a, k.Word)
		}
	}
}

// Every example of the tables is a whole file that is right.
func TestExamples(t *testing.T) {
	for _, k := range Kinds() {
		t.Run(k.Word, func(t *testing.T) {
			list := &diag.List{Sources: &diag.Sources{}}
			id := list.Sources.Add(k.Word, []byte(k.Example))
			f := notation.Parse(id, k.Word, []byte(k.Example), Kinds(), list)
			s := Resolve(f.Statements, list, Options{})
			var b strings.Builder
			list.Print(&b, 20)
			require.Empty(t, b.String())
			require.NotNil(t, s)
		})
	}
}

// Every attribute's example is a line that its kind takes.
func TestAttributeExamples(t *testing.T) {
	for _, k := range Kinds() {
		for _, a := range k.Attributes {
			list := &diag.List{Sources: &diag.Sources{}}
			text := k.Word + " thing\n    " + a.Example + "\n"
			if k.Word == "set" {
				text = "set \"S\"\n    " + a.Example + "\n"
			}
			for _, s := range a.Sub {
				text += "        " + s.Example + "\n"
			}
			id := list.Sources.Add(k.Word, []byte(text))
			f := notation.Parse(id, k.Word, []byte(text), Kinds(), list)
			var b strings.Builder
			list.Print(&b, 20)
			require.Empty(t, b.String())
			require.False(t, slices.ContainsFunc(f.Statements[0].Attributes, func(a *notation.Attribute) bool { return a.Bad }))
		}
	}
}
