package cli

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
)

// diskFiles reads below the main file's folder and the folders a user allows, and nowhere else: each is an
// os.Root, so that neither ".." nor a link leads out. Names are as typed, relative to the working folder.
type diskFiles struct{ roots []folderRoot }

type folderRoot struct {
	folder string // absolute
	root   *os.Root
}

// openFiles opens the folder of main and the allowed folders.
func openFiles(main string, allow []string) (*diskFiles, error) {
	d := &diskFiles{}
	for _, folder := range append([]string{filepath.Dir(main)}, allow...) {
		abs, err := filepath.Abs(folder)
		if err != nil {
			return nil, err
		}
		root, err := os.OpenRoot(abs)
		if err != nil {
			d.Close()
			return nil, fmt.Errorf("%s: %s", folder, reason(err))
		}
		d.roots = append(d.roots, folderRoot{abs, root})
	}
	return d, nil
}

// Close lets the folders go.
func (d *diskFiles) Close() {
	for _, r := range d.roots {
		r.root.Close()
	}
}

// Open implements layout.Files.
func (d *diskFiles) Open(name string) (io.ReadCloser, error) {
	abs, err := filepath.Abs(filepath.FromSlash(name))
	if err != nil {
		return nil, err
	}
	for _, r := range d.roots {
		rel, err := filepath.Rel(r.folder, abs)
		if err != nil || rel == ".." || strings.HasPrefix(rel, ".."+string(filepath.Separator)) {
			continue
		}
		f, err := r.root.Open(rel)
		if err != nil {
			return nil, errors.New(reason(err))
		}
		info, err := f.Stat()
		switch {
		case err != nil:
			f.Close()
			return nil, errors.New(reason(err))
		case info.IsDir():
			f.Close()
			return nil, errors.New("is a folder, not a file")
		case !info.Mode().IsRegular():
			f.Close()
			return nil, errors.New("is not a plain file")
		}
		return f, nil
	}
	return nil, errors.New("lies outside the set's folder; --allow FOLDER lets it in")
}

// reason says in plain words why a file could not be had.
func reason(err error) string {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return "no such file"
	case errors.Is(err, fs.ErrPermission):
		return "no permission"
	}
	var p *fs.PathError
	if errors.As(err, &p) {
		if strings.Contains(p.Err.Error(), "escapes") {
			return "leads outside the set's folder; --allow FOLDER lets it in"
		}
		return p.Err.Error()
	}
	return err.Error()
}
