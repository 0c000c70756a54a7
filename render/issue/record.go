// Package issue writes the issue folder: its documents and tables, the register, the page that opens from disk,
// the cautions, issue.json and the texts it was made from.
//
// A folder is written beside its place and renamed into it. It is never written over a folder that markout did
// not make, nor over an issue of another letter; the same letter with other drawings is refused.
package issue

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"

	"markout/layout/set"
)

// format is the number of issue.json's layout; a greater one was written by a later program.
const format = 1

// recordName is the file that makes a folder an issue folder.
const recordName = "issue.json"

// Record is issue.json. Its files' names are as seen from the main file's folder; the first is the main file.
type Record struct {
	Format     int          `json:"format"`
	Program    string       `json:"program"`
	Set        string       `json:"set"`
	Production string       `json:"production"`
	Issue      string       `json:"issue"`
	Date       string       `json:"date"`
	Trial      bool         `json:"trial"`
	With       []string     `json:"with"`
	Hall       string       `json:"hall,omitempty"` // the hall worked in, where the command named one
	Drawn      Drawn        `json:"drawn"`
	Since      *SinceRecord `json:"since,omitempty"` // the earlier issue whose page grids were kept
	Order      set.Order    `json:"order"`           // of the set's things in the file
	// Called is what digests take elements to be called that an earlier issue calls otherwise, by their names.
	Called     map[string]string `json:"called,omitempty"`
	Tags       map[string]int    `json:"tags,omitempty"` // of pieces overhead, by their names; those of pieces that are gone too, so that no number comes again
	Files      []FileRecord      `json:"files"`
	Grids      json.RawMessage   `json:"grids"` // as the packages that lay pages write and read them
	Nests      json.RawMessage   `json:"nests"`
	Cuts       json.RawMessage   `json:"cuts,omitempty"` // what is cut from which board and bar; nil where nothing is
	Pages      []PageRecord      `json:"pages"`
	Superseded []SupersededPage  `json:"superseded,omitempty"`
	Outputs    []string          `json:"outputs"` // every other file of the folder
	Seal       string            `json:"seal"`    // SHA-256 of the record without it, so that an edited one is known
}

// Drawn is what an issue was told to be drawn on, as it was typed; empty for what it takes otherwise.
type Drawn struct {
	Paper      string `json:"paper,omitempty"` // of the full-size paper
	FloorPaper string `json:"floor_paper,omitempty"`
	ModelPaper string `json:"model_paper,omitempty"`
	Margins    string `json:"margins,omitempty"`
	Lap        string `json:"lap,omitempty"`
}

// SinceRecord names an earlier issue.
type SinceRecord struct {
	Issue string `json:"issue"`
	Date  string `json:"date"`
}

// FileRecord is a file that was read. A text stands under source/ as Stored, which differs from Name only for what lies outside the
// set's folder. A picture made of pixels is not kept there: its size in pixels as it is stored, its size in bytes and its digest
// serve in its place.
type FileRecord struct {
	Name   string  `json:"name"`
	Stored string  `json:"stored,omitempty"`
	Pixels *[2]int `json:"pixels,omitempty"`
	Bytes  int64   `json:"bytes,omitempty"`
	SHA256 string  `json:"sha256"`
}

// PageRecord is one page; Issue and Date are those at which its drawing last changed.
type PageRecord struct {
	Sheet   string     `json:"sheet"`
	File    string     `json:"file"`
	Page    int        `json:"page"`
	Element string     `json:"element"`
	View    string     `json:"view"`
	Issue   string     `json:"issue"`
	Date    string     `json:"date"`
	Mark    string     `json:"mark"`
	Digest  string     `json:"digest"`
	Origin  [2]float64 `json:"origin_mm"`
	Size    [2]float64 `json:"size_mm"`
}

// Refused says that a folder is left as it is.
type Refused struct{ Why string }

func (r *Refused) Error() string { return r.Why }

func refuse(format string, args ...any) error { return &Refused{fmt.Sprintf(format, args...)} }

// SupersededPage is a page of the earlier issue that no longer holds: its drawing has changed, or it is gone.
type SupersededPage struct {
	Sheet string `json:"sheet"`
	File  string `json:"file"`
	Issue string `json:"issue"`
	Mark  string `json:"mark"`
	Gone  bool   `json:"gone"` // nothing takes its place
}

// readRecord reads a folder's issue.json. It returns nil without an error where the folder does not exist or is empty,
// and refuses a folder that holds something else.
func readRecord(folder string) (*Record, error) {
	list, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) || err == nil && len(list) == 0 {
		return nil, nil
	}
	if info, statErr := os.Stat(folder); statErr == nil && !info.IsDir() {
		return nil, refuse("%s is a file; an issue is a folder", folder)
	}
	if err != nil {
		return nil, fmt.Errorf("%s: %w", folder, err)
	}
	text, err := os.ReadFile(filepath.Join(folder, recordName))
	if err != nil {
		return nil, refuse("%s holds files that markout did not make; give another folder with -o", folder)
	}
	r, err := parseRecord(text)
	switch later := (*laterFormat)(nil); {
	case errors.As(err, &later):
		return nil, refuse("%s was made by a later markout (%s); give another folder with -o", folder, later)
	case err != nil:
		return nil, refuse("%s: %s cannot be read; give another folder with -o", folder, recordName)
	}
	return r, nil
}

// Read reads an issue folder's issue.json, to compare with it. It refuses a folder that is no issue, one that a later markout made
// and one whose record was edited since; an issue.json that cannot be read is an error of another kind.
func Read(folder string) (*Record, error) {
	info, err := os.Stat(folder)
	switch {
	case err != nil:
		return nil, refuse("%s: there is no such folder", folder)
	case !info.IsDir():
		return nil, refuse("%s is a file; an issue is a folder with its %s", folder, recordName)
	}
	text, err := os.ReadFile(filepath.Join(folder, recordName))
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, refuse("%s is not an issue folder: it has no %s", folder, recordName)
	case err != nil:
		return nil, fmt.Errorf("%s: %s cannot be read: %w", folder, recordName, err)
	}
	r, err := parseRecord(text)
	switch later := (*laterFormat)(nil); {
	case errors.As(err, &later):
		return nil, refuse("%s was made by a later markout (%s); this one reads up to format %d", folder, later, format)
	case err != nil:
		return nil, fmt.Errorf("%s: %s cannot be read: %w", folder, recordName, err)
	case r.Seal != r.seal():
		return nil, refuse("%s: %s was edited after markout wrote it, so its pages cannot be told; issue that letter again from its source folder", folder, recordName)
	}
	return r, nil
}

// laterFormat is the error of a record that a later program wrote.
type laterFormat struct {
	program string
	format  int
}

func (l *laterFormat) Error() string { return fmt.Sprintf("%s, format %d", l.program, l.format) }

// parseRecord reads a record and checks that what it says hangs together.
func parseRecord(text []byte) (*Record, error) {
	var head struct {
		Format  int    `json:"format"`
		Program string `json:"program"`
	}
	if err := json.Unmarshal(text, &head); err != nil {
		return nil, jsonTrouble(text, err)
	}
	if head.Format > format {
		return nil, &laterFormat{head.Program, head.Format}
	}
	var r Record
	if err := json.Unmarshal(text, &r); err != nil {
		return nil, jsonTrouble(text, err)
	}
	switch {
	case r.Format < 1:
		return nil, errors.New("it has no format")
	case len(r.Files) == 0 || r.Files[0].Stored == "":
		return nil, errors.New("it does not name the text that the issue was made from")
	}
	for _, f := range r.Files {
		if !filepath.IsLocal(filepath.FromSlash(stored(f.Name))) || f.Stored != "" && !filepath.IsLocal(filepath.FromSlash(f.Stored)) {
			return nil, fmt.Errorf("%q is no name of a file in it", f.Name)
		}
		if f.Pixels != nil && (f.Pixels[0] < 1 || f.Pixels[1] < 1) {
			return nil, fmt.Errorf("%q has no pixels", f.Name)
		}
	}
	for _, p := range r.Pages {
		if _, err := parseDigest(p.Digest); err != nil || p.File == "" || p.Page < 1 {
			return nil, fmt.Errorf("what it says of page %d of %q cannot be", p.Page, p.File)
		}
	}
	return &r, nil
}

// jsonTrouble says at which line what is no JSON stands.
func jsonTrouble(text []byte, err error) error {
	at := int64(len(text))
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax):
		at = syntax.Offset
	case errors.As(err, &kind):
		at = kind.Offset
	}
	line := 1 + bytes.Count(text[:min(int(at), len(text))], []byte("\n"))
	return fmt.Errorf("line %d: %w", line, err)
}

// seal is the digest of all that the record says.
func (r *Record) seal() string {
	own := *r
	own.Seal = ""
	text, err := json.Marshal(&own) // which compacts the raw parts, however they were indented
	if err != nil {
		return "" // no record that was read has parts that are no JSON
	}
	return hexDigest(sha256.Sum256(text))
}

func parseDigest(text string) (d [32]byte, err error) {
	if len(text) != 2*len(d) {
		return d, errors.New("no digest")
	}
	_, err = hex.Decode(d[:], []byte(text))
	return d, err
}

// relative returns a text's name as seen from the main file's folder, so that outputs do not depend on the folder in
// which the command was typed.
func relative(main, name string) string {
	rel, err := filepath.Rel(filepath.Dir(filepath.FromSlash(main)), filepath.FromSlash(name))
	if err != nil {
		return path.Base(name)
	}
	return filepath.ToSlash(rel)
}

// stored returns where a source text stands under source/: steps that lead up become a folder "up".
func stored(name string) string {
	return strings.TrimPrefix(path.Clean("/"+strings.ReplaceAll(name, "../", "up/")), "/")
}

func hexDigest(d [32]byte) string { return hex.EncodeToString(d[:]) }

// differences names the pages in which two records differ, in the new one's order and then the old one's, after the pictures made
// of pixels whose bytes have changed: nothing but the digest says what an issue was made from.
func differences(was, is *Record) []string {
	out := changedPictures(was, is)
	key := func(p PageRecord) string { return p.File + " " + p.Sheet }
	before := map[string]string{}
	for _, p := range was.Pages {
		before[key(p)] = p.Digest
	}
	now := map[string]bool{}
	for _, p := range is.Pages {
		now[key(p)] = true
		switch d, ok := before[key(p)]; {
		case !ok:
			out = append(out, p.Sheet+" is new")
		case d != p.Digest:
			out = append(out, p.Sheet+" is drawn differently")
		}
	}
	for _, p := range was.Pages {
		if !now[key(p)] {
			out = append(out, p.Sheet+" is gone")
		}
	}
	return out
}

// changedPictures names the pictures made of pixels that two records have by the same name, with other bytes.
func changedPictures(was, is *Record) (out []string) {
	before := map[string]string{}
	for _, f := range was.Files {
		if f.Pixels != nil {
			before[f.Name] = f.SHA256
		}
	}
	for _, f := range is.Files {
		if sum, ok := before[f.Name]; ok && f.Pixels != nil && sum != f.SHA256 {
			out = append(out, f.Name+" is another picture")
		}
	}
	return out
}
