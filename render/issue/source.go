package issue

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path"
	"path/filepath"
	"slices"
)

// Source is the files that an issue was made from, as the core opens them: texts from the folder's source, pictures made of pixels
// from wherever they still are, and where they are not, a stand-in of their size.
type Source struct {
	root    *os.Root
	main    string
	files   map[string]FileRecord // by name as seen from the main file's folder
	beside  []string              // folders in which pictures are looked for
	altered string
	missing map[string]bool // pictures that a stand-in serves for, as seen from the main file's folder
}

// Source opens the texts of an issue folder. Pictures are looked for beside the folder, and in the folders given.
func (r *Record) Source(folder string, pictures ...string) (*Source, error) {
	root, err := os.OpenRoot(folder)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", folder, err)
	}
	s := &Source{root: root, files: map[string]FileRecord{}, missing: map[string]bool{}, beside: append([]string{filepath.Dir(filepath.Clean(folder))}, pictures...)}
	for _, f := range r.Files {
		s.files[f.Name] = f
	}
	s.main = path.Join(filepath.ToSlash(folder), "source", r.Files[0].Stored)
	return s, nil
}

// Main is the main file's name, for layout.Open and for messages.
func (s *Source) Main() string { return s.main }

// Close lets the folder go.
func (s *Source) Close() { s.root.Close() }

// Altered names a text that is no longer as the issue was made from it; empty while none was read.
func (s *Source) Altered() string { return s.altered }

// Missing names the pictures, read so far, that are nowhere as the issue was made from them, in the order of their names: their
// outlines are taken to be their edges.
func (s *Source) Missing() []string { return slices.Sorted(maps.Keys(s.missing)) }

// Open gives a file by its name as seen from the working folder.
func (s *Source) Open(name string) (io.ReadCloser, error) {
	rel, err := filepath.Rel(filepath.FromSlash(path.Dir(s.main)), filepath.FromSlash(name))
	if err != nil {
		return nil, fs.ErrNotExist
	}
	f, ok := s.files[filepath.ToSlash(rel)]
	if !ok {
		return nil, fs.ErrNotExist
	}
	if f.Stored == "" {
		if f.Pixels == nil {
			return nil, errors.New("the issue keeps neither its text nor its pixels")
		}
		return io.NopCloser(bytes.NewReader(s.picture(f))), nil
	}
	text, err := s.text(f)
	if err != nil {
		return nil, err
	}
	if sum := sha256.Sum256(text); hex.EncodeToString(sum[:]) != f.SHA256 && s.altered == "" {
		s.altered = name
	}
	return io.NopCloser(bytes.NewReader(text)), nil
}

func (s *Source) text(f FileRecord) ([]byte, error) {
	file, err := s.root.Open(filepath.Join("source", filepath.FromSlash(f.Stored)))
	if err != nil {
		return nil, err
	}
	defer file.Close()
	return io.ReadAll(file)
}

// picture returns the bytes of a picture that is still at hand as it was, otherwise those of a stand-in.
func (s *Source) picture(f FileRecord) []byte {
	for _, folder := range s.beside {
		name := filepath.Join(folder, filepath.FromSlash(f.Name))
		if info, err := os.Stat(name); err != nil || !info.Mode().IsRegular() || info.Size() != f.Bytes {
			continue
		}
		data, err := os.ReadFile(name)
		if err != nil {
			continue
		}
		if sum := sha256.Sum256(data); hex.EncodeToString(sum[:]) == f.SHA256 {
			return data
		}
	}
	s.missing[f.Name] = true
	return standIn(f.Pixels[0], f.Pixels[1], f.SHA256)
}
