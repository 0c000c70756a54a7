package changes_test

import (
	"fmt"
	"math/rand/v2"
	"reflect"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"markout/layout/changes"
	"markout/layout/set"
)

// statements takes a yard apart.
func statements(text string) (head string, parts []string) {
	head = text[:len(yard)]
	for _, line := range strings.SplitAfter(text[len(yard):], "\n") {
		switch {
		case line == "":
		case line[0] == ' ':
			parts[len(parts)-1] += line
		default:
			parts = append(parts, line)
		}
	}
	return head, parts
}

// A set in another order with comments between is the same; one name that is another is all that is told.
func TestElementsInAnotherOrder(t *testing.T) {
	r := rand.New(rand.NewPCG(61, 62))
	for range 200 {
		text := yardOf(r, 1+r.IntN(8))
		a := open(t, text)
		head, parts := statements(text)
		r.Shuffle(len(parts), func(i, j int) { parts[i], parts[j] = parts[j], parts[i] })
		require.Empty(t, changes.Elements(a, open(t, head+strings.Join(parts, "# as before\n"))), text)
		i := r.IntN(len(parts))
		was := strings.Fields(parts[i])[1]
		parts[i] = strings.Replace(parts[i], was, "other", 1)
		require.Equal(t, []string{"other: renamed from " + was}, said(changes.Elements(a, open(t, head+strings.Join(parts, "")))), text)
	}
}

// What is told of two sets is what differs between them: no element of one name and all else the same is told of, none that differs is
// not, and the way back tells of the same.
func TestElementsTellWhatDiffers(t *testing.T) {
	r := rand.New(rand.NewPCG(63, 64))
	for range 300 {
		n := 1 + r.IntN(6)
		x, y := yardOf(r, n), yardOf(r, n)
		a, b := open(t, x), open(t, y)
		there, back := map[string]string{}, map[string]string{}
		was := map[string]string{}
		for _, e := range changes.Elements(a, b) {
			there[e.Name] = e.Change
			require.NotContains(t, e.String(), "−")
			require.NotContains(t, e.String(), " -")
			if name, ok := strings.CutPrefix(e.Words, "renamed from "); ok {
				was[e.Name], _, _ = strings.Cut(name, ",")
			}
		}
		for _, e := range changes.Elements(b, a) {
			back[e.Name] = e.Change
		}
		for _, e := range b.Elements {
			o := a.Find(e.Name)
			switch there[e.Name] {
			case "":
				require.NotNil(t, o)
				require.True(t, reflect.DeepEqual(bare(o), bare(e)), "%s\n%s\n---\n%s", e.Name, x, y)
				require.Empty(t, back[e.Name])
			case "added":
				require.Nil(t, o)
				require.Equal(t, "removed", back[e.Name])
			case "renamed":
				require.Nil(t, o)
				require.Equal(t, "renamed", back[was[e.Name]])
			default:
				require.NotNil(t, o)
				require.False(t, reflect.DeepEqual(bare(o), bare(e)), "%s\n%s\n---\n%s", e.Name, x, y)
				require.Equal(t, there[e.Name], back[e.Name])
			}
		}
		require.Equal(t, count(there), count(swapped(back)))
	}
}

func count(told map[string]string) map[string]int {
	out := map[string]int{}
	for _, c := range told {
		out[c]++
	}
	return out
}

func swapped(told map[string]string) map[string]string {
	out := map[string]string{}
	for name, c := range told {
		switch c {
		case "added":
			c = "removed"
		case "removed":
			c = "added"
		}
		out[name] = c
	}
	return out
}

// Every change of one place or size by more than the tolerance is told, and none by less, however it is rounded for people.
func TestElementsTellHairs(t *testing.T) {
	at := func(x, w float64) *set.Set {
		return open(t, fmt.Sprintf("set \"Yard\"\nplatform deck\n    outline rect %.10f x 900\n    at %.10f, 0\n    height 450\n", w, x))
	}
	a := at(1000.1234567, 2000.7654321)
	for by := 1e-2; by > 2e-6; by /= 3 {
		require.Len(t, changes.Elements(a, at(1000.1234567+by, 2000.7654321)), 1, by)
		require.Len(t, changes.Elements(a, at(1000.1234567, 2000.7654321+2*by)), 1, by)
	}
	require.Empty(t, changes.Elements(a, at(1000.1234567+5e-7, 2000.7654321-5e-7)))
}

func BenchmarkElements300(b *testing.B) {
	old, new := manyChanged(b)
	for b.Loop() {
		if len(changes.Elements(old, new)) != 1 {
			b.Fatal("one moves")
		}
	}
}

// All of them are called otherwise.
func BenchmarkElementsRenamed300(b *testing.B) {
	text := many(300)
	old, new := open(b, text), open(b, strings.ReplaceAll(text, "platform p", "platform q"))
	for b.Loop() {
		if len(changes.Elements(old, new)) != 300 {
			b.Fatal("each is called otherwise")
		}
	}
}
