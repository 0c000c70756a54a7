package cli

import (
	"encoding/json"
	"fmt"
	"io"
	"math"
	"os"
	"path/filepath"
	"runtime"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Whole commands, from the text to the files, in the benchmark's own process.

func BenchmarkIssueKiosk(b *testing.B) {
	b.ReportAllocs()
	parent := b.TempDir()
	for i := 0; b.Loop(); i++ {
		bench(b, "issue", kiosk, "--yes", "-o", filepath.Join(parent, strconv.Itoa(i)))
	}
}

func BenchmarkTemplateRings(b *testing.B) {
	file := writeSet(b, ringFloor(20, 12, 400))
	out := filepath.Join(b.TempDir(), "out.pdf")
	for _, paper := range []string{"A3", "A4"} {
		b.Run(paper, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				bench(b, "template", file, "--paper", paper, "--yes", "-o", out)
			}
			info, err := os.Stat(out)
			require.NoError(b, err)
			b.ReportMetric(float64(info.Size())/float64(sheets(b, file, "--paper", paper)), "bytes/page")
		})
	}
}

// Twice the elements should cost about twice the time. Every tenth element is wanted full size where paper is made.
func BenchmarkScaling(b *testing.B) {
	folder := b.TempDir()
	out := filepath.Join(folder, "out.pdf")
	commands := []struct {
		name string
		full int // every how manieth element is wanted full size; 0 for none
		args []string
	}{
		{"check", 0, []string{"check"}},
		{"tape", 0, []string{"floor", "--format", "csv"}},
		{"floor", 0, []string{"floor", "--yes", "-o", out}},
		{"template", 10, []string{"template", "--paper", "A3", "--yes", "-o", out}},
	}
	for _, c := range commands {
		for _, n := range []int{5000, 10000, 20000} {
			file := writeSet(b, field(n, c.full))
			b.Run(fmt.Sprintf("%s/elements=%d", c.name, n), func(b *testing.B) {
				for b.Loop() {
					bench(b, append(c.args, file)...)
				}
				b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*n), "µs/element")
			})
		}
	}
	for _, n := range []int{500, 1000, 2000} {
		file := writeSet(b, field(n, 10))
		b.Run(fmt.Sprintf("issue/elements=%d", n), func(b *testing.B) {
			parent := b.TempDir()
			for i := 0; b.Loop(); i++ {
				bench(b, "issue", file, "--yes", "-o", filepath.Join(parent, strconv.Itoa(i)))
			}
			b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*n), "µs/element")
		})
	}
}

// What more workers save of the time on the clock.
func BenchmarkWorkers(b *testing.B) {
	file := writeSet(b, ringFloor(20, 12, 400))
	out := filepath.Join(b.TempDir(), "out.pdf")
	for _, n := range []int{1, 2, 4} {
		b.Run(fmt.Sprintf("workers=%d", n), func(b *testing.B) {
			defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(n))
			for b.Loop() {
				bench(b, "template", file, "--paper", "A3", "--yes", "-o", out)
			}
		})
	}
}

// bench runs a command and lets go of what it prints.
func bench(tb testing.TB, args ...string) {
	var complaints strings.Builder
	code := Main(args, Streams{In: strings.NewReader(""), Out: io.Discard, Err: &complaints})
	if code != exitOK {
		tb.Fatalf("markout %s: exit code %d\n%s", strings.Join(args, " "), code, complaints.String())
	}
}

// sheets returns how many pages of full-size paper a set makes, without the cover.
func sheets(tb testing.TB, file string, args ...string) int {
	var o, e strings.Builder
	args = append([]string{"template", file, "--yes", "--format", "json"}, args...)
	require.Equal(tb, exitOK, Main(args, Streams{In: strings.NewReader(""), Out: &o, Err: &e}), e.String())
	var t templatePages
	require.NoError(tb, json.Unmarshal([]byte(o.String()), &t))
	return len(t.Pages)
}

func writeSet(tb testing.TB, text string) string {
	name := filepath.Join(tb.TempDir(), "field.markout")
	require.NoError(tb, os.WriteFile(name, []byte(text), 0o644))
	return name
}

func head(title string) string {
	return "set \"" + title + "\"\n    production \"Low Tide\"\n    issue B 2026-11-20\n    units mm\n"
}

// ringFloor is a floor of n fixed rings of 64 corners, radius 300 to 900, on width by depth metres, all wanted full size.
// Places come from a linear congruence with Knuth's 64-bit multiplier (MMIX), its upper bits.
func ringFloor(width, depth, n int) string {
	w, h := width*1000, depth*1000
	var b strings.Builder
	b.WriteString(head("Rings"))
	fmt.Fprintf(&b, "\nhall floor\n    outline rect %d x %d\n    at 0, %d\n", w, h, h/2)
	state := uint64(20261120)
	draw := func() int {
		state = state*6364136223846793005 + 1442695040888963407
		return int(state >> 33)
	}
	for i := range n {
		r := 300 + draw()%601
		x := r + draw()%(w-2*r+1)
		y := r + draw()%(h-2*r+1)
		fmt.Fprintf(&b, "\nring r%d\n    at %g, %d\n    outer points", i+1, float64(x)-float64(w)/2, y)
		for k := range 64 {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / 64)
			fmt.Fprintf(&b, "  %.3f,%.3f", float64(r)*cos, float64(r)*sin)
		}
		b.WriteString("\n    height 100\n    full-size floor\n")
	}
	return b.String()
}

// field is n platforms, posts, steps and flats by turns, each alone in a square of 3 m, laid row by row in a hall as wide
// as it is deep. One in every `full` is wanted full size; 0 for none.
func field(n, full int) string {
	const pitch = 3000
	side := int(math.Ceil(math.Sqrt(float64(n))))
	half := side * pitch / 2
	var b strings.Builder
	b.WriteString(head("Field"))
	fmt.Fprintf(&b, "\nhall field\n    outline rect %d x %d\n    at 0, %d\n    station A %d, %d\n    station B %d, %d\n",
		2*half, 2*half, half, -half, -half, half, -half)
	for i := range n {
		x, y := i%side*pitch-half+pitch/2, i/side*pitch+pitch/2
		switch i % 4 {
		case 0:
			fmt.Fprintf(&b, "\nplatform p%d\n    at %d, %d\n    outline rect 2000 x 1000\n    height 450\n", i, x, y)
		case 1:
			fmt.Fprintf(&b, "\npost q%d\n    at %d, %d\n    diameter 89\n    height 2400\n", i, x, y)
		case 2:
			fmt.Fprintf(&b, "\nsteps s%d\n    starts %d, %d heading 90deg\n    risers 3\n    rise 150\n    going 300\n    width 900\n", i, x, y)
		case 3:
			fmt.Fprintf(&b, "\nflat f%d\n    from %d, %d to %d, %d\n    height 2400\n    thickness 44\n", i, x-600, y, x+600, y)
		}
		if full > 0 && i%full == 0 {
			b.WriteString("    full-size floor\n")
		}
	}
	return b.String()
}
