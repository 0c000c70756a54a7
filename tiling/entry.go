package tiling

// Entry is what a register says of one page.
type Entry struct {
	Page    int    // of its document, from 1
	Label   string // "floor 3C"
	Element string // the pieces on it, names joined with commas; empty where it concerns the whole set
	View    string // "floor", "face", "side", "plan", "table"
	Title   string
	Scale   string // "1:1"
	Paper   string // "A4 portrait"
	Mark    string // four characters for eyes
	Digest  [32]byte
	Origin  [2]float64 // where the page's live area begins in the view's own millimetres
	Size    [2]float64 // of the live area, millimetres on paper

	// Letter and Date are those of the issue in which the page's drawing last changed; both empty for this one's own.
	Letter, Date string
}

// Stamps tells of a page, by its label and its digest, the letter and date of the issue in which its drawing last changed; ok is
// false for a drawing that no earlier issue has, which carries this issue's own. A nil Stamps knows no earlier issue.
type Stamps func(label string, digest [32]byte) (letter, date string, ok bool)

// Of asks for one page; nil knows nothing.
func (s Stamps) Of(label string, digest [32]byte) (letter, date string, ok bool) {
	if s == nil {
		return "", "", false
	}
	return s(label, digest)
}
