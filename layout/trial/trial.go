// Package trial tries values of a set: it opens the set once for each option and compares what comes out with the set as it
// stands. It answers "what if each rise were 15 less?" with one row an option: what the flight measures then, where its foot
// comes, what is held, which marks move, which blocks are built, and what there is to look out for that there was not.
package trial

import (
	"context"
	"fmt"
	"slices"
	"strings"
	"sync"
	"sync/atomic"

	"markout/layout"
	"markout/layout/changes"
	"markout/layout/diag"
	"markout/layout/rules"
	"markout/layout/set"
	"markout/layout/setout"
)

// Result is what came of all options.
type Result struct {
	Trials  []layout.Trial
	Flight  string // the flight whose figures the options have; empty for none
	Why     string // why there is none, in words; empty where the set has no flight
	AsIs    Option // the set as it stands; nothing moves
	Options []Option
}

// Option is one choice of values and what it does. Of an option that cannot be made only Values and Error are there.
type Option struct {
	Values []layout.Tried // one of each trial
	Error  string         // why it cannot be made, in words, with its place in the file

	Flight *Flight // nil where Result has none
	Held   []string
	// Lift and Lay count marks on the floor, of those that stand as the set does now.
	Lift, Lay int
	// Build counts loose blocks whose size is not among those that stand now, each of which serves once; CutDown is how many of
	// them can be cut down from one that does.
	Build, CutDown int
	HasBlocks      bool // the option, or the set as it stands, has loose blocks
	HasHall, Fits  bool // there is a hall worked in, and the option fits it at some turn and shift
	Cautions       int
	New, Gone      []Raised // cautions that the set as it stands has not, and those that it alone has
}

// Raised is a caution by its code and the piece that it is of.
type Raised struct{ Code, Element string }

// Opener opens the set with further changes for this run; many may be opened at one time.
type Opener func(changes []string) (*set.Set, *diag.List)

// Run tries every value of each trial with every value of the others, the last trial's values changing fastest, on so many workers.
// as is the set as it stands. margin is how far in millimetres an option is to stay clear of the walls and pillars of its hall. told, where it is not nil, is told how many options are done. The error is the context's.
func Run(ctx context.Context, as *set.Set, trials []layout.Trial, open Opener, margin float64, workers int, told func(done, total int)) (*Result, error) {
	r := &Result{Trials: trials, Options: combinations(trials)}
	b := base{set: as, lay: setout.Lay(as), margin: margin}
	cautions := b.memory.Check(as)
	b.raised = raised(as, cautions)
	r.AsIs = Option{Cautions: len(cautions), HasBlocks: hasBlocks(as)}
	r.AsIs.Fits, r.AsIs.HasHall = setout.FitsHall(as, margin)
	flights := make([][]Flight, len(r.Options))
	next := make(chan int)
	var group sync.WaitGroup
	var done atomic.Int64
	for range max(workers, 1) {
		group.Go(func() {
			for i := range next {
				flights[i] = b.try(&r.Options[i], open)
				if n := done.Add(1); told != nil {
					told(int(n), len(r.Options))
				}
			}
		})
	}
	var err error
feed:
	for i := range r.Options {
		select {
		case next <- i:
		case <-ctx.Done():
			err = ctx.Err()
			break feed
		}
	}
	close(next)
	group.Wait()
	if err != nil {
		return nil, err
	}
	r.choose(Flights(as), flights)
	return r, nil
}

// combinations returns the options without their figures.
func combinations(trials []layout.Trial) []Option {
	out := []Option{{}}
	for _, t := range trials {
		var more []Option
		for _, o := range out {
			for _, v := range t.Values {
				more = append(more, Option{Values: append(slices.Clip(o.Values), v)})
			}
		}
		out = more
	}
	return out
}

// base is the set as it stands, which options are compared with.
type base struct {
	set    *set.Set
	lay    *setout.Layout
	raised map[Raised]bool
	memory rules.Memory
	margin float64
}

// try makes an option, and returns its flights.
func (b *base) try(o *Option, open Opener) []Flight {
	with := make([]string, len(o.Values))
	for i, v := range o.Values {
		with[i] = v.Change
	}
	s, list := open(with)
	if s == nil || list.HasErrors() {
		o.Error = wrong(list)
		return nil
	}
	lift, lay := changes.Marks(b.lay, setout.Lay(s))
	o.Lift, o.Lay = len(lift), len(lay)
	for _, k := range changes.Blocks(b.set, s) {
		switch k.Change {
		case changes.CutDown:
			o.CutDown++
			o.Build++
		case changes.Built:
			o.Build++
		}
	}
	o.HasBlocks = hasBlocks(b.set) || hasBlocks(s)
	o.Fits, o.HasHall = setout.FitsHall(s, b.margin)
	cautions := b.memory.Check(s)
	o.Cautions = len(cautions)
	now := raised(s, cautions)
	o.New, o.Gone = without(now, b.raised), without(b.raised, now)
	return Flights(s)
}

// wrong says the first error of an option, and how many more there are.
func wrong(list *diag.List) string {
	n, says := 0, ""
	for _, d := range list.Sorted() {
		if d.Severity != diag.Error {
			continue
		}
		if n++; n > 1 {
			continue
		}
		says = d.Message
		if d.Hint != "" {
			says += " (" + d.Hint + ")"
		}
		// What stands in the value that is tried has no place in a file.
		if at := list.Sources.Position(d.Span); at.File != "" && !strings.HasPrefix(at.File, "--") {
			says = at.String() + ": " + says
		}
	}
	if n > 1 {
		says += fmt.Sprintf("; and %d more", n-1)
	}
	return says
}
