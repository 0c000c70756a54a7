package pixels

import (
	"errors"
	"io"
)

// source reads a stretch of a file forwards through a buffer of its own and knows where it is.
type source struct {
	r    io.ReaderAt
	size int64
	base int64 // place in the file of buf[0]
	buf  []byte
	i    int // next byte in buf
	room []byte
}

// errEnd is met at the end of the file by those who look for it.
var errEnd = errors.New("end of file")

const sourceRoom = 64 << 10

func newSource(r io.ReaderAt, size, at int64) *source {
	return &source{r: r, size: size, base: at}
}

// offset is the place of the next byte.
func (s *source) offset() int64 { return s.base + int64(s.i) }

// fill reads on when the buffer is empty. It returns errEnd at the end of the file.
func (s *source) fill() error {
	if s.i < len(s.buf) {
		return nil
	}
	s.base += int64(len(s.buf))
	s.buf, s.i = s.buf[:0], 0
	n := min(s.size-s.base, sourceRoom)
	if n <= 0 {
		return errEnd
	}
	if int64(len(s.room)) < n {
		s.room = make([]byte, n)
	}
	got, err := s.r.ReadAt(s.room[:n], s.base)
	if got == 0 {
		if err == io.EOF || err == nil {
			return errEnd // shorter than it was said to be
		}
		return err
	}
	s.buf = s.room[:got]
	return nil
}

// seek goes to a place in the file.
func (s *source) seek(at int64) {
	if at >= s.base && at <= s.base+int64(len(s.buf)) {
		s.i = int(at - s.base)
		return
	}
	s.base, s.buf, s.i = at, s.buf[:0], 0
}

// byte reads one byte, or errEnd.
func (s *source) byte() (byte, error) {
	if s.i == len(s.buf) {
		if err := s.fill(); err != nil {
			return 0, err
		}
	}
	b := s.buf[s.i]
	s.i++
	return b, nil
}

// full fills p; the end of the file is an error that says what was being read.
func (s *source) full(p []byte, what string) error {
	for len(p) > 0 {
		if err := s.fill(); err != nil {
			return s.ends(err, what)
		}
		n := copy(p, s.buf[s.i:])
		s.i += n
		p = p[n:]
	}
	return nil
}

// ends turns errEnd into words.
func (s *source) ends(err error, what string) error {
	if err == errEnd {
		return &Error{At: s.offset(), What: "the file ends in the middle of " + what, Hint: saveAgain}
	}
	return err
}
