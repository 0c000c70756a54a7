package artwork

import (
	"fmt"

	"markout/layout/diag"
)

// Codes of the cautions that a picture may come with.
const (
	codeText    = "ART-TEXT"    // lettering that is not outlines
	codeOutside = "ART-OUTSIDE" // something that lies outside the file
	codeData    = "ART-DATA"    // path data that is wrong somewhere; drawn up to there
	codeValue   = "ART-VALUE"   // a value that cannot be read, or is out of reach
	codeLink    = "ART-LINK"    // a reference that leads nowhere, to the wrong kind of thing, or round in a circle
	codeLeft    = "ART-LEFT"    // something that is not drawn
	CodePixels  = "ART-PIXELS"  // what a person should know of how a picture made of pixels is read
)

// mostCautions is how many cautions are said of one picture.
const mostCautions = 200

// trouble says what is wrong with one file.
type trouble struct {
	list   *diag.List
	file   diag.FileID
	said   int
	failed bool // an error was said: nothing more is read or drawn
	muted  bool // cautions are said another time
}

// refuse says an error.
func (t *trouble) refuse(at diag.Span, hint, format string, args ...any) {
	if t.failed {
		return
	}
	t.failed = true
	t.list.Add(diag.Diagnostic{Span: at, Message: fmt.Sprintf(format, args...), Hint: hint})
}

// caution says what is left out or read otherwise than it stands; the rest is drawn.
func (t *trouble) caution(at diag.Span, code, hint, format string, args ...any) {
	if t.muted {
		return
	}
	t.said++
	switch {
	case t.said > mostCautions || t.failed:
		return
	case t.said == mostCautions:
		format, args, hint = "more is wrong with this picture from here on than is listed", nil, ""
	}
	t.list.Add(diag.Diagnostic{Span: at, Severity: diag.Caution, Code: code, Message: fmt.Sprintf(format, args...), Hint: hint})
}

// fault says an error at which the reading goes on, so that all of them are said at once: what nothing may be made of is not made.
func (t *trouble) fault(at diag.Span, code, hint, format string, args ...any) {
	if t.muted || t.failed {
		return
	}
	if t.said++; t.said <= mostCautions {
		t.list.Add(diag.Diagnostic{Span: at, Code: code, Message: fmt.Sprintf(format, args...), Hint: hint})
	}
}

// span is a range of bytes of the file.
func (t *trouble) span(from, to int) diag.Span {
	return diag.Span{File: t.file, From: int32(from), To: int32(to)}
}
