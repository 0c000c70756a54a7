package cli

import (
	"os"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){
		"markout": func() { os.Exit(Main(os.Args[1:], System())) },
	})
}

// TestScripts runs whole commands: one file of testdata/script a case.
func TestScripts(t *testing.T) {
	testscript.Run(t, testscript.Params{
		Dir:                 "testdata/script",
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Cmds:                map[string]func(*testscript.TestScript, bool, []string){"edit": edit},
	})
}

// edit FILE OLD NEW puts a text in place of another in a file, as a person at an editor would.
func edit(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 3 {
		ts.Fatalf("usage: edit FILE OLD NEW")
	}
	name := ts.MkAbs(args[0])
	text, err := os.ReadFile(name)
	ts.Check(err)
	if !strings.Contains(string(text), args[1]) {
		ts.Fatalf("%s does not hold %q", args[0], args[1])
	}
	ts.Check(os.WriteFile(name, []byte(strings.ReplaceAll(string(text), args[1], args[2])), 0o666))
}
