package cli

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A list beyond the limit is said where the limit is passed, and the rows before it are looked at.
func TestTooManyRowsAreRefused(t *testing.T) {
	dir := t.TempDir()
	var b strings.Builder
	b.WriteString("name,at,size,height,weight\n")
	for i := range 300_000 {
		weight := "2kg"
		if i == 150_000 {
			weight = "2m"
		}
		fmt.Fprintf(&b, "p%d,\"%d, %d\",60 x 60,300,%s\n", i, (i%500)*80-20_000, (i/500)*80+40, weight)
	}
	require.NoError(t, os.WriteFile(filepath.Join(dir, "pieces.csv"), []byte(b.String()), 0o644))
	file := filepath.Join(dir, "hold.markout")
	text := "set \"Hold\"\n\nroom hold\n    outline rect 42m x 60m\n    overhead 4900 turned lengthways\n\ndressing from \"pieces.csv\"\n    in hold\n"
	require.NoError(t, os.WriteFile(file, []byte(text), 0o644))
	_, errOut := runMain(t, exitFailed, "overhead", file, "--format", "csv")
	var said []string
	for _, line := range strings.Split(errOut, "\n") {
		if strings.Contains(line, ": error: ") {
			said = append(said, strings.TrimPrefix(line, dir+string(filepath.Separator)))
		}
	}
	require.Equal(t, []string{
		"pieces.csv:150002:37: error: `weight` wants a weight, and this is a length",
		"pieces.csv:200001:1: error: the set has more than 200000 pieces, copies counted, the limit",
		"pieces.csv:200002:1: error: a list has at most 200000 rows, the limit",
	}, said)
}

// Twice the pieces should cost about twice the time: the table, what is checked, and the sheets.
func BenchmarkOverheadPieces(b *testing.B) {
	out := filepath.Join(b.TempDir(), "out.pdf")
	for _, c := range []struct {
		name string
		args []string
	}{
		{"csv", []string{"overhead", "--format", "csv"}},
		{"check", []string{"check", "--format", "json"}},
		{"pdf", []string{"overhead", "--yes", "-o", out}},
	} {
		for _, n := range []int{1000, 2000, 4000, 8000} {
			file := manyPieces(b, n)
			b.Run(fmt.Sprintf("%s/%d", c.name, n), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					bench(b, append([]string{c.args[0], file}, c.args[1:]...)...)
				}
			})
		}
	}
}
