package pixels

import "fmt"

// Error is something wrong with a file.
type Error struct {
	Format Format // zero when it is neither PNG nor JPEG
	At     int64  // the byte, from 0; coded data counts from where it was noticed, a few bytes on
	What   string // what is wrong
	Hint   string // what would mend it, when that is known
}

func (e *Error) Error() string {
	s := fmt.Sprintf("byte %d: %s", e.At, e.What)
	if e.Format != 0 {
		s = e.Format.String() + ", " + s
	}
	if e.Hint != "" {
		s += " (" + e.Hint + ")"
	}
	return s
}

func pngError(at int64, format string, args ...any) *Error {
	return &Error{Format: PNG, At: at, What: fmt.Sprintf(format, args...)}
}

func jpegError(at int64, format string, args ...any) *Error {
	return &Error{Format: JPEG, At: at, What: fmt.Sprintf(format, args...)}
}

// hint adds what would mend it.
func (e *Error) hint(h string) *Error {
	e.Hint = h
	return e
}

const (
	saveAgain     = "save it again from the program it came from, or copy it again"
	saveBaseline  = "save it as a plain (baseline) JPEG, not a progressive one"
	savePlainPNG  = "save it without interlacing"
	saveReadable  = "save it as PNG or JPEG"
	saveJPEGPlain = "save it as an ordinary 8-bit JPEG, or as PNG"
)
