package issue

import (
	"markout/tiling"
)

// PageRef is one page of an issue.
type PageRef struct {
	File  string
	Page  int
	Sheet string
	Was   string // the earlier issue's label, where it is another
}

// Compared is the pages of two issues: what stands, what must be printed again, what is no longer there. Keep and Reprint refer to
// the later issue's pages in its order, Withdraw to the earlier one's.
type Compared struct {
	Keep, Reprint, Withdraw []PageRef
}

// Compare tells which pages of an issue are as an earlier one has them. Pages are compared within a file by the digest of what is
// drawn on them and nothing else: a page whose digest the earlier issue has is kept, whatever it is called, each of that issue's pages
// once. Of the rest, a label that the earlier issue has too is a page to print again, any other is new and printed; what is left of
// the earlier issue is withdrawn.
func Compare(was, is *Record) *Compared {
	type place struct{ file, sheet string }
	left := map[string][]int{} // by file and digest: the earlier pages not yet matched
	for i, p := range was.Pages {
		k := p.File + " " + p.Digest
		left[k] = append(left[k], i)
	}
	used := make([]bool, len(was.Pages))
	match := make([]int, len(is.Pages))
	take := func(p PageRecord, sameLabel bool) int {
		list := left[p.File+" "+p.Digest]
		for k, i := range list {
			if !used[i] && (!sameLabel || was.Pages[i].Sheet == p.Sheet) {
				used[i] = true
				if k == 0 {
					left[p.File+" "+p.Digest] = list[1:]
				}
				return i
			}
		}
		return -1
	}
	for i, p := range is.Pages {
		match[i] = take(p, true)
	}
	labels := map[place]bool{}
	out := &Compared{}
	for i, p := range is.Pages {
		if match[i] < 0 {
			match[i] = take(p, false)
		}
		ref := PageRef{File: p.File, Page: p.Page, Sheet: p.Sheet}
		if match[i] < 0 {
			labels[place{p.File, p.Sheet}] = true
			out.Reprint = append(out.Reprint, ref)
			continue
		}
		if q := was.Pages[match[i]]; q.Sheet != p.Sheet {
			ref.Was = q.Sheet
		}
		out.Keep = append(out.Keep, ref)
	}
	for i, p := range was.Pages {
		if !used[i] && !labels[place{p.File, p.Sheet}] {
			out.Withdraw = append(out.Withdraw, PageRef{File: p.File, Page: p.Page, Sheet: p.Sheet})
		}
	}
	return out
}

// Stamps tells of the pages of a file the letter and date at which an earlier issue says that their drawings last changed. A trial
// has none.
func (r *Record) Stamps(file string) tiling.Stamps {
	if r == nil || r.Trial {
		return nil
	}
	type stamp struct{ sheet, letter, date string }
	known := map[[32]byte][]stamp{}
	for _, p := range r.Pages {
		if d, err := parseDigest(p.Digest); err == nil && p.File == file && p.Issue != "" {
			known[d] = append(known[d], stamp{p.Sheet, p.Issue, p.Date})
		}
	}
	return func(label string, digest [32]byte) (letter, date string, ok bool) {
		list := known[digest]
		if len(list) == 0 {
			return "", "", false
		}
		for _, s := range list {
			if s.sheet == label {
				return s.letter, s.date, true
			}
		}
		return list[0].letter, list[0].date, true
	}
}

// superseded lists the pages of an earlier issue that no longer hold.
func superseded(was, is *Record) []SupersededPage {
	c := Compare(was, is)
	gone := map[string]bool{}
	for _, p := range c.Withdraw {
		gone[p.File+" "+p.Sheet] = true
	}
	again := map[string]bool{}
	for _, p := range c.Reprint {
		again[p.File+" "+p.Sheet] = true
	}
	var out []SupersededPage
	for _, p := range was.Pages {
		k := p.File + " " + p.Sheet
		if gone[k] || again[k] {
			out = append(out, SupersededPage{Sheet: p.Sheet, File: p.File, Issue: p.Issue, Mark: p.Mark, Gone: gone[k]})
		}
	}
	return out
}
