package table

import (
	"markout/layout/table"
)

// ForPeople returns one cell as people read it: the table's own ForPeople.
func ForPeople(t *table.Table, c table.Column, v table.Value) string { return t.ForPeople(c, v) }
