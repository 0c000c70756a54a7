// Package cli is the command line: one file a command, each an options struct, a constructor and a run function.
// Streams are injected, exit codes stand in one place, and nothing here computes anything of a set.
package cli

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime/debug"
	"syscall"

	"github.com/spf13/cobra"
	"golang.org/x/term"
)

// Version is the program's, as issue.json and --version have it.
const Version = "0.1.0"

// Exit codes, a contract.
const (
	exitOK      = 0
	exitFailed  = 1 // errors in the input; input or output failures
	exitRefused = 2 // misuse, or refused
)

// Streams are what the program reads and writes, and whether a person sits at them.
type Streams struct {
	In          io.Reader
	Out, Err    io.Writer
	InTerminal  bool // questions may be asked
	ErrTerminal bool // progress may be drawn
}

// System returns the process's own streams.
func System() Streams {
	return Streams{
		In: os.Stdin, Out: os.Stdout, Err: os.Stderr,
		InTerminal:  term.IsTerminal(int(os.Stdin.Fd())) && term.IsTerminal(int(os.Stderr.Fd())),
		ErrTerminal: term.IsTerminal(int(os.Stderr.Fd())),
	}
}

// app is what every command shares in one run.
type app struct {
	Streams
	started bool // a run function was reached: what fails before is misuse
}

// errReported says that what is wrong has been printed already.
var errReported = errors.New("reported")

// refusal is an error that ends with exit code 2: asked for what is not done.
type refusal struct{ error }

func refuse(format string, args ...any) error { return refusal{fmt.Errorf(format, args...)} }

// Main runs the program and returns its exit code.
func Main(args []string, s Streams) int {
	// Pages are made by the thousand and let go at once; a larger heap between collections halves the
	// collector's share and costs tens of megabytes at most.
	debug.SetGCPercent(400)
	ctx, stop := signal.NotifyContext(context.Background(), os.Interrupt, syscall.SIGTERM)
	defer stop()
	a := &app{Streams: s}
	root := newRoot(a)
	root.SetArgs(args)
	root.SetIn(s.In)
	root.SetOut(s.Out)
	root.SetErr(s.Err)
	return a.exit(root.ExecuteContext(ctx))
}

func (a *app) exit(err error) int {
	switch {
	case err == nil:
		return exitOK
	case errors.Is(err, errReported):
		return exitFailed
	case errors.Is(err, context.Canceled):
		fmt.Fprintln(a.Err, "markout: interrupted; nothing was changed")
		return exitFailed
	}
	fmt.Fprintln(a.Err, "markout:", err)
	var r refusal
	if !a.started || errors.As(err, &r) {
		return exitRefused
	}
	return exitFailed
}

// run wraps a command's run function, so that errors before it count as misuse.
func (a *app) run(f func(ctx context.Context, args []string) error) func(*cobra.Command, []string) error {
	return func(cmd *cobra.Command, args []string) error {
		a.started = true
		return f(cmd.Context(), args)
	}
}

func newRoot(a *app) *cobra.Command {
	root := &cobra.Command{
		Use:   "markout",
		Short: "Models, mark-outs and full-size paper of a set from one text file",
		Long: `markout keeps a set in one plain text file and computes everything else from it:
the floor mark-out and its tape table, full-size paper for the saw, a card model, cutting lists, artwork
squared up, what hangs overhead, what to look out for, and what each change costs.

Begin with:  markout start kiosk
Then:        markout check kiosk.markout
             markout issue kiosk.markout --yes`,
		Version:           Version,
		SilenceUsage:      true,
		SilenceErrors:     true,
		CompletionOptions: cobra.CompletionOptions{HiddenDefaultCmd: false},
	}
	root.AddCommand(
		newIssue(a), newChanges(a), newCheck(a), newTemplate(a), newFloor(a), newCutting(a), newElevations(a), newModel(a), newEnlarge(a), newOverhead(a),
		newStart(a), newTidy(a), newExplain(a),
	)
	return root
}
