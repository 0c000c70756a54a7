package cli

import (
	"bytes"
	"encoding/json"

	"markout/layout/caution"
	"markout/layout/set"
	"markout/layout/table"
	"markout/layout/unit"
	rtable "markout/render/table"
	"markout/tiling/sheet"
)

// cuttingJSON is what cutting prints as JSON: the contract's rows under cuts, and what else there is to say.
type cuttingJSON struct {
	Set         string          `json:"set"`
	Issue       string          `json:"issue"`
	Cuts        json.RawMessage `json:"cuts"`
	Blocks      json.RawMessage `json:"blocks"`
	Weights     json.RawMessage `json:"weights"`
	Total       cuttingTotal    `json:"total"`
	NoMaterial  json.RawMessage `json:"no_material"`
	NotTakenOff json.RawMessage `json:"not_taken_off"`
	Cautions    []cautionJSON   `json:"cautions"`
}

type cuttingTotal struct {
	Weight     float64 `json:"weight_kg"`
	AtLeast    bool    `json:"at_least"`
	NotWeighed int     `json:"pieces_not_weighed"`
}

func cuttingAsJSON(s *set.Set, c *sheet.Cutting, cautions []caution.Caution) cuttingJSON {
	kg, unweighed := c.Total()
	out := cuttingJSON{
		Set: s.Name, Issue: s.Letter, Cuts: rowsJSON(c.Table()), Blocks: rowsJSON(c.Stacks()), Weights: rowsJSON(c.WeightTable()),
		Total:      cuttingTotal{unit.Round(kg, 0.1), unweighed > 0, unweighed},
		NoMaterial: rowsJSON(c.Unsaid()), NotTakenOff: rowsJSON(c.NotTaken()), Cautions: []cautionJSON{},
	}
	if s.Trial {
		out.Issue = ""
	}
	for _, k := range cautions {
		p := s.Sources.Position(k.Span)
		out.Cautions = append(out.Cautions, cautionJSON{k.Code, k.Element, p.File, p.Line, p.Column, k.Message, k.Figure, k.Limit, k.Source})
	}
	return out
}

// rowsJSON is a table's rows as objects by contract name; a table that is not there has none.
func rowsJSON(t *table.Table) json.RawMessage {
	if t == nil {
		return json.RawMessage("[]")
	}
	var b bytes.Buffer
	_ = rtable.JSON(&b, t) // a buffer takes everything
	return json.RawMessage(b.Bytes())
}
