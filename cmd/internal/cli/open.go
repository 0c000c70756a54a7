package cli

import (
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"markout/layout"
	"markout/layout/diag"
	"markout/layout/set"
)

// errorsPrinted is how many errors are printed before only their number is; JSON holds all.
const errorsPrinted = 20

// setOptions are the flags of every command that reads a set.
type setOptions struct {
	with  []string
	allow []string
	hall  string
	date  string
}

func (o *setOptions) add(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringArrayVar(&o.with, "with", nil, "change a value for this run: `NAME.attribute=value` or LET=value; sheets say TRIAL")
	f.StringArrayVar(&o.allow, "allow", nil, "let the set read files (include, artwork, lists, svg) from this `FOLDER` too")
	f.StringVar(&o.hall, "hall", "", "the `NAME` of the hall worked in, where a set has several")
	f.StringVar(&o.date, "date", "", "use this date, `YYYY-MM-DD`, instead of the issue line's")
	cmd.ValidArgsFunction = func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		if len(args) > 0 {
			return nil, cobra.ShellCompDirectiveNoFileComp
		}
		return []string{"markout"}, cobra.ShellCompDirectiveFilterFileExt
	}
}

// read opens a set and returns it with all that is wrong; it prints nothing.
func (o *setOptions) read(file string) (*set.Set, *diag.List, error) {
	files, err := openFiles(file, o.allow)
	if err != nil {
		return nil, nil, err
	}
	defer files.Close()
	s, list := layout.Open(files, filepath.ToSlash(file), layout.Options{With: o.with, Hall: o.hall, Date: o.date})
	return s, list, nil
}

// open opens a set without errors, or prints them.
func (o *setOptions) open(a *app, file string) (*set.Set, error) {
	s, list, err := o.read(file)
	if err != nil {
		return nil, err
	}
	if list.HasErrors() || s == nil {
		return nil, a.errors(list)
	}
	return s, nil
}

// errors prints a list. What it says of a flag stands in no text, and is misuse.
func (a *app) errors(list *diag.List) error {
	for _, d := range list.Sorted() {
		if d.Span.IsZero() && strings.HasPrefix(d.Message, "--") {
			return refuse("%s", d.Message)
		}
	}
	list.Print(a.Err, errorsPrinted)
	return errReported
}

// formatFlag adds --format with what a command can print.
func formatFlag(cmd *cobra.Command, to *string, usage string, can ...string) {
	cmd.Flags().StringVar(to, "format", "", usage+": `"+strings.Join(can, "|")+"`")
	_ = cmd.RegisterFlagCompletionFunc("format", cobra.FixedCompletions(can, cobra.ShellCompDirectiveNoFileComp))
}

func checkFormat(format string, can ...string) error {
	if format == "" {
		return nil
	}
	for _, c := range can {
		if c == format {
			return nil
		}
	}
	return refuse("--format %s: this command prints %s", format, strings.Join(can, ", "))
}

// printJSON writes v as indented JSON with a line end, characters as they are.
func (a *app) printJSON(v any) error {
	e := json.NewEncoder(a.Out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return fmt.Errorf("standard output: %w", err)
	}
	return nil
}
