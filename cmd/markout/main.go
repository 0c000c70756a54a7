// Command markout computes models, mark-outs and full-size paper of a set from one plain text file.
package main

import (
	"os"

	"markout/cmd/internal/cli"
)

func main() { os.Exit(cli.Main(os.Args[1:], cli.System())) }
