// Package layout is the door into the core: text goes in, the resolved set and what is wrong with it come out.
package layout

import "io"

// Files is where the core reads from. Names use slashes and are relative to the main file's folder;
// an implementation refuses what lies outside the folders that the user allowed.
type Files interface {
	Open(name string) (io.ReadCloser, error)
}

// Options change how a set is opened.
type Options struct {
	// With holds changes for this run, each as NAME.attribute=value or LET=value in the notation of a geometry file.
	With []string
	// Hall names the hall worked in where a set has several.
	Hall string
	// Date overrides the date of the issue line, 2006-01-02.
	Date string
	// Memory makes further openings of the same files quick; nil where there is one opening only.
	Memory *Memory
}
