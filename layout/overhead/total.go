package overhead

import (
	"markout/layout/geom"
	"markout/layout/set"
)

// Total is the weight of several pieces.
type Total struct {
	Panel     string  // empty for all
	Weight    float64 // kilograms of what is known
	NotKnown  []string
	Estimated []string   // pieces whose weight is only "about"
	Centre    geom.Point // of gravity of what is known, on the plan as it hangs; 0,0 where nothing is
	Pieces    int
}

// AtLeast reports whether something was not weighed, so that the whole weighs more.
func (t *Total) AtLeast() bool { return len(t.NotKnown) > 0 }

func (t *Total) add(p *Piece) {
	t.Pieces++
	switch p.Is {
	case set.Unknown:
		t.NotKnown = append(t.NotKnown, p.Name)
		return
	case set.About:
		t.Estimated = append(t.Estimated, p.Name)
	}
	t.Weight += p.Weight
	t.Centre = t.Centre.Add(p.Centre.Mul(p.Weight))
}

func (t *Total) close() {
	if t.Weight > 0 {
		t.Centre = t.Centre.Mul(1 / t.Weight)
	}
}

// total adds up by panel and in all. What lies in no panel is in a total of its own, without a name, where the room has any.
func (r *Room) total() {
	at := map[string]int{}
	for _, p := range r.Shape.Panels {
		at[p.Name] = len(r.Panels)
		r.Panels = append(r.Panels, Total{Panel: p.Name})
	}
	var rest Total
	for i := range r.Pieces {
		p := &r.Pieces[i]
		r.All.add(p)
		if k, ok := at[p.Panel]; ok {
			r.Panels[k].add(p)
		} else {
			rest.add(p)
		}
	}
	if len(r.Panels) > 0 && rest.Pieces > 0 {
		r.Panels = append(r.Panels, rest)
	}
	for i := range r.Panels {
		r.Panels[i].close()
	}
	r.All.close()
}
