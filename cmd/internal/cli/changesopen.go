package cli

import (
	"errors"
	"os"
	"path/filepath"

	"markout/layout"
	"markout/layout/set"
	"markout/render/issue"
)

// version is a set as it was or as it is: a file, or the issue folder that was made of it.
type version struct {
	name   string
	main   string // the main file, as messages name it
	set    *set.Set
	record *issue.Record // nil for a file
	lacks  []string      // pictures that are not at hand as the issue was made from them
}

// words says which version it is: issue A, 2026-11-20.
func (v *version) words() string {
	switch {
	case v.set.Trial || v.set.Letter == "":
		return v.name
	case v.set.Date == "":
		return "issue " + v.set.Letter
	}
	return "issue " + v.set.Letter + ", " + v.set.Date
}

// openVersion opens a file, or the source of an issue folder. Pictures that the folder does not keep are looked for in the folders
// given.
func (o *setOptions) openVersion(a *app, name string, pictures ...string) (*version, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, refuse("%s: %s", name, reason(err))
	}
	v := &version{name: filepath.ToSlash(name), main: filepath.ToSlash(name)}
	if !info.IsDir() {
		if filepath.Base(name) == "issue.json" {
			return nil, refuse("%s: give the folder that it is in", name)
		}
		v.set, err = o.open(a, name)
		return v, err
	}
	if v.record, err = readIssue(name); err != nil {
		return nil, err
	}
	files, err := v.record.Source(name, pictures...)
	if err != nil {
		return nil, err
	}
	defer files.Close()
	v.main = files.Main()
	s, list := layout.Open(files, v.main, layout.Options{With: v.record.With, Hall: v.record.Hall, Date: v.record.Date})
	switch {
	case files.Altered() != "":
		return nil, refuse("%s was edited after the issue was made, so what has changed since cannot be told", files.Altered())
	case list.HasErrors() || s == nil:
		return nil, a.errors(list)
	}
	v.set, v.lacks = s, files.Missing()
	return v, nil
}

// sameThing reports whether two names are one file or folder.
func sameThing(a, b string) bool {
	p, err := os.Stat(a)
	q, err2 := os.Stat(b)
	return err == nil && err2 == nil && os.SameFile(p, q)
}

// strangers reports whether two sets have no element's name in common, though both have elements.
func strangers(a, b set.Order) bool {
	names := map[string]bool{}
	for _, n := range a.Elements {
		names[n] = true
	}
	for _, n := range b.Elements {
		if names[n] {
			return false
		}
	}
	return len(a.Elements) > 0 && len(b.Elements) > 0
}

// asRefusal gives what the issue package refuses the exit code of misuse.
func asRefusal(err error) error {
	var refused *issue.Refused
	if errors.As(err, &refused) {
		return refusal{err}
	}
	return err
}
