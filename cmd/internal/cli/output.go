package cli

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// writeWhole writes a file beside its place and renames it into place, so that a run that fails or is
// interrupted leaves what stood there before. What a killed run left behind is cleared first.
func writeWhole(ctx context.Context, name string, write func(io.Writer) error) (err error) {
	if info, err := os.Stat(name); err == nil && info.IsDir() {
		return fmt.Errorf("%s: is a folder", name)
	}
	temp := filepath.Join(filepath.Dir(name), "."+filepath.Base(name)+".markout-part")
	if err := os.Remove(temp); err != nil && !errors.Is(err, os.ErrNotExist) {
		return fmt.Errorf("%s: %s", name, reason(err))
	}
	f, err := os.OpenFile(temp, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return fmt.Errorf("%s: %s", name, writeReason(err))
	}
	defer func() {
		if err != nil {
			f.Close()
			os.Remove(temp)
		}
	}()
	b := bufio.NewWriterSize(&stoppable{ctx, f}, 256<<10)
	if err := write(b); err != nil {
		return outputError(name, err)
	}
	if err := b.Flush(); err != nil {
		return outputError(name, err)
	}
	if err := f.Close(); err != nil {
		return outputError(name, err)
	}
	if err := ctx.Err(); err != nil {
		return err
	}
	if err := os.Rename(temp, name); err != nil {
		return outputError(name, err)
	}
	return nil
}

// stoppable makes every write fail once the context has ended.
type stoppable struct {
	ctx context.Context
	w   io.Writer
}

func (s *stoppable) Write(p []byte) (int, error) {
	if err := s.ctx.Err(); err != nil {
		return 0, err
	}
	return s.w.Write(p)
}

func outputError(name string, err error) error {
	if errors.Is(err, context.Canceled) {
		return err
	}
	return fmt.Errorf("%s: %s; what stood there before is untouched", name, writeReason(err))
}

func writeReason(err error) string {
	if errors.Is(err, os.ErrNotExist) {
		return "no such folder"
	}
	return reason(err)
}

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
		return "", fmt.Errorf("%s: %s", o, writeReason(err))
	}
	return filepath.Join(o, base), nil
}

// stem is a set file's name without folder and ending.
func stem(file string) string {
	return strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
}
