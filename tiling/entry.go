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
}
