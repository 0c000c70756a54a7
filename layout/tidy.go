package layout

import (
	"markout/layout/diag"
	"markout/layout/element"
	"markout/layout/notation"
)

// Tidy rewrites the layout of a geometry file's text: every comment and every value stays as it was typed, and doing it
// again changes nothing. A text with errors comes back as it is, with the errors.
func Tidy(name string, text []byte) ([]byte, *diag.List) {
	return notation.Format(name, text, element.Kinds())
}
