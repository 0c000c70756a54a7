package artwork

import (
	"fmt"
	"strings"
	"testing"

	"markout/layout/diag"
)

// BenchmarkReadSVG reads a drawing of 20 000 outlines with classes, 4 MB.
func BenchmarkReadSVG(b *testing.B) {
	var s strings.Builder
	s.WriteString(head + "<style>.a{fill:#123}.b{stroke:#456;stroke-width:.5}</style>")
	for i := range 20_000 {
		fmt.Fprintf(&s, `<path class="a b" d="M%d %d`, i%100, i/200)
		for k := range 10 {
			fmt.Fprintf(&s, "c1.25 %d 2-.5 3.125 1", k)
		}
		s.WriteString("z\"/>\n")
	}
	s.WriteString("</svg>")
	data := []byte(s.String())
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		list := &diag.List{Sources: &diag.Sources{}}
		if _, ok := ReadSVG(list, list.Sources.Add("a.svg", data)); !ok {
			b.Fatal(list.Sorted())
		}
	}
}
