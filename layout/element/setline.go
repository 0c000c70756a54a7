package element

import (
	"regexp"
	"strconv"
	"strings"

	"markout/layout/diag"
	"markout/layout/notation"
	"markout/layout/set"
	"markout/layout/unit"
)

var setTable = &notation.Kind{
	Word: "set", Head: "TEXT",
	Doc: "What the whole is: one statement, in the main file. Its words stand in the title block of every sheet (ISO 7200).",
	Example: `set "Quayside kiosk"
    production "Low Tide"
    issue      B 2026-11-20
    units      mm
    scale      1:25
    card       wall 1.5 detail 0.3
`,
	Attributes: []notation.Attr{
		{Word: "production", Form: "TEXT", Example: `production "Low Tide"`, Doc: "The production it belongs to."},
		{Word: "issue", Form: "RAW", Example: "issue B 2026-11-20", Doc: "The issue's letter and its date. Letters skip I and O, and go on AA, AB. Without it the set is a trial."},
		{Word: "units", Form: "mm|cm|m|in|ft", Example: "units mm", Doc: "The unit of bare numbers; mm unless said."},
		{Word: "scale", Form: "RAW", Example: "scale 1:25", Doc: "The scale of the card model: `1:25`, or `1/4\" = 1'-0\"`."},
		{Word: "card", Form: "CARDS", Example: "card wall 1.5 detail 0.3", Doc: "The cards of the model by name, with their thickness."},
		{Word: "sides", Form: "stage|house|camera", Example: "sides stage", Doc: "How left and right are named: plan-right is stage left, house right or camera right; stage unless said."},
		{Word: "drawn", Form: "TEXT", Example: `drawn "A. Rowe"`, Doc: "Who drew it."},
		{Word: "checked", Form: "TEXT", Example: `checked "M. Quist"`, Doc: "Who checked it."},
		{Word: "approved", Form: "TEXT", Example: `approved "L. Adeyo"`, Doc: "Who approved it."},
		{Word: "number", Form: "TEXT", Example: `number "LT-014"`, Doc: "Its number in the production's list."},
		{Word: "owner", Form: "TEXT", Example: `owner "Low Tide"`, Doc: "Whose drawings these are."},
	},
}

// setLine finds the one `set` and reads it. The unit is read first: all bare numbers hang on it.
func (sc *scene) setLine(out *set.Set, statements []*notation.Statement, opt Options) {
	var st *notation.Statement
	for _, s := range statements {
		if s.Word != "set" {
			continue
		}
		if st != nil {
			sc.list.Errorf(s.WordSpan, "there is one `set`, and the first is at %s", sc.list.Sources.Position(st.WordSpan))
			continue
		}
		st = s
	}
	if st == nil {
		sc.date(out, opt)
		return
	}
	out.Span = st.Span
	if name := text(st.Args.Get("")); name != "" {
		out.Name = name
	}
	lines := map[string]*notation.Attribute{}
	for _, a := range st.Attributes {
		if len(a.Args) > 0 {
			lines[a.Word] = a
		}
	}
	first := func(word string) notation.Node {
		if a := lines[word]; a != nil {
			return a.Args[0].Value
		}
		return nil
	}
	if u, ok := unit.ParseSystem(word(first("units"))); ok {
		out.Units, sc.ev.Units = u, u
	}
	for word, to := range map[string]*string{
		"production": &out.Production, "drawn": &out.Title.Drawn, "checked": &out.Title.Checked,
		"approved": &out.Title.Approved, "number": &out.Title.Number, "owner": &out.Title.Owner,
	} {
		*to = text(first(word))
	}
	if w := word(first("sides")); w != "" {
		out.Sides = w
	}
	if raw, ok := first("issue").(*notation.Raw); ok {
		sc.issue(out, raw)
	}
	if raw, ok := first("scale").(*notation.Raw); ok {
		sc.scale(out, raw)
	}
	if list, ok := first("card").(*notation.List); ok {
		sc.cards(out, list)
	}
	sc.date(out, opt)
}

var letters = regexp.MustCompile(`^[A-HJ-NP-Z]{1,2}$`)

// issue reads LETTER DATE.
func (sc *scene) issue(out *set.Set, raw *notation.Raw) {
	const written = "write `issue B 2026-11-20`"
	parts := strings.Fields(raw.Value)
	if len(parts) != 2 {
		sc.list.Hintf(raw.Span, "an issue has a letter and a date", written)
		return
	}
	if !letters.MatchString(parts[0]) {
		message := "`" + parts[0] + "` is no issue letter"
		hint := written
		if strings.ContainsAny(parts[0], "IO") && strings.Trim(parts[0], "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == "" {
			hint = "letters skip I and O, which read as figures"
		} else if up := strings.ToUpper(parts[0]); letters.MatchString(up) {
			hint = "write `issue " + up + " " + parts[1] + "`"
		}
		sc.list.Hintf(raw.Span, message, "%s", hint)
		return
	}
	if why := badDate(parts[1]); why != "" {
		sc.list.Hintf(raw.Span, why, written)
		return
	}
	out.Letter, out.Date, out.Trial = parts[0], parts[1], false
}

// date puts the date asked for in place of the issue line's.
func (sc *scene) date(out *set.Set, opt Options) {
	if opt.Date == "" {
		return
	}
	if why := badDate(opt.Date); why != "" {
		sc.list.Errorf(diag.Span{}, "--date %s: %s", opt.Date, why)
		return
	}
	out.Date = opt.Date
}

var dateForm = regexp.MustCompile(`^(\d{4})-(\d\d)-(\d\d)$`)

// badDate says what is wrong with a date of the form 2026-11-20 (ISO 8601), empty for nothing.
func badDate(s string) string {
	m := dateForm.FindStringSubmatch(s)
	if m == nil {
		return "a date is written year-month-day, as 2026-11-20"
	}
	y, _ := strconv.Atoi(m[1])
	month, _ := strconv.Atoi(m[2])
	d, _ := strconv.Atoi(m[3])
	days := [...]int{31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31}
	if month < 1 || month > 12 {
		return "there is no month " + m[2]
	}
	most := days[month-1]
	if month == 2 && y%4 == 0 && (y%100 != 0 || y%400 == 0) {
		most++
	}
	if d < 1 || d > most {
		return "that month has no day " + m[3]
	}
	return ""
}

func (sc *scene) scale(out *set.Set, raw *notation.Raw) {
	s, err := unit.ParseScale(raw.Value)
	if err != nil {
		bad, ok := err.(*unit.ScanError)
		if !ok {
			sc.list.Errorf(raw.Span, "%s", err)
			return
		}
		at := raw.Span
		if strings.Join(strings.Fields(sc.words(raw.Span)), " ") == sc.words(raw.Span) && bad.Offset+bad.Length <= len(raw.Value) {
			at.From = min(at.From+int32(bad.Offset), at.To-1)
			at.To = min(at.From+int32(max(bad.Length, 1)), at.To)
		}
		sc.list.Add(diag.Diagnostic{Span: at, Message: bad.Message, Hint: bad.Hint})
		return
	}
	out.Scale, out.ScaleText = s.Denominator, s.Words
}

// cards reads card names with their thicknesses; a name may be left out once.
func (sc *scene) cards(out *set.Set, list *notation.List) {
	name, at := "", list.Span
	for _, item := range list.Items {
		if w, ok := item.(*notation.Word); ok {
			name, at = w.Value, w.Span
			continue
		}
		if at == list.Span {
			at = item.Pos()
		}
		t, ok := sc.ev.Small(item, "card")
		for _, c := range out.Cards {
			if c.Name == name {
				sc.list.Errorf(at, "two cards are called `%s`", name)
				ok = false
			}
		}
		if ok {
			out.Cards = append(out.Cards, set.Card{Name: name, Thickness: t})
		}
		name, at = "", list.Span
	}
}
