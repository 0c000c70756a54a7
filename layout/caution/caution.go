// Package caution holds what the program warns of: a code that stays the same, the figure
// found, the figure published, and where it is published. A caution informs; it never
// certifies, and it always defers to local codes and to a competent, licensed person.
package caution

import "markout/layout/diag"

// Defer is the line that stands on every sheet, table and list that a caution concerns.
const Defer = "For information only: check with local codes and a competent, licensed person, who decides."

// Caution is one warning about one element.
type Caution struct {
	Code    string    // stable, e.g. "STEP-RISE"; `markout explain CODE` explains it
	Element string    // name of the element, with the copy's number where one copy is meant
	Span    diag.Span // the element's or attribute's place in the text
	Message string    // words a carpenter understands
	Figure  string    // what was found, with its unit
	Limit   string    // the published figure, with its unit
	Source  string    // publication and edition, or "common practice, no source"
}

// OwnFigure is the source of a limit that the file itself gives.
const OwnFigure = "the file's own figure"

// Against says what the figure is held against: published: 2400 mm, or that the file wants it.
func (c Caution) Against() string {
	if c.Source == OwnFigure {
		return "the file wants: " + c.Limit
	}
	return "published: " + c.Limit
}
