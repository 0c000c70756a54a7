package notation

import (
	"fmt"
	"slices"
	"strings"
	"sync"
)

// CompileForm reads a form. The error says what is wrong with it.
func CompileForm(source string) (*Form, error) {
	c := compiler{form: &Form{source: source}, tokens: formTokens(source)}
	root := c.choice("")
	if c.err == nil && c.at < len(c.tokens) {
		c.errorf("`%s` closes nothing", c.tokens[c.at])
	}
	if c.err != nil {
		return nil, fmt.Errorf("form %q: %w", source, c.err)
	}
	c.form.root = root
	return c.form, nil
}

// CheckKinds compiles every form of the tables and returns the first error. A test of the tables calls it.
func CheckKinds(kinds []Kind) error {
	for _, k := range kinds {
		if _, err := CompileForm(k.Head); err != nil {
			return fmt.Errorf("%s: %w", k.Word, err)
		}
		if err := checkAttributes(k.Word, k.Attributes); err != nil {
			return err
		}
	}
	return nil
}

func checkAttributes(under string, attributes []Attr) error {
	for _, a := range attributes {
		if _, err := CompileForm(a.Form); err != nil {
			return fmt.Errorf("%s: %s: %w", under, a.Word, err)
		}
		if err := checkAttributes(under+": "+a.Word, a.Sub); err != nil {
			return err
		}
	}
	return nil
}

// compiled keeps each form that was asked for: there are few, and every parse asks for the same.
var compiled sync.Map // string → *Form or error

func formOf(source string) (*Form, error) {
	got, ok := compiled.Load(source)
	if !ok {
		f, err := CompileForm(source)
		if got = any(f); err != nil {
			got = err
		}
		compiled.Store(source, got)
	}
	switch got := got.(type) {
	case *Form:
		return got, nil
	case error:
		return nil, got
	}
	return nil, nil
}

// formTokens splits a form at spaces and brackets.
func formTokens(source string) []string {
	for _, b := range []string{"(", ")", "[", "]", "{", "}"} {
		source = strings.ReplaceAll(source, b, " "+b+" ")
	}
	return strings.Fields(source)
}

// maxItems is how long a sequence of a form may be: its parts are counted in the bits of a word.
const maxItems = 64

type compiler struct {
	form   *Form
	tokens []string
	at     int
	err    error
}

func (c *compiler) errorf(format string, args ...any) {
	if c.err == nil {
		c.err = fmt.Errorf(format, args...)
	}
}

// choice reads sequences up to the closing bracket, or up to the end where closing is empty.
func (c *compiler) choice(closing string) *choice {
	out := &choice{branches: []sequence{nil}}
	for c.err == nil {
		if c.at == len(c.tokens) {
			if closing != "" {
				c.errorf("`%s` is missing", closing)
			}
			return out
		}
		t := c.tokens[c.at]
		last := len(out.branches) - 1
		switch t {
		case ")", "]", "}":
			if t != closing {
				c.errorf("`%s` closes nothing", t)
			}
			return out
		case "|":
			c.at++
			out.branches = append(out.branches, nil)
			continue
		}
		out.branches[last] = append(out.branches[last], c.item(t))
		if len(out.branches[last]) > maxItems {
			c.errorf("a sequence has at most %d parts", maxItems)
		}
	}
	return out
}

func (c *compiler) item(t string) item {
	c.at++
	closing := map[string]string{"(": ")", "[": "]", "{": "}"}[t]
	if closing == "" {
		return item{atoms: c.atoms(t)}
	}
	group := c.choice(closing)
	c.at++
	for _, b := range group.branches {
		if len(b) == 0 {
			c.errorf("a branch is empty")
		}
	}
	return item{group: group, optional: t == "[", repeated: t == "{"}
}

func (c *compiler) atoms(t string) []atom {
	var out []atom
	for _, w := range strings.Split(t, "|") {
		switch i := valueFormOf(w); {
		case w == "":
			c.errorf("a word is missing in `%s`", t)
		case i >= 0:
			out = append(out, atom{value: valueForm(i)})
			c.form.shapes = c.form.shapes || valueForm(i) == formOutline || valueForm(i) == formPath
		case w == strings.ToUpper(w) && strings.Trim(w, "IVX=") != "":
			c.errorf("`%s` is no value", w)
		default:
			out = append(out, atom{word: w})
			if !slices.Contains(c.form.words, w) {
				c.form.words = append(c.form.words, w)
			}
		}
	}
	return out
}

func valueFormOf(word string) int {
	for i, v := range valueForms {
		if v.word == word {
			return i
		}
	}
	return -1
}
