package cli

import (
	"encoding/json"
	"fmt"

	"markout/render/issue"
	"markout/tiling"
	"markout/tiling/grid"
	"markout/tiling/sheet"
)

// earlier is an issue whose page grids and nests new pages keep. A nil one has none.
type earlier struct {
	*issue.Record
	grids []grid.GridRecord
	nests *sheet.Nests // nil where it has no model
}

// readIssue reads an issue folder's record; what is refused ends with the exit code of misuse.
func readIssue(folder string) (*issue.Record, error) {
	r, err := issue.Read(folder)
	return r, asRefusal(err)
}

// newEarlier reads a record's grids and nests; name says which issue it is in an error.
func newEarlier(name string, r *issue.Record) (*earlier, error) {
	e := &earlier{Record: r}
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
	return e, nil
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

func (e *earlier) pageGrids() []grid.GridRecord {
	if e == nil {
		return nil
	}
	return e.grids
}
