package nest

import (
	"context"
	"slices"
	"sync"
	"sync/atomic"

	"markout/layout/geom"
)

// lanes is the number of searches that go on beside each other. It is fixed, so that the plan does not depend on the number of
// workers that carry them.
const lanes = 2

// search carries what the lanes of one job share.
type search struct {
	*layer
	ctx     context.Context
	opt     Options
	seed    uint64
	tune    tuning
	total   int
	done    atomic.Int64
	mu      sync.Mutex // of Stop and Progress
	told    int
	stopped atomic.Bool
}

// halted is asked between passes with the number of trials made since: it tells how far the search is and reports whether it must end.
func (s *search) halted(trials int) bool {
	done := int(s.done.Add(int64(trials)))
	if s.stopped.Load() || s.ctx.Err() != nil {
		return true
	}
	if s.opt.Stop == nil && s.opt.Progress == nil {
		return false
	}
	s.mu.Lock()
	defer s.mu.Unlock()
	if s.opt.Stop != nil && s.opt.Stop() {
		s.stopped.Store(true)
		return true
	}
	if step := max(1, s.total/200); s.opt.Progress != nil && done >= s.told+step {
		s.told = done
		s.opt.Progress(min(done, s.total), s.total)
	}
	return false
}

// each runs f for every lane on as many workers as there are.
func (s *search) each(f func(lane int)) {
	if s.opt.Workers == 1 {
		for i := range lanes {
			f(i)
		}
		return
	}
	var wg sync.WaitGroup
	for i := range lanes {
		wg.Go(func() { f(i) })
	}
	wg.Wait()
}

// mostSearched is the number of pieces up to which beds are searched together: the last beds that hold no more.
const mostSearched = 250

// manyTrials is the number from which it pays to make rasters.
const manyTrials = 20_000

// run improves the beds: it tries to do without the last one, then makes the length used on the last one less.
func (s *search) run(beds []*bed) []*bed {
	first, n := len(beds), 0
	for first > 0 && n+len(beds[first-1].items) <= mostSearched {
		first--
		n += len(beds[first].items)
	}
	if n < 1 {
		return beds
	}
	if s.total >= manyTrials {
		s.nofits = newTable(s.stock)
		s.nofits.fine = true
	}
	kept, open := beds[:first:first], beds[first:]
	budget := s.total
	for len(open) > 1 && s.hopeful(open) {
		part := budget / 3
		fewer, used := s.without(open, part)
		budget -= used
		if fewer == nil {
			break
		}
		open = fewer
	}
	return append(kept, s.shortest(open, budget)...)
}

// hopeful reports whether the pieces of all beds cover less of the rooms of all but the last than search can hope for.
func (s *search) hopeful(beds []*bed) bool {
	free := 0.0 // of 98 % of the rooms
	for i, b := range beds {
		if i < len(beds)-1 {
			free += 0.98 * b.room.X * b.room.Y
		}
		for _, it := range b.items {
			free -= s.kinds[it.kind].area
		}
	}
	return free > 0
}

// job is a layout in beds, as the packings of a search take it.
type job struct {
	rooms   []room
	items   []item
	choices [][]choice
	picks   [][]int // of each item, which choices of its kind
	start   saved
}

func (s *search) jobOf(beds []*bed) job {
	var j job
	x := 0.0
	for _, b := range beds {
		j.rooms = append(j.rooms, room{x, b.room.X, b.room.Y})
		x += 2*b.room.X + 2*s.longest
	}
	for in, b := range beds {
		for k, it := range b.items {
			var cs []choice
			var picks []int
			at := 0
			for p, c := range s.kinds[it.kind].choices {
				if p == b.choices[k] {
					at = len(cs)
				}
				for _, r := range j.rooms {
					if r.holds(c.outline, s.eps) {
						cs, picks = append(cs, c), append(picks, p)
						break
					}
				}
			}
			l := b.laid[k]
			j.items, j.choices, j.picks = append(j.items, it), append(j.choices, cs), append(j.picks, picks)
			j.start.spots = append(j.start.spots, spot{pick: at, room: in, x: l.at.X + j.rooms[in].x0, y: l.at.Y})
		}
	}
	j.start.length = beds[len(beds)-1].room.X
	return j
}

// bedsOf writes a layout back into beds like those given.
func (s *search) bedsOf(j job, at *saved, like []*bed) []*bed {
	out := make([]*bed, len(like))
	for i, b := range like {
		out[i] = &bed{sheet: b.sheet, room: b.room, roll: b.roll}
	}
	for i, p := range at.spots {
		c := j.choices[i][p.pick]
		out[p.room].lay(j.items[i], j.picks[i][p.pick], laid{c.outline, geom.Point{X: p.x - j.rooms[p.room].x0, Y: p.y}})
	}
	for _, b := range out {
		if !sound(b.laid, b.room, slack*s.eps) {
			return nil
		}
	}
	return slices.DeleteFunc(out, func(b *bed) bool { return len(b.items) == 0 })
}

// without tries to lay all pieces without the last bed, and returns the beds, nil where it did not come about, and the trials
// that it took.
func (s *search) without(beds []*bed, budget int) ([]*bed, int) {
	fewer := beds[:len(beds)-1]
	j := s.jobOf(beds)
	rooms := j.rooms[:len(fewer)]
	j.rooms = rooms
	for i := range j.start.spots {
		p := &j.start.spots[i]
		if p.room < len(fewer) {
			continue
		}
		in, pick := -1, 0
		for r := range rooms {
			for k, c := range j.choices[i] {
				if in < 0 && rooms[r].holds(c.outline, s.eps) {
					in, pick = r, k
				}
			}
		}
		if in < 0 {
			return nil, 0
		}
		*p = spot{pick: pick, room: in, x: rooms[in].x0}
	}
	j.start.length = rooms[len(rooms)-1].w
	for i := range j.choices {
		keep := j.choices[i][:0:0]
		var picks []int
		for k, c := range j.choices[i] {
			for _, r := range rooms {
				if r.holds(c.outline, s.eps) {
					if k == j.start.spots[i].pick {
						j.start.spots[i].pick = len(keep)
					}
					keep, picks = append(keep, c), append(picks, j.picks[i][k])
					break
				}
			}
		}
		j.choices[i], j.picks[i] = keep, picks
	}
	var found [lanes][]*bed
	var used [lanes]int
	s.each(func(lane int) {
		p := newPacking(s, j.rooms, j.choices, j.start, s.seed*lanes+uint64(lane))
		var got saved
		for p.trials < budget/lanes && !p.halt {
			if p.separate(s.tune, 200, 3, budget/lanes, &got) {
				found[lane] = s.bedsOf(j, &got, fewer)
				break
			}
			p.restore(&got)
			p.exchange()
		}
		used[lane] = p.trials
	})
	sum := 0
	for _, u := range used {
		sum += u
	}
	for _, f := range found {
		if f != nil {
			return f, sum
		}
	}
	return nil, sum
}

// rounds after which the lanes are compared, while exploring and while compressing.
const (
	exploring   = 12
	compressing = 4
)

// shortest makes the length used on the last bed least.
func (s *search) shortest(beds []*bed, budget int) []*bed {
	j := s.jobOf(beds)
	last := len(beds) - 1
	j.start.length = beds[last].reach()
	j.rooms[last].w = j.start.length
	var ps [lanes]*packing
	var best [lanes]saved
	s.each(func(lane int) {
		ps[lane] = newPacking(s, j.rooms, j.choices, j.start, s.seed*lanes+uint64(lane))
		best[lane] = j.start.clone()
	})
	explored := budget * 4 / 5 / lanes
	for r := range exploring {
		s.each(func(lane int) {
			ps[lane].explore(&best[lane], s.tune, explored*(r+1)/exploring, explored)
		})
		s.share(best[:], 1.004)
	}
	for r := range compressing {
		s.share(best[:], 1)
		s.each(func(lane int) {
			ps[lane].compress(&best[lane], 0.0005, 0.00001, s.tune, explored+(budget/lanes-explored)*(r+1)/compressing)
		})
	}
	s.share(best[:], 1)
	if found := s.bedsOf(j, &best[0], beds); found != nil {
		return found
	}
	return beds
}

// share gives the shortest layout to every lane whose own is longer than it by more than the factor.
func (s *search) share(best []saved, factor float64) {
	at := 0
	for i := range best {
		if best[i].length < best[at].length {
			at = i
		}
	}
	for i := range best {
		if best[i].length > best[at].length*factor {
			best[i] = best[at].clone()
		}
	}
}
