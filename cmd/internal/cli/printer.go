package cli

import (
	"fmt"
	"io"
)

// printer prints until something fails, and keeps what failed.
type printer struct {
	w   io.Writer
	err error
}

func (p *printer) printf(format string, args ...any) {
	if p.err == nil {
		_, p.err = fmt.Fprintf(p.w, format, args...)
	}
}
