package artwork

import (
	"strconv"
	"strings"
	"unicode/utf8"

	"github.com/tdewolff/parse/v2"
	"github.com/tdewolff/parse/v2/css"
)

// cssToken is one token of CSS.
type cssToken struct {
	kind css.TokenType
	text string
}

// cssTokens cuts a text into tokens. A comment becomes white space.
func cssTokens(text string) []cssToken {
	var tokens []cssToken
	l := css.NewLexer(parse.NewInputString(text))
	for {
		kind, data := l.Next()
		switch kind {
		case css.ErrorToken:
			return tokens
		case css.CommentToken:
			tokens = append(tokens, cssToken{css.WhitespaceToken, " "})
		case css.CDOToken, css.CDCToken: // marks that once hid style sheets from older readers
		default:
			tokens = append(tokens, cssToken{kind, string(data)})
		}
	}
}

// cssReader walks over tokens.
type cssReader struct {
	tokens []cssToken
	at     int
}

func (c *cssReader) done() bool { return c.at >= len(c.tokens) }

// peek returns the next token, one of the kind ErrorToken at the end.
func (c *cssReader) peek() cssToken {
	if c.done() {
		return cssToken{}
	}
	return c.tokens[c.at]
}

func (c *cssReader) next() cssToken {
	t := c.peek()
	c.at = min(c.at+1, len(c.tokens))
	return t
}

// space skips white space and reports whether there was any.
func (c *cssReader) space() bool {
	from := c.at
	for c.peek().kind == css.WhitespaceToken {
		c.at++
	}
	return c.at > from
}

// until returns the tokens up to the first of the given kinds that stands outside all brackets, which is not
// taken, or up to the end.
func (c *cssReader) until(kinds ...css.TokenType) []cssToken {
	from, depth := c.at, 0
	for ; !c.done(); c.at++ {
		kind := c.tokens[c.at].kind
		if depth == 0 {
			for _, k := range kinds {
				if k == kind {
					return c.tokens[from:c.at]
				}
			}
		}
		switch kind {
		case css.LeftParenthesisToken, css.LeftBracketToken, css.LeftBraceToken, css.FunctionToken:
			depth++
		case css.RightParenthesisToken, css.RightBracketToken, css.RightBraceToken:
			depth = max(depth-1, 0)
		}
	}
	return c.tokens[from:]
}

// cssText puts tokens together again.
func cssText(tokens []cssToken) string {
	var b strings.Builder
	for _, t := range tokens {
		b.WriteString(t.text)
	}
	return strings.TrimSpace(b.String())
}

// unescape reads the escapes of a CSS word: a backslash with up to six hexadecimal digits and a space, or with
// any other letter, which stands for itself.
func unescape(word string) string {
	if !strings.ContainsRune(word, '\\') {
		return word
	}
	var b strings.Builder
	for i := 0; i < len(word); i++ {
		if word[i] != '\\' || i+1 == len(word) {
			b.WriteByte(word[i])
			continue
		}
		end := i + 1
		for end < len(word) && end < i+7 && strings.IndexByte("0123456789abcdefABCDEF", word[end]) >= 0 {
			end++
		}
		if end == i+1 {
			i++
			b.WriteByte(word[i])
			continue
		}
		n, _ := strconv.ParseUint(word[i+1:end], 16, 32)
		if n == 0 || n > utf8.MaxRune {
			n = utf8.RuneError
		}
		b.WriteRune(rune(n))
		if end < len(word) && isSpace(word[end]) {
			end++
		}
		i = end - 1
	}
	return b.String()
}

// unquote returns what a string of CSS stands for.
func unquote(text string) string {
	if len(text) >= 2 && (text[0] == '"' || text[0] == '\'') && text[len(text)-1] == text[0] {
		text = text[1 : len(text)-1]
	}
	return unescape(text)
}
