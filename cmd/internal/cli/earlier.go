package cli

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"

	"markout/layout/changes"
	"markout/layout/set"
	"markout/render/issue"
	"markout/tiling"
	"markout/tiling/grid"
	"markout/tiling/sheet"
)

// earlier is an issue whose page grids, nests and cutting plan new pages keep. A nil one has none.
type earlier struct {
	*issue.Record
	set   *set.Set // as that issue had it
	grids []grid.GridRecord
	nests *sheet.Nests // nil where it has no model
	cuts  *sheet.Cuts  // nil where nothing is cut
}

// readIssue reads an issue folder's record; what is refused ends with the exit code of misuse.
func readIssue(folder string) (*issue.Record, error) {
	r, err := issue.Read(folder)
	return r, asRefusal(err)
}

// openEarlier opens the issue of a folder that --since names. Pictures that it does not keep are looked for beside it and beside the file.
func (o *setOptions) openEarlier(a *app, folder, file string) (*earlier, error) {
	r, err := readIssue(folder)
	if err != nil {
		return nil, err
	}
	v, err := o.openVersion(a, folder, filepath.Dir(file))
	if err != nil {
		return nil, err
	}
	return newEarlier(folder, r, v.set)
}

// newEarlier reads a record's grids, nests and cutting plan; name says which issue it is in an error, and s is the set that it was made of.
func newEarlier(name string, r *issue.Record, s *set.Set) (*earlier, error) {
	e := &earlier{Record: r, set: s}
	if err := json.Unmarshal(r.Grids, &e.grids); err != nil {
		return nil, fmt.Errorf("%s: the page grids in issue.json cannot be read: %w", name, err)
	}
	for i := range e.grids {
		if err := e.grids[i].Check(); err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
	}
	var err error
	if e.nests, err = sheet.ParseNests(r.Nests); err != nil {
		return nil, fmt.Errorf("%s: the card model's nests in issue.json cannot be read: %w", name, err)
	}
	if e.cuts, err = sheet.ParseCuts(r.Cuts); err != nil {
		return nil, fmt.Errorf("%s: what is cut from which board in issue.json cannot be read: %w", name, err)
	}
	return e, nil
}

// follow puts a set's things in the order in which the issue has them, and notes what that calls elements which are called otherwise
// now: neither changes what is drawn.
func (e *earlier) follow(s *set.Set) *set.Set {
	was := changes.Renamed(e.set, s)
	own := s.InOrder(e.Order, was)
	own.Called = map[string]string{}
	for _, k := range own.Elements {
		then := k.Name
		if n, ok := was[k.Name]; ok {
			then = n
		}
		if n, ok := e.Called[then]; ok {
			then = n
		}
		if then != k.Name {
			own.Called[k.Name] = then
		}
	}
	now := make(map[string]string, len(was))
	for is, then := range was {
		now[then] = is
	}
	own.Tags = make(map[string]int, len(e.Tags))
	for name, n := range e.Tags {
		base, number, repeated := strings.Cut(name, ".")
		if is, ok := now[base]; ok {
			base = is
		}
		if repeated {
			base += "." + number
		}
		own.Tags[base] = n
	}
	return own
}

// stamps tells at which letter the drawings of a file's pages last changed.
func (e *earlier) stamps(file string) tiling.Stamps {
	if e == nil {
		return nil
	}
	return e.Stamps(file)
}

// pieces says where the card model's pieces lie.
func (e *earlier) pieces() *sheet.Nests {
	if e == nil {
		return nil
	}
	return e.nests
}

// timber says what is cut from which board and bar.
func (e *earlier) timber() *sheet.Cuts {
	if e == nil {
		return nil
	}
	return e.cuts
}

func (e *earlier) pageGrids() []grid.GridRecord {
	if e == nil {
		return nil
	}
	return e.grids
}
