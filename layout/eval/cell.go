package eval

import (
	"strings"

	"markout/layout/diag"
)

// deepest is how many values may wait for one another, brackets and operators counted: it bounds the stack, far
// beyond what a person would write.
const deepest = 20_000

type state uint8

const (
	fresh state = iota
	running
	done
	failed
)

// Cell holds a value that is worked out when it is first asked for. The zero Cell is ready.
type Cell[T any] struct {
	state state
	value T
}

// Name is how people write what a cell holds: the owner alone for a let, deck.height for a measure. A cell whose Name
// is empty is left out where a circle is named.
type Name struct{ Owner, Word string }

func (n Name) String() string {
	if n.Word == "" {
		return n.Owner
	}
	return n.Owner + "." + n.Word
}

// request is a cell that is being worked out.
type request struct {
	state *state
	name  Name
}

// Ask returns what c holds, working it out once. It is not ok where that failed, which has been reported then: work
// itself reports, and Ask reports a value that leans on itself, once for the whole ring, at the place where it closes.
func Ask[T any](ev *Evaluator, c *Cell[T], name Name, at diag.Span, work func() (T, bool)) (value T, ok bool) {
	switch c.state {
	case done:
		return c.value, true
	case failed:
		return value, false
	case running:
		ev.circle(&c.state, name, at)
		return value, false
	}
	if !ev.enter(at) {
		return value, false
	}
	c.state = running
	ev.asked = append(ev.asked, request{&c.state, name})
	value, ok = work()
	ev.asked = ev.asked[:len(ev.asked)-1]
	ev.leave()
	if !ok {
		c.state = failed
		var none T
		return none, false
	}
	c.state, c.value = done, value
	return value, true
}

// Failed reports whether c was asked for and could not be worked out.
func (c *Cell[T]) Failed() bool { return c.state == failed }

func (ev *Evaluator) enter(at diag.Span) bool {
	if ev.depth >= deepest {
		ev.List.Errorf(at, "values lean on one another more than %d deep, the limit", deepest)
		return false
	}
	ev.depth++
	return true
}

func (ev *Evaluator) leave() { ev.depth-- }

func (ev *Evaluator) circle(back *state, name Name, at diag.Span) {
	i := len(ev.asked) - 1
	for i > 0 && ev.asked[i].state != back {
		i--
	}
	var ring []string
	for _, r := range append(ev.asked[i:len(ev.asked):len(ev.asked)], request{name: name}) {
		if r.name != (Name{}) {
			ring = append(ring, r.name.String())
		}
	}
	const most = 12
	if len(ring) > most {
		ring = append(append(ring[:most-3:most-3], "…"), ring[len(ring)-2:]...)
	}
	ev.List.Errorf(at, "these lean on one another in a circle: %s", strings.Join(ring, " → "))
}
