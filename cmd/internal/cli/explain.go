package cli

import (
	"context"
	"fmt"

	"github.com/spf13/cobra"

	"markout/layout/reference"
)

type explainOptions struct{ markdown bool }

func newExplain(a *app) *cobra.Command {
	o := &explainOptions{}
	cmd := &cobra.Command{
		Use:   "explain [TOPIC]",
		Short: "The reference of the geometry file, and every caution's code",
		Long: `Explain a kind (platform), one of its attributes (steps.meets), a part of the language (values) or the code
of a caution (STEP-RISE). Without a topic, list what can be explained.`,
		Example: "  markout explain steps\n  markout explain steps.meets\n  markout explain STEP-RISE",
		Args:    cobra.MaximumNArgs(1),
		RunE: a.run(func(_ context.Context, args []string) error {
			if o.markdown {
				fmt.Fprint(a.Out, reference.Markdown())
				return nil
			}
			topic := ""
			if len(args) == 1 {
				topic = args[0]
			}
			text, err := reference.Text(topic)
			if err != nil {
				return refusal{err}
			}
			fmt.Fprint(a.Out, text)
			return nil
		}),
		ValidArgsFunction: func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			if len(args) > 0 {
				return nil, cobra.ShellCompDirectiveNoFileComp
			}
			return reference.Topics(), cobra.ShellCompDirectiveNoFileComp
		},
	}
	cmd.Flags().BoolVar(&o.markdown, "markdown", false, "print the whole reference as one Markdown document")
	return cmd
}
