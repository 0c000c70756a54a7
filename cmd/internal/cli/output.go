package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
)

// outputName works out where a command's sheets go: `-o NAME.pdf` is a file, anything else a folder; without -o
// SET-COMMAND.pdf in the working folder.
func outputName(o, setFile, command, ending string) (string, error) {
	base := stem(setFile) + "-" + command + ending
	switch {
	case o == "":
		return base, nil
	case strings.EqualFold(filepath.Ext(o), ending):
		return o, nil
	}
	if err := os.MkdirAll(o, 0o755); err != nil {
		return "", fmt.Errorf("%s: %s", o, reason(err))
	}
	return filepath.Join(o, base), nil
}

// stem is a set file's name without folder and ending.
func stem(file string) string {
	return strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
}
