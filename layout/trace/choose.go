package trace

// choose returns the loops to be kept and counts the others: bodies as they are found, each followed by its holes.
func (sil *Silhouette) choose(all []*loop, o Options) []*loop {
	size := func(l *loop) float64 { return max(l.area, -l.area) }
	dropped := make([]bool, len(all))
	// The loop around one that is kept is larger; so a speck's inside goes with it.
	for i, l := range all {
		if size(l) < o.Speck {
			dropped[i] = true
			sil.Specks++
		}
	}
	// A body is as large as what its holes leave of it: a frame about a figure is not larger than the figure.
	net := make([]float64, len(all))
	for i, l := range all {
		if l.area > 0 {
			net[i] += l.area
		} else if l.parent >= 0 {
			net[l.parent] += l.area
		}
	}
	best := -1
	for i, l := range all {
		if l.area > 0 && !dropped[i] && (best < 0 || net[i] > net[best]) {
			best = i
		}
	}
	for i, l := range all {
		if dropped[i] || o.All || i == best || l.parent == best && l.area < 0 {
			continue
		}
		dropped[i] = true
		if l.area > 0 {
			sil.Others++
		}
	}
	var kept []*loop
	for i, l := range all {
		if dropped[i] {
			continue
		}
		for k := l.parent; k >= 0 && l.around == nil; k = all[k].parent {
			if !dropped[k] {
				l.around = all[k]
			}
		}
		kept = append(kept, l)
		sil.Edge += l.area
	}
	return kept
}
