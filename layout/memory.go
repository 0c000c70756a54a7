package layout

import (
	"bytes"
	"io"
	"sync"

	"markout/layout/element"
	"markout/layout/set"
)

// Memory is what openings of one set with other values have in common: the bytes of its files, each read once, its artwork and
// the silhouettes of that. It is good for one set of files, of which the first opening sees what it sees to the end. Many
// openings may use it at one time. The places within a drawing are those of the opening that read it.
type Memory struct {
	mu       sync.Mutex
	files    map[string][]byte
	pictures map[string]picture
	outlines element.Outlines
}

// picture is artwork of which nothing was said when it was read, and the files that it is made of.
type picture struct {
	art     set.Artwork
	sources []set.SourceFile
}

// picture returns artwork that was read before.
func (m *Memory) picture(name string) (picture, bool) {
	if m == nil {
		return picture{}, false
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	p, ok := m.pictures[name]
	return p, ok
}

func (m *Memory) keep(name string, p picture) {
	if m == nil {
		return
	}
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.pictures == nil {
		m.pictures = map[string]picture{}
	}
	m.pictures[name] = p
}

// over returns files that are read once; files themselves without a memory.
func (m *Memory) over(files Files) Files {
	if m == nil {
		return files
	}
	return remembered{files, m}
}

func (m *Memory) silhouettes() *element.Outlines {
	if m == nil {
		return nil
	}
	return &m.outlines
}

// remembered are files that are read once. What cannot be read is tried again.
type remembered struct {
	Files
	memory *Memory
}

func (r remembered) Open(name string) (io.ReadCloser, error) {
	r.memory.mu.Lock()
	defer r.memory.mu.Unlock()
	text, ok := r.memory.files[name]
	if !ok {
		f, err := r.Files.Open(name)
		if err != nil {
			return nil, err
		}
		defer f.Close()
		// What is too long for any reader is left so.
		if text, err = io.ReadAll(io.LimitReader(f, mostPicture+1)); err != nil {
			return nil, err
		}
		if r.memory.files == nil {
			r.memory.files = map[string][]byte{}
		}
		r.memory.files[name] = text
	}
	return io.NopCloser(bytes.NewReader(text)), nil
}
