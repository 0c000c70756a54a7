package cli

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"runtime"
	"strings"

	"github.com/spf13/cobra"

	"markout/layout/set"
	"markout/render/pdf"
	"markout/render/svg"
	"markout/render/whole"
	"markout/tiling"
	"markout/tiling/grid"
	"markout/tiling/paper"
	"markout/tiling/sheet"
)

// drawOptions are the flags of every command that draws.
type drawOptions struct {
	out     string
	paper   string
	margins string
	yes     bool

	stamps tiling.Stamps     // of the document that is drawn, where there is an earlier issue
	since  []grid.GridRecord // its page grids
}

func (o *drawOptions) add(cmd *cobra.Command) {
	f := cmd.Flags()
	f.StringVarP(&o.out, "output", "o", "", "write to this `NAME`.pdf, or into this folder")
	f.StringVar(&o.paper, "paper", "", "`PAPER`: A4, A3 …, Letter, Tabloid, ARCH-D …, \"roll 610|914|1067\", or WxH in millimetres")
	f.StringVar(&o.margins, "margins", "", "the printer's margins in millimetres: `LEFT,RIGHT,BOTTOM,TOP`, or one for all")
	f.BoolVarP(&o.yes, "yes", "y", false, "go on without asking when many pages come of it")
	_ = cmd.RegisterFlagCompletionFunc("paper", cobra.FixedCompletions(
		[]string{"A4", "A3", "A2", "A1", "A0", "Letter", "Tabloid", "ARCH-D", "roll 610", "roll 914", "roll 1067"}, cobra.ShellCompDirectiveNoFileComp))
}

// on returns the paper asked for, otherwise the metric or the imperial default.
func (o *drawOptions) on(s *set.Set, metric, imperial string) (paper.Paper, error) {
	name := o.paper
	if name == "" {
		name = metric
		if s.Units.Imperial() {
			name = imperial
		}
	}
	p, err := paper.Parse(name)
	if err != nil {
		return p, refusal{err}
	}
	return p, nil
}

// edges returns the margins asked for, otherwise 10 mm and so much at the left edge.
func (o *drawOptions) edges(left float64) (paper.Margins, error) {
	if o.margins == "" {
		return paper.Margins{Left: left, Right: 10, Bottom: 10, Top: 10}, nil
	}
	m, err := paper.ParseMargins(o.margins)
	if err != nil {
		return m, refusal{err}
	}
	return m, nil
}

// sheets is the paper of plans, tables and elevations: A3 or Tabloid unless asked otherwise, with its filing edge.
func (o *drawOptions) sheets(s *set.Set) (opt sheet.Options, err error) {
	if opt.Paper, err = o.on(s, "A3", "Tabloid"); err != nil {
		return opt, err
	}
	opt.Stamps = o.stamps
	opt.Margins, err = o.edges(20)
	return opt, err
}

// writePages writes a document as one PDF, or each of its pages as an SVG beside that name: NAME-1.svg …
// It returns what it wrote, in words.
func (a *app) writePages(ctx context.Context, doc *tiling.Document, o *drawOptions, setFile, command, format string) (string, error) {
	if format == "svg" {
		return a.writeSVG(ctx, doc, o, setFile, command)
	}
	name, err := outputName(o.out, setFile, command, ".pdf")
	if err != nil {
		return "", err
	}
	tell, end := a.progress(filepath.Base(name))
	defer end()
	return name, whole.File(ctx, name, func(w io.Writer) error {
		_, err := pdf.Write(w, doc, pdf.Options{Workers: runtime.GOMAXPROCS(0), Progress: tell})
		return err
	})
}

func (a *app) writeSVG(ctx context.Context, doc *tiling.Document, o *drawOptions, setFile, command string) (string, error) {
	name, err := outputName(o.out, setFile, command, ".svg")
	if err != nil {
		return "", err
	}
	base := strings.TrimSuffix(name, filepath.Ext(name))
	var page tiling.Page
	for i := range doc.Pages {
		page.Reset()
		doc.Make(i, &page)
		one := fmt.Sprintf("%s-%d.svg", base, i+1)
		if err := whole.File(ctx, one, func(w io.Writer) error { return svg.Write(w, &page) }); err != nil {
			return "", err
		}
	}
	return fmt.Sprintf("%s-1.svg to -%d.svg", base, doc.Pages), nil
}

// plural prints a count with its noun.
func plural(n int, noun string) string {
	if n == 1 {
		return "1 " + noun
	}
	return fmt.Sprintf("%d %ss", n, noun)
}
