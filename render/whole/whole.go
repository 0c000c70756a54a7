// Package whole writes files and folders that are either whole or not there: beside their place first, then renamed
// into it. A run that fails, is interrupted or killed leaves what stood there before; what a killed run left
// behind, the next one clears.
package whole

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// beside names what is in the making for a place, in the same folder so that it can be renamed into it.
func beside(place, what string) string {
	return filepath.Join(filepath.Dir(place), "."+filepath.Base(place)+".markout-"+what)
}

// File writes a file. The error names the place and says what failed; it is the context's own where that has ended.
func File(ctx context.Context, place string, fill func(io.Writer) error) error {
	if info, err := os.Stat(place); err == nil && info.IsDir() {
		return fmt.Errorf("%s: is a folder", place)
	}
	part := beside(place, "part")
	if err := os.Remove(part); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return failure(place, part, err)
	}
	err := create(ctx, part, fill)
	if err == nil {
		err = ctx.Err()
	}
	if err == nil {
		err = os.Rename(part, place)
	}
	if err != nil {
		os.Remove(part)
		return failure(place, part, err)
	}
	return nil
}

// create writes a new file, and stops once the context has ended.
func create(ctx context.Context, name string, fill func(io.Writer) error) error {
	f, err := os.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	b := bufio.NewWriterSize(&stoppable{ctx, f}, 256<<10)
	err = fill(b)
	if err == nil {
		err = b.Flush()
	}
	if closing := f.Close(); err == nil {
		err = closing
	}
	return err
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

// Folder is a folder in the making.
type Folder struct {
	ctx   context.Context
	place string
	part  string
	made  []string
}

// Recover clears what a killed run left beside a folder's place, and puts the folder back where that run had moved it
// aside and not yet put the new one in its place.
func Recover(place string) error {
	old := beside(place, "old")
	if _, err := os.Lstat(old); err == nil {
		if _, err := os.Lstat(place); errors.Is(err, fs.ErrNotExist) {
			err = os.Rename(old, place)
			if err != nil {
				return failure(place, old, err)
			}
		} else if err := os.RemoveAll(old); err != nil {
			return failure(place, old, err)
		}
	}
	part := beside(place, "part")
	if err := os.RemoveAll(part); err != nil {
		return failure(place, part, err)
	}
	return nil
}

// NewFolder begins a folder beside its place. It ends with Put or Drop.
func NewFolder(ctx context.Context, place string) (*Folder, error) {
	f := &Folder{ctx: ctx, place: place, part: beside(place, "part")}
	if err := os.MkdirAll(filepath.Dir(place), 0o755); err != nil {
		return nil, failure(place, f.part, err)
	}
	if err := os.Mkdir(f.part, 0o755); err != nil {
		return nil, failure(place, f.part, err)
	}
	return f, nil
}

// Write writes one file of the folder; its name has slashes.
func (f *Folder) Write(name string, fill func(io.Writer) error) error {
	full := filepath.Join(f.part, filepath.FromSlash(name))
	err := os.MkdirAll(filepath.Dir(full), 0o755)
	if err == nil {
		err = create(f.ctx, full, fill)
	}
	if err != nil {
		return failure(f.place, f.part, err)
	}
	f.made = append(f.made, name)
	return nil
}

// Made returns the names written so far, in order.
func (f *Folder) Made() []string { return append([]string(nil), f.made...) }

// Put moves the finished folder into its place. What stood there is moved aside first and removed last, so that at
// every moment one whole folder stands there or beside it.
func (f *Folder) Put() error {
	if err := f.ctx.Err(); err != nil {
		return err
	}
	old := beside(f.place, "old")
	moved := false
	if _, err := os.Lstat(f.place); err == nil {
		if err := os.Rename(f.place, old); err != nil {
			return failure(f.place, f.part, err)
		}
		moved = true
	}
	if err := os.Rename(f.part, f.place); err != nil {
		if moved {
			err = errors.Join(err, os.Rename(old, f.place))
		}
		return failure(f.place, f.part, err)
	}
	if moved {
		return os.RemoveAll(old)
	}
	return nil
}

// Drop removes what was written so far.
func (f *Folder) Drop() { os.RemoveAll(f.part) }

// failure says in plain words what could not be written where, without the hidden name that it was written under.
func failure(place, hidden string, err error) error {
	if errors.Is(err, context.Canceled) || errors.Is(err, context.DeadlineExceeded) {
		return err
	}
	name, what := place, err.Error()
	var p *fs.PathError
	var l *os.LinkError
	switch {
	case errors.As(err, &p):
		name, what = place+strings.TrimPrefix(p.Path, hidden), p.Err.Error()
		if !strings.HasPrefix(p.Path, hidden) {
			name = place
		}
	case errors.As(err, &l):
		what = l.Err.Error()
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		what = "no such folder"
	case errors.Is(err, fs.ErrPermission):
		what = "no permission"
	}
	return &told{fmt.Sprintf("%s: %s; what stood there before is untouched", name, what), err}
}

// told is an error in plain words that still knows its cause.
type told struct {
	words string
	cause error
}

func (f *told) Error() string { return f.words }
func (f *told) Unwrap() error { return f.cause }
