// Package issue writes the issue folder: its documents and tables, the register, the page that opens from disk,
// the cautions, issue.json and the texts it was made from.
//
// A folder is written beside its place and renamed into it. It is never written over a folder that markout did
// not make, nor over an issue of another letter; the same letter with other drawings is refused.
package issue

import (
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"strings"
)

// format is the number of issue.json's layout; a greater one was written by a later program.
const format = 1

// recordName is the file that makes a folder an issue folder.
const recordName = "issue.json"

// record is issue.json.
type record struct {
	Format     int          `json:"format"`
	Program    string       `json:"program"`
	Set        string       `json:"set"`
	Production string       `json:"production"`
	Issue      string       `json:"issue"`
	Date       string       `json:"date"`
	Trial      bool         `json:"trial"`
	With       []string     `json:"with"`
	Files      []fileRecord `json:"files"`
	Grids      any          `json:"grids"`
	Nests      any          `json:"nests"`
	Pages      []pageRecord `json:"pages"`
	Outputs    []string     `json:"outputs"` // every other file of the folder
}

// fileRecord is a file that was read. A text stands under source/ as Stored, which differs from Name only for what lies outside the
// set's folder. A picture made of pixels is not kept there: its size in pixels as it is stored, its size in bytes and its digest
// serve in its place.
type fileRecord struct {
	Name   string  `json:"name"`
	Stored string  `json:"stored,omitempty"`
	Pixels *[2]int `json:"pixels,omitempty"`
	Bytes  int64   `json:"bytes,omitempty"`
	SHA256 string  `json:"sha256"`
}

// pageRecord is one page; Issue and Date are those at which its drawing last changed.
type pageRecord struct {
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

// readRecord reads a folder's issue.json. It returns nil without an error where the folder does not exist or is empty,
// and refuses a folder that holds something else.
func readRecord(folder string) (*record, error) {
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
	var r record
	if err := json.Unmarshal(text, &r); err != nil || r.Format < 1 {
		return nil, refuse("%s: %s cannot be read; give another folder with -o", folder, recordName)
	}
	if r.Format > format {
		return nil, refuse("%s was made by a later markout (%s, format %d); give another folder with -o", folder, r.Program, r.Format)
	}
	return &r, nil
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
func differences(was, is *record) []string {
	out := changedPictures(was, is)
	key := func(p pageRecord) string { return p.File + " " + p.Sheet }
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
func changedPictures(was, is *record) (out []string) {
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
