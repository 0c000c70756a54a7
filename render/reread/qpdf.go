package reread

import (
	"encoding/json"
	"strings"
	"testing"
)

// Check lets qpdf look for anything wrong in the file's structure; a warning fails the test.
func Check(t testing.TB, pdf string) {
	t.Helper()
	out := string(run(t, "qpdf", "--check", pdf))
	if strings.Contains(strings.ToLower(out), "warning") || !strings.Contains(out, "No syntax or stream encoding errors found") {
		t.Fatalf("qpdf --check %s:\n%s", pdf, out)
	}
}

// Objects is a file as qpdf reads it (its JSON of version 2): strings begin with "u:", names with "/", references
// look like "12 0 R".
type Objects struct {
	t       testing.TB
	objects map[string]struct {
		Value  any
		Stream struct{ Dict map[string]any }
	}
	Labels   []string // of pages, empty where a page has none
	Outlines []Outline
}

// Outline is one bookmark.
type Outline struct {
	Title string    `json:"title"`
	Page  int       `json:"destpageposfrom1"`
	Open  bool      `json:"open"`
	Kids  []Outline `json:"kids"`
}

// ReadObjects runs qpdf's JSON writer over the file.
func ReadObjects(t testing.TB, pdf string) *Objects {
	t.Helper()
	var file struct {
		Pages []struct {
			Label map[string]any
		}
		Outlines []Outline
		QPDF     []json.RawMessage
	}
	data := run(t, "qpdf", "--json=2", "--json-key=pages", "--json-key=pagelabels", "--json-key=outlines", "--json-key=qpdf", pdf)
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	o := &Objects{t: t, Outlines: file.Outlines}
	if err := json.Unmarshal(file.QPDF[1], &o.objects); err != nil {
		t.Fatal(err)
	}
	for _, p := range file.Pages {
		label, _ := p.Label["/P"].(string)
		o.Labels = append(o.Labels, strings.TrimPrefix(label, "u:"))
	}
	return o
}

// Get follows a path of dictionary keys and array places from the trailer, through references, and returns what
// stands there; nil where the path ends early: Get("/Root", "/ViewerPreferences", "/PrintScaling").
func (o *Objects) Get(path ...any) any {
	var v any = map[string]any(nil)
	if trailer, ok := o.objects["trailer"]; ok {
		v = trailer.Value
	}
	for _, step := range path {
		switch key := step.(type) {
		case string:
			d, _ := v.(map[string]any)
			v = d[key]
		case int:
			a, _ := v.([]any)
			if key >= len(a) {
				return nil
			}
			v = a[key]
		}
		v = o.follow(v)
	}
	return v
}

// follow returns what a reference leads to; of a stream its dictionary.
func (o *Objects) follow(v any) any {
	for {
		s, ok := v.(string)
		if !ok || !strings.HasSuffix(s, " 0 R") {
			return v
		}
		object, ok := o.objects["obj:"+s]
		if !ok {
			return nil
		}
		if object.Stream.Dict != nil {
			return object.Stream.Dict
		}
		v = object.Value
	}
}
