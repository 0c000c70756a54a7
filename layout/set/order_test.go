package set

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestInOrder(t *testing.T) {
	for _, c := range []struct{ earlier, now, want string }{
		{"a b c", "c a b", "a b c"},
		{"a b c", "c x a b", "a b c x"},
		{"a b c", "x a b y c", "x a b y c"},
		{"a b c", "a c", "a c"},
		{"a b c", "c a beta", "a beta c"}, // b is called otherwise
		{"", "b a", "b a"},
		{"a b", "b y a x a", "a a x b y"},
	} {
		s := &Set{}
		for _, n := range strings.Fields(c.now) {
			s.Elements = append(s.Elements, &Element{Name: n})
		}
		got := s.InOrder(Order{Elements: strings.Fields(c.earlier)}, map[string]string{"beta": "b"})
		require.Equal(t, c.want, strings.Join(got.Order().Elements, " "), "%q after %q", c.now, c.earlier)
		require.Equal(t, c.now, strings.Join(s.Order().Elements, " "))
	}
}
