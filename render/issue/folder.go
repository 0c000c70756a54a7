package issue

import (
	"bufio"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// folder is an issue folder being written beside its place.
type folder struct {
	ctx  context.Context
	temp string
	made []string // names written, slashes, in order
}

func beside(place, what string) string {
	return filepath.Join(filepath.Dir(place), "."+filepath.Base(place)+".markout-"+what)
}

// recoverPlace clears what a killed run left beside the folder, and puts the folder back where that run had moved it
// aside and not yet put the new one in its place.
func recoverPlace(place string) error {
	old := beside(place, "old")
	if _, err := os.Lstat(old); err == nil {
		if _, err := os.Lstat(place); errors.Is(err, fs.ErrNotExist) {
			if err := os.Rename(old, place); err != nil {
				return err
			}
		} else if err := os.RemoveAll(old); err != nil {
			return err
		}
	}
	return os.RemoveAll(beside(place, "part"))
}

func newFolder(ctx context.Context, place string) (*folder, error) {
	f := &folder{ctx: ctx, temp: beside(place, "part")}
	if err := os.MkdirAll(filepath.Dir(place), 0o755); err != nil {
		return nil, err
	}
	if err := os.Mkdir(f.temp, 0o755); err != nil {
		return nil, err
	}
	return f, nil
}

// write makes one file of the folder.
func (f *folder) write(name string, fill func(io.Writer) error) error {
	full := filepath.Join(f.temp, filepath.FromSlash(name))
	if err := os.MkdirAll(filepath.Dir(full), 0o755); err != nil {
		return err
	}
	file, err := os.OpenFile(full, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o644)
	if err != nil {
		return err
	}
	b := bufio.NewWriterSize(&stoppable{f.ctx, file}, 256<<10)
	err = fill(b)
	if err == nil {
		err = b.Flush()
	}
	if closing := file.Close(); err == nil {
		err = closing
	}
	if err == nil {
		f.made = append(f.made, name)
	}
	return err
}

func (f *folder) writeJSON(name string, v any) error {
	return f.write(name, func(w io.Writer) error {
		e := json.NewEncoder(w)
		e.SetEscapeHTML(false)
		e.SetIndent("", " ")
		return e.Encode(v)
	})
}

// put moves the finished folder into its place. What stood there is moved aside first and removed last, so that at
// every moment one whole folder stands there or beside it.
func (f *folder) put(place string) error {
	if err := f.ctx.Err(); err != nil {
		return err
	}
	old := beside(place, "old")
	moved := false
	if _, err := os.Lstat(place); err == nil {
		if err := os.Rename(place, old); err != nil {
			return err
		}
		moved = true
	}
	if err := os.Rename(f.temp, place); err != nil {
		if moved {
			return errors.Join(err, os.Rename(old, place))
		}
		return err
	}
	if moved {
		return os.RemoveAll(old)
	}
	return nil
}

// drop removes what was written so far.
func (f *folder) drop() { os.RemoveAll(f.temp) }

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

// failure says what could not be written where, without the hidden folder's name.
func failure(place string, err error) error {
	var r *Refused
	if errors.Is(err, context.Canceled) || errors.As(err, &r) {
		return err
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		name := strings.TrimPrefix(p.Path, beside(place, "part"))
		return fmt.Errorf("%s%s: %s; what stood there before is untouched", place, name, p.Err)
	}
	return fmt.Errorf("%s: %w; what stood there before is untouched", place, err)
}
