package cli

import (
	"io"
	"path"
	"path/filepath"
	"regexp"
	"strings"

	"github.com/spf13/cobra"

	"markout/layout"
	"markout/layout/notation"
	"markout/layout/set"
)

// pictureFlags say how large a picture without a set becomes: each is a line of the cloth that is made of it.
type pictureFlags struct {
	values map[string]*string // by attribute
}

// pictureLines are the attributes that have a flag, in the order in which they are written.
var pictureLines = []struct{ word, flag, usage string }{
	{"width", "width", "finished `WIDTH`; the height follows from the picture"},
	{"height", "height", "finished `HEIGHT`; the width follows from the picture"},
	{"within", "within", "the largest that fits into `WxH`"},
	{"fit", "fit", "where width and height are given and the picture has other proportions: `whole|fill|stretch`"},
	{"crop", "crop", "the part that is used, from its lower left corner, in pixels or in millimetres of SVG: `X,Y[,W,H]`"},
	{"allow", "hem", "what it has beyond its finished size: `\"top 100 bottom 200 sides 50\"`"},
	{"grid", "grid", "the `STEP` of the squaring-up grid; with a finer one: \"500 fine 100 in 0, 900 size 800 x 600\""},
	{"pounce", "pounce", "dots along lines so far apart: a `LENGTH`"},
}

func (p *pictureFlags) add(cmd *cobra.Command) {
	p.values = map[string]*string{}
	for _, l := range pictureLines {
		v := new(string)
		cmd.Flags().StringVar(v, l.flag, "", l.usage)
		p.values[l.word] = v
	}
}

// given returns the first attribute that a flag gives, empty for none.
func (p *pictureFlags) given() string {
	for _, l := range pictureLines {
		if *p.values[l.word] != "" {
			return l.word
		}
	}
	return ""
}

var times = regexp.MustCompile(`\s*[x×]\s*`)

// text is the set that the flags describe: one cloth of the picture.
func (p *pictureFlags) text(picture string) (text, name string, err error) {
	name = clothName(stem(picture))
	var b strings.Builder
	b.WriteString("set \"" + quoted(stem(picture)) + "\"\n")
	if p.inFeet() {
		b.WriteString("    units ft\n")
	}
	b.WriteString("\ncloth " + name + "\n    artwork \"" + quoted(filepath.Base(picture)) + "\"\n")
	for _, l := range pictureLines {
		v := strings.TrimSpace(*p.values[l.word])
		if v == "" {
			continue
		}
		if strings.ContainsAny(v, "\r\n") {
			return "", "", refuse("--%s: one line is wanted", l.flag)
		}
		switch l.word {
		case "within":
			v = times.ReplaceAllString(v, " x ")
		case "crop":
			n := strings.Split(v, ",")
			switch len(n) {
			case 2:
				v = "from " + n[0] + ", " + n[1]
			case 4:
				v = "from " + n[0] + ", " + n[1] + " size " + n[2] + " x " + n[3]
			default:
				return "", "", refuse("--crop %s: it is X,Y or X,Y,W,H", v)
			}
		}
		b.WriteString("    " + l.word + " " + v + "\n")
	}
	return b.String(), name, nil
}

func quoted(s string) string { return strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(s) }

// inFeet reports whether whoever typed the flags measures in feet and inches: every length has their marks.
func (p *pictureFlags) inFeet() bool {
	some := false
	for _, word := range [...]string{"width", "height", "within", "allow", "grid", "pounce"} {
		if v := *p.values[word]; v != "" {
			if !strings.ContainsAny(v, "'\"′″") {
				return false
			}
			some = true
		}
	}
	return some
}

var joints = regexp.MustCompile(`__+`)

// clothName makes a name of a file's.
func clothName(s string) string {
	name := strings.Map(func(r rune) rune {
		if r == '_' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' {
			return r
		}
		return '_'
	}, s)
	name = strings.Trim(joints.ReplaceAllString(name, "_"), "_")
	if !notation.IsName(name) || notation.IsJoining(name) {
		name = strings.TrimSuffix("cloth_"+name, "_")
	}
	return name
}

// written is a main file that stands nowhere but in memory, beside files on the disk.
type written struct {
	layout.Files
	name, text string
}

func (w written) Open(name string) (io.ReadCloser, error) {
	if name == w.name {
		return io.NopCloser(strings.NewReader(w.text)), nil
	}
	return w.Files.Open(name)
}

// flagFile is the name under which errors show what the flags say.
const flagFile = "the flags"

// open makes the set of a picture.
func (p *pictureFlags) open(a *app, picture string, o *setOptions) (*set.Set, *set.Element, error) {
	if p.given() == "" {
		return nil, nil, refuse("how large? give --width, --height or --within, as in: markout enlarge %s --height 1.8m", picture)
	}
	text, name, err := p.text(picture)
	if err != nil {
		return nil, nil, err
	}
	files, err := openFiles(picture, o.allow)
	if err != nil {
		return nil, nil, err
	}
	defer files.Close()
	main := path.Join(filepath.ToSlash(filepath.Dir(picture)), flagFile)
	s, list := layout.Open(written{files, main, text}, main, layout.Options{With: o.with, Date: o.date})
	if list.HasErrors() || s == nil {
		return nil, nil, p.wrong(a, list, main)
	}
	s.Trial = len(s.With) > 0 // a picture by itself has no issues that it could be a trial of
	return s, s.Find(name), nil
}
