package cli

import (
	"bufio"
	"fmt"
	"strings"
)

// paperWithoutAsking is how many pages a command makes without saying first what they cost.
const paperWithoutAsking = 60

// confirm says what the paper costs and goes on with --yes or a yes at the terminal.
func (a *app) confirm(pages int, words string, yes bool) error {
	if pages <= paperWithoutAsking {
		return nil
	}
	if yes {
		fmt.Fprintln(a.Err, words)
		return nil
	}
	if !a.InTerminal {
		return refuse("%s\nmarkout: nothing was written; --yes goes on", words)
	}
	fmt.Fprintf(a.Err, "%s\nGo on? [y/N] ", words)
	line, _ := bufio.NewReader(a.In).ReadString('\n')
	switch strings.ToLower(strings.TrimSpace(line)) {
	case "y", "yes":
		return nil
	}
	return refuse("nothing was written")
}
