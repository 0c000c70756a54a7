package eval

import (
	"slices"

	"markout/layout/notation"
)

// mostGuesses bounds how often all names are searched for one that was meant: beyond so many unknown names the
// reader has seen what is wrong.
const mostGuesses = 40

// near returns the name most like word, empty where none is near.
func (ev *Evaluator) near(word string) string {
	if ev.guesses++; ev.guesses > mostGuesses {
		return ""
	}
	names := make([]string, 0, len(ev.lets)+len(ev.things))
	for n := range ev.lets {
		names = append(names, n)
	}
	for n := range ev.things {
		names = append(names, n)
	}
	slices.Sort(names)
	return notation.Suggest(word, names)
}
