package cli

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"markout/layout"
	"markout/render/whole"
)

type tidyOptions struct{ check bool }

func newTidy(a *app) *cobra.Command {
	o := &tidyOptions{}
	cmd := &cobra.Command{
		Use:   "tidy SET…",
		Short: "Rewrite the layout of geometry files",
		Long: `Rewrite the layout of geometry files: indentation, columns, blank lines. Every comment and every value stays
as it was typed, and a second run changes nothing. A file with errors is left alone.`,
		Example: "  markout tidy kiosk.markout\n  markout tidy --check kiosk.markout   # only say whether it is tidy",
		Args:    cobra.MinimumNArgs(1),
		RunE: a.run(func(ctx context.Context, args []string) error {
			return o.tidy(ctx, a, args)
		}),
	}
	cmd.Flags().BoolVar(&o.check, "check", false, "write nothing; exit 1 where a file is not tidy")
	return cmd
}

func (o *tidyOptions) tidy(ctx context.Context, a *app, args []string) error {
	failed := false
	for _, name := range args {
		changed, err := o.one(ctx, a, name)
		switch {
		case err == errReported:
			failed = true
		case err != nil:
			return err
		case changed && o.check:
			fmt.Fprintf(a.Out, "%s: not tidy\n", name)
			failed = true
		case changed:
			fmt.Fprintf(a.Out, "%s: tidied\n", name)
		}
	}
	if failed {
		return errReported
	}
	return nil
}

func (o *tidyOptions) one(ctx context.Context, a *app, name string) (changed bool, err error) {
	files, err := openFiles(name, nil)
	if err != nil {
		return false, err
	}
	defer files.Close()
	f, err := files.Open(filepath.ToSlash(name))
	if err != nil {
		return false, fmt.Errorf("%s: %w", name, err)
	}
	text, err := io.ReadAll(f)
	f.Close()
	if err != nil {
		return false, fmt.Errorf("%s: %s", name, reason(err))
	}
	tidy, list := layout.Tidy(filepath.ToSlash(name), text)
	if list.HasErrors() {
		list.Print(a.Err, errorsPrinted)
		return false, errReported
	}
	if bytes.Equal(tidy, text) {
		return false, nil
	}
	if o.check {
		return true, nil
	}
	info, err := os.Stat(name)
	if err != nil {
		return false, fmt.Errorf("%s: %s", name, reason(err))
	}
	if info.Mode().Perm()&0o200 == 0 {
		return false, fmt.Errorf("%s: no permission", name)
	}
	return true, whole.File(ctx, name, func(w io.Writer) error {
		_, err := w.Write(tidy)
		return err
	})
}
