package trace

// otsu returns the level that parts a histogram best in two: below it one class, from it on the other, so that the
// variance between the classes is greatest; and the mean level of each (Otsu, "A threshold selection method from
// gray-level histograms", 1979). It is not ok where there is one level alone.
func otsu(hist *[256]int) (level int, below, above float64, ok bool) {
	var n, sum float64
	for i, c := range hist {
		n += float64(c)
		sum += float64(i) * float64(c)
	}
	var w, part, best float64
	for i, c := range hist {
		if w > 0 && w < n {
			a, b := part/w, (sum-part)/(n-w)
			if v := w * (n - w) * (a - b) * (a - b); v > best {
				best, level, below, above, ok = v, i, a, b, true
			}
		}
		w += float64(c)
		part += float64(i) * float64(c)
	}
	return level, below, above, ok
}
