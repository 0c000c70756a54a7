// Package table is what every CSV, JSON list, text, paper and page table is made from: columns with a
// contract name for programs and a heading for people, and rows of values.
package table

// Kind says what a column's values are, and so how people see them: places get letters and no sign.
type Kind uint8

const (
	Text   Kind = iota
	Count       // whole number
	X           // millimetres from the centre line: signed for programs, letters L and R for people
	Y           // millimetres from the setting line: letters U and D
	Length      // millimetres
	Angle       // degrees
	Weight      // kilograms
	Area        // square metres
	Flag        // yes or blank
	Level       // millimetres above the floor
	Tilt        // degrees above the level, −90 to 90: people see up and down
	Round       // degrees from the way something looks, −180 to 180, anticlockwise more than 0: people see to its left and right
)

// Column is one column. Name is the contract's (a CSV header, a JSON key); Heading is for people and says no unit,
// because that depends on the set: Table.Heading adds it.
type Column struct {
	Name, Heading string
	Kind          Kind
	Decimals      int     // of the CSV and JSON figure; trailing zeros are dropped
	Step          float64 // people's figures are rounded to this step (0.5 mm); 0 is as in the CSV
	PeopleOnly    bool    // not in CSV and JSON, whose columns are a contract: remarks
	Trade         bool    // its words are the trade's: one that is also what an element is called does not stand for the element
	Break         bool    // where a row is too long for one line, another begins before this column
}

// Value is one cell: a text, a number, or nothing.
type Value struct {
	Text string
	X    float64
	Set  bool // a number is there (or a text that is not empty)
}

// T, N and Blank make values.
func T(s string) Value  { return Value{Text: s, Set: s != ""} }
func N(x float64) Value { return Value{X: x, Set: true} }

// Blank is an empty cell.
var Blank Value

// Sides names the two sides of the centre line, as the set's `sides` has it.
type Sides struct {
	Plus, Minus         string // letters at plan-right and plan-left: "L", "R"
	PlusWord, MinusWord string // "STAGE LEFT", "STAGE RIGHT"
	Below               string // "AUDIENCE" or "CAMERA"
}

// Table is columns and rows; every row has one value a column.
type Table struct {
	Name    string // "floor", "register"
	Title   string // for people
	Columns []Column
	Rows    [][]Value
	Head    []string // sentences above it on every sheet of paper; not in CSV
	Notes   []string // sentences below the table for people; not in CSV
	Sides   Sides
	Feet    bool // people see feet and inches
}
