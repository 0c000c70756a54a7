package cli

import (
	"context"
	_ "embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"

	"github.com/spf13/cobra"
)

//go:embed starter.markout
var starter string

func newStart(a *app) *cobra.Command {
	return &cobra.Command{
		Use:   "start [NAME]",
		Short: "Write a small geometry file to begin from",
		Long: `Write NAME.markout (set.markout without a name): a small set with a hall, a deck, steps and a ring of
posts, every line explained. It never overwrites a file.`,
		Example: "  markout start quay\n  markout check quay.markout",
		Args:    cobra.MaximumNArgs(1),
		RunE: a.run(func(_ context.Context, args []string) error {
			name := "set.markout"
			if len(args) == 1 {
				name = strings.TrimSuffix(args[0], ".markout") + ".markout"
			}
			f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
			if errors.Is(err, fs.ErrExist) {
				return refuse("%s stands there already; give another name", name)
			}
			if err != nil {
				return fmt.Errorf("%s: %s", name, reason(err))
			}
			_, err = f.WriteString(starter)
			if closing := f.Close(); err == nil {
				err = closing
			}
			if err != nil {
				os.Remove(name)
				return fmt.Errorf("%s: %s", name, reason(err))
			}
			fmt.Fprintf(a.Out, "wrote %s; next: markout check %s\n", name, name)
			return nil
		}),
	}
}
