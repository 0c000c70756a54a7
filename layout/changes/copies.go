package changes

import "markout/layout/develop"

// calledThen returns what each copy of the new model was called in the old one: as it is called now, or else as one that is there no
// more and whose pieces are all alike, or else as the one of those that has most of its pieces. A copy that is new has no entry.
func calledThen(old, new *develop.Model, was, is []string) map[string]string {
	then := map[string]string{}
	a, b := copiesOf(old, was), copiesOf(new, is)
	now := map[string]bool{}
	for _, c := range b {
		now[c.name] = true
	}
	var gone []*modelCopy
	there := map[string]bool{}
	for i := range a {
		there[a[i].name] = true
		if !now[a[i].name] {
			gone = append(gone, &a[i])
		}
	}
	whole := map[string][]*modelCopy{}
	for _, c := range gone {
		whole[c.all] = append(whole[c.all], c)
	}
	var rest []*modelCopy
	for j := range b {
		c := &b[j]
		switch list := whole[c.all]; {
		case there[c.name]:
			then[c.name] = c.name
		case len(list) > 0:
			then[c.name], list[0].found = list[0].name, true
			whole[c.all] = list[1:]
		default:
			rest = append(rest, c)
		}
	}
	for _, c := range rest {
		var best *modelCopy
		most := 0
		for _, o := range gone {
			if o.found {
				continue
			}
			if n := c.common(o); n > most {
				best, most = o, n
			}
		}
		if best != nil {
			then[c.name], best.found = best.name, true
		}
	}
	return then
}

// modelCopy is one copy of an element as pieces of a model.
type modelCopy struct {
	name  string
	all   string         // the keys of its pieces in their order
	have  map[string]int // how many of each key
	found bool
}

func copiesOf(m *develop.Model, keys []string) []modelCopy {
	var out []modelCopy
	at := map[string]int{}
	for i := range m.Pieces {
		name := m.Pieces[i].Element
		k, ok := at[name]
		if !ok {
			k = len(out)
			at[name] = k
			out = append(out, modelCopy{name: name, have: map[string]int{}})
		}
		out[k].all += keys[i] + "\n"
		out[k].have[keys[i]]++
	}
	return out
}

// common counts the pieces that two copies both have.
func (c *modelCopy) common(o *modelCopy) int {
	n := 0
	for k, count := range c.have {
		n += min(count, o.have[k])
	}
	return n
}
