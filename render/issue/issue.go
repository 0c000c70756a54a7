package issue

import (
	"context"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"image"
	"io"
	"os"
	"path/filepath"
	"strings"

	"markout/layout/caution"
	"markout/layout/set"
	"markout/layout/table"
	"markout/render/pdf"
	rtable "markout/render/table"
	"markout/render/whole"
	"markout/tiling"
)

// Book is one document of the folder and what the register says of its pages.
type Book struct {
	File    string // "floor.pdf"
	Doc     *tiling.Document
	Entries []tiling.Entry
}

// Input is everything a folder is made of.
type Input struct {
	Set      *set.Set
	Main     string // the main file's name as the set's files have it
	Program  string
	Books    []Book
	Tape     *table.Table // becomes floor.csv and the index's tick list
	Cutting  *table.Table // becomes cutting.csv; nil where nothing is cut
	Overhead *table.Table // becomes overhead.csv; nil where nothing hangs overhead
	Cautions []caution.Caution
	Grids    any // the page grids, kept in issue.json
	Nests    any // where the pieces of the model lie, kept there too
	Cuts     any // what is cut from which board and bar, likewise; nil where nothing is
	Drawn    Drawn
	Tags     map[string]int // of pieces overhead
	Hall     string         // the hall named for this run; empty where none was
	Since    *Record        // the earlier issue whose grids and nests were kept; nil for none
}

// Options say how to write.
type Options struct {
	Workers  int
	Progress func(done, total int) // nil for none
}

// Result says what became of a folder.
type Result struct {
	Folder  string
	Written bool // false: the folder holds the same issue already
	Pages   int
	// Compared is with the earlier issue, nil where there was none; Superseded counts that one's pages which no longer hold.
	Compared   *Compared
	Superseded int
}

// Default returns the folder's name: the main file's, then the letter or "trial".
func Default(main string, s *set.Set) string {
	base := filepath.Base(filepath.FromSlash(main))
	base = strings.TrimSuffix(base, filepath.Ext(base))
	if s.Trial {
		return base + "-trial"
	}
	return base + "-" + s.Letter
}

// Write writes the issue folder. A *Refused error means that the folder was left as it is by rule; any other that it
// could not be written. In both cases what stood there still stands.
func Write(ctx context.Context, place string, in Input, opt Options) (Result, error) {
	res := Result{Folder: place}
	if err := whole.Recover(place); err != nil {
		return res, err
	}
	was, err := readRecord(place)
	if err != nil {
		return res, err
	}
	is, err := NewRecord(in)
	if err != nil {
		return res, err
	}
	res.Pages = len(is.Pages)
	if in.Since != nil {
		res.Compared, res.Superseded = Compare(in.Since, is), len(is.Superseded)
	}
	if was != nil {
		same, err := guard(place, was, is)
		if err != nil || same {
			return res, err
		}
	}
	f, err := whole.NewFolder(ctx, place)
	if err != nil {
		return res, err
	}
	if err = fill(f, in, is, opt); err == nil {
		err = f.Put()
	}
	if err != nil {
		f.Drop()
		return res, err
	}
	res.Written = true
	return res, nil
}

// guard decides whether a folder that markout made may be replaced, or already holds the issue.
func guard(place string, was, is *Record) (same bool, err error) {
	switch {
	case was.Trial:
		return false, nil // anything may stand over a trial
	case is.Trial:
		return false, refuse("%s holds issue %s; a trial goes into a folder of its own (-o)", place, was.Issue)
	case was.Issue != is.Issue:
		return false, refuse("%s holds issue %s; issue %s goes into a folder of its own (-o)", place, was.Issue, is.Issue)
	}
	diff := differences(was, is)
	if len(diff) == 0 {
		return complete(place, was), nil
	}
	const most = 20
	more := ""
	if len(diff) > most {
		more = fmt.Sprintf("\n  … and %d more", len(diff)-most)
		diff = diff[:most]
	}
	return false, refuse("%s holds issue %s with other drawings; give this one a new letter. What differs:\n  %s%s",
		place, was.Issue, strings.Join(diff, "\n  "), more)
}

// complete reports whether every file that a record lists still stands in its folder.
func complete(place string, r *Record) bool {
	for _, name := range r.Outputs {
		if _, err := os.Stat(filepath.Join(place, filepath.FromSlash(name))); err != nil {
			return false
		}
	}
	return true
}

// NewRecord is the record of an issue, as issue.json will have it but for the files of the folder.
func NewRecord(in Input) (*Record, error) {
	s := in.Set
	r := &Record{
		Format: format, Program: in.Program,
		Set: s.Name, Production: s.Production, Issue: s.Letter, Date: s.Date, Trial: s.Trial,
		With: append([]string{}, s.With...), Order: s.Order(), Called: s.Called, Tags: in.Tags, Hall: in.Hall, Drawn: in.Drawn,
	}
	for _, raw := range []struct {
		to   *json.RawMessage
		from any
	}{{&r.Grids, in.Grids}, {&r.Nests, in.Nests}, {&r.Cuts, in.Cuts}} {
		if raw.to == &r.Cuts && raw.from == nil {
			continue
		}
		text, err := json.Marshal(raw.from)
		if err != nil {
			return nil, err
		}
		*raw.to = text
	}
	if s.Trial {
		r.Issue = ""
	}
	for _, f := range s.Files {
		one := FileRecord{Name: relative(in.Main, f.Name), SHA256: hex.EncodeToString(f.SHA256[:])}
		if f.Pixels != (image.Point{}) {
			one.Pixels, one.Bytes = &[2]int{f.Pixels.X, f.Pixels.Y}, f.Bytes
		} else {
			one.Stored = stored(one.Name)
		}
		r.Files = append(r.Files, one)
	}
	for _, b := range in.Books {
		for _, e := range b.Entries {
			letter, date := r.Issue, r.Date
			if e.Letter != "" {
				letter, date = e.Letter, e.Date
			}
			r.Pages = append(r.Pages, PageRecord{
				Sheet: e.Label, File: b.File, Page: e.Page, Element: e.Element, View: e.View,
				Issue: letter, Date: date, Mark: e.Mark, Digest: hexDigest(e.Digest), Origin: e.Origin, Size: e.Size,
			})
		}
	}
	if in.Since != nil {
		r.Since = &SinceRecord{Issue: in.Since.Issue, Date: in.Since.Date}
		r.Superseded = superseded(in.Since, r)
	}
	return r, nil
}

func fill(f *whole.Folder, in Input, is *Record, opt Options) error {
	total, done := 0, 0
	for _, b := range in.Books {
		total += b.Doc.Pages
	}
	for _, b := range in.Books {
		o := pdf.Options{Workers: opt.Workers}
		if opt.Progress != nil {
			o.Progress = func(n, _ int) { opt.Progress(done+n, total) }
		}
		if err := f.Write(b.File, func(w io.Writer) error {
			_, err := pdf.Write(w, b.Doc, o)
			return err
		}); err != nil {
			return err
		}
		done += b.Doc.Pages
	}
	for _, t := range [3]struct {
		name string
		t    *table.Table
	}{{"floor.csv", in.Tape}, {"cutting.csv", in.Cutting}, {"overhead.csv", in.Overhead}} {
		if t.t == nil {
			continue
		}
		if err := f.Write(t.name, func(w io.Writer) error { return rtable.CSV(w, t.t) }); err != nil {
			return err
		}
	}
	if err := f.Write("register.csv", func(w io.Writer) error { return rtable.CSV(w, register(in)) }); err != nil {
		return err
	}
	if err := f.Write("cautions.txt", func(w io.Writer) error { return writeCautions(w, in) }); err != nil {
		return err
	}
	if err := f.Write("index.html", func(w io.Writer) error { return writeIndex(w, in, is) }); err != nil {
		return err
	}
	for i, src := range in.Set.Files {
		if is.Files[i].Stored == "" {
			continue
		}
		if err := f.Write("source/"+is.Files[i].Stored, func(w io.Writer) error {
			_, err := w.Write(src.Text)
			return err
		}); err != nil {
			return err
		}
	}
	is.Outputs = f.Made()
	is.Seal = is.seal()
	return f.Write(recordName, func(w io.Writer) error {
		e := json.NewEncoder(w)
		e.SetEscapeHTML(false)
		e.SetIndent("", " ")
		return e.Encode(is)
	})
}

// register is register.csv's table.
func register(in Input) *table.Table {
	t := &table.Table{Name: "register", Title: "Register", Columns: []table.Column{
		{Name: "sheet", Heading: "sheet"}, {Name: "file", Heading: "file"}, {Name: "page", Heading: "page", Kind: table.Count},
		{Name: "element", Heading: "element"}, {Name: "view", Heading: "view"}, {Name: "title", Heading: "title"},
		{Name: "scale", Heading: "scale"}, {Name: "paper", Heading: "paper"}, {Name: "issue", Heading: "issue"},
		{Name: "date", Heading: "date"}, {Name: "mark", Heading: "mark"},
	}}
	letter := in.Set.Letter
	if in.Set.Trial {
		letter = "TRIAL"
	}
	for _, b := range in.Books {
		for _, e := range b.Entries {
			letter, date := letter, in.Set.Date
			if e.Letter != "" {
				letter, date = e.Letter, e.Date
			}
			t.Rows = append(t.Rows, []table.Value{
				table.T(e.Label), table.T(b.File), table.N(float64(e.Page)), table.T(e.Element), table.T(e.View), table.T(e.Title),
				table.T(e.Scale), table.T(e.Paper), table.T(letter), table.T(date), table.T(e.Mark),
			})
		}
	}
	return t
}

func writeCautions(w io.Writer, in Input) error {
	var errs []error
	put := func(format string, args ...any) {
		_, err := fmt.Fprintf(w, format, args...)
		errs = append(errs, err)
	}
	put("%s: cautions, %s\n%s\n\n", in.Set.Name, issueWords(in.Set), caution.Defer)
	if len(in.Cautions) == 0 {
		put("Nothing that the program looks at. That is not a certificate.\n")
	}
	for _, c := range in.Cautions {
		put("%s  %s\n    %s\n    found: %s    %s\n    source: %s\n", c.Code, c.Element, c.Message, c.Figure, c.Against(), c.Source)
		if at := in.place(c); at != "" {
			put("    at: %s\n", at)
		}
		put("\n")
	}
	return errors.Join(errs...)
}

// place returns where in the text a caution's cause stands, empty where it has no place.
func (in Input) place(c caution.Caution) string {
	p := in.Set.Sources.Position(c.Span)
	if p.File == "" {
		return ""
	}
	p.File = relative(in.Main, p.File)
	return p.String()
}

// issueWords says which issue this is.
func issueWords(s *set.Set) string {
	words := "TRIAL"
	if !s.Trial {
		words = "issue " + s.Letter
	}
	if s.Date != "" {
		words += ", " + s.Date
	}
	return words
}
