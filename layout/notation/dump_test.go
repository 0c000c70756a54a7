package notation

import (
	"fmt"
	"strings"
)

// dump writes a tree so that a table of tests can state it.
func dump(n Node) string {
	switch n := n.(type) {
	case *Quantity:
		return fmt.Sprintf("%g%s", n.Value.X, [...]string{"", "mm", "°", "slope", "kg", "", "kg/m3", "px"}[n.Value.Kind])
	case *Ref:
		s := n.Name
		if n.Copy > 0 {
			s += fmt.Sprintf("#%d", n.Copy)
		}
		for _, a := range n.Asks {
			s += "." + a.Word
			if a.Argument != nil {
				s += "(" + dump(a.Argument) + ")"
			}
		}
		return s
	case *Unary:
		return "-" + dump(n.X)
	case *Binary:
		return "{" + dump(n.X) + string(n.Op) + dump(n.Y) + "}"
	case *Paren:
		return "(" + dump(n.X) + ")"
	case *Pair:
		return dump(n.X) + "," + dump(n.Y)
	case *Taped:
		return fmt.Sprintf("tape[%s %s %s %s %s]", dump(n.A), dump(n.DA), dump(n.B), dump(n.DB), n.Side)
	case *Size:
		return dumpAll(n.Values, " x ")
	case *List:
		s := "[" + dumpAll(n.Items, " ")
		if n.By != nil {
			s += " by " + dump(n.By)
		}
		return s + "]"
	case *Floats:
		return fmt.Sprintf("floats%v", n.X)
	case *Outline:
		s := n.Word + " " + dumpArgs(n.Args)
		if n.Path != nil {
			s += dump(n.Path)
		}
		return s
	case *Path:
		s := dump(n.Start)
		for _, st := range n.Steps {
			s += " " + st.Word + " " + dumpAll(st.Points, " ")
			if st.Radius != nil {
				s += fmt.Sprintf(" r%s left=%t right=%t long=%t", dump(st.Radius), st.Left, st.Right, st.Long)
			}
			if st.Via != nil {
				s += " via " + dump(st.Via)
			}
			if st.C1 != nil {
				s += " c " + dump(st.C1) + " " + dump(st.C2)
			}
		}
		if n.Close {
			s += " close"
		}
		return s
	case *Text:
		return fmt.Sprintf("%q", n.Value)
	case *Word:
		return "'" + n.Value
	case *Raw:
		return "<" + n.Value + ">"
	case nil:
		return "nil"
	}
	return fmt.Sprintf("%T", n)
}

func dumpAll(nodes []Node, between string) string {
	var out []string
	for _, n := range nodes {
		out = append(out, dump(n))
	}
	return strings.Join(out, between)
}

func dumpArgs(args Args) string {
	var out []string
	for _, a := range args {
		s := dump(a.Value)
		if a.Key != "" {
			s = a.Key + "=" + s
		}
		out = append(out, s)
	}
	return strings.Join(out, " ; ")
}
