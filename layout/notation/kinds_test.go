package notation

// sampleKinds are small tables in the manner of the real ones.
var sampleKinds = withCommon(
	Kind{Word: "set", Head: "TEXT", Attributes: []Attr{
		{Word: "production", Form: "TEXT"},
		{Word: "issue", Form: "RAW", Example: "issue B 2026-11-20"},
		{Word: "units", Form: "mm|cm|m|in|ft", Example: "units mm"},
		{Word: "scale", Form: "RAW"},
		{Word: "card", Form: "CARDS", Example: "card wall 1.5 detail 0.3"},
		{Word: "sides", Form: "stage|house|camera"},
	}},
	Kind{Word: "hall", Named: true, Attributes: []Attr{
		{Word: "outline", Form: "OUTLINE", Example: "outline rect 9000 x 8000"},
		{Word: "pillar", Form: "POINT ( OUTLINE | size SIZE )", Several: true},
		{Word: "station", Form: "NAME POINT", Several: true, Example: "station A -4000, 400"},
		{Word: "tapes", Form: "VALUE [class I|II|III]", Example: "tapes 8m class II"},
	}},
	Kind{Word: "platform", Named: true, Attributes: []Attr{
		{Word: "outline", Form: "OUTLINE", Example: "outline rect 2400 x 1200"},
		{Word: "height", Form: "VALUE", Example: "height 450"},
		{Word: "deck", Form: "VALUE"},
		{Word: "closed", Form: ""},
	}},
	Kind{Word: "steps", Named: true, Attributes: []Attr{
		{Word: "meets", Form: "POINT", Example: "meets deck.front"},
		{Word: "starts", Form: "POINT heading VALUE"},
		{Word: "risers", Form: "VALUE", Example: "risers 3"},
		{Word: "rise", Form: "VALUE"},
		{Word: "rises", Form: "LIST", Example: "rises 140 165 150"},
		{Word: "going", Form: "VALUE"},
		{Word: "goings", Form: "LIST"},
		{Word: "widths", Form: "LIST"},
		{Word: "width", Form: "VALUE"},
		{Word: "landing", Form: "after VALUE depth VALUE", Several: true, Example: "landing after 5 depth 1100"},
		{Word: "along", Form: "PATH|REF inner|centre|outer"},
		{Word: "built", Form: "flight|blocks", Example: "built flight"},
	}},
	Kind{Word: "post", Named: true, Attributes: []Attr{
		{Word: "diameter", Form: "VALUE", Example: "diameter 60"},
		{Word: "height", Form: "VALUE", Example: "height 700"},
	}},
	Kind{Word: "ring", Named: true, Attributes: []Attr{
		{Word: "outer", Form: "OUTLINE|VALUE", Example: "outer 5200"},
		{Word: "inner", Form: "OUTLINE|VALUE", Example: "inner 4900"},
		{Word: "height", Form: "VALUE", Example: "height 700"},
	}},
	Kind{Word: "flat", Named: true, Attributes: []Attr{
		{Word: "from", Form: "POINT to POINT", Example: "from 0,0 to 2400,0"},
		{Word: "height", Form: "VALUE"},
		{Word: "face", Form: "left"},
		{Word: "opening", Form: "door|window|arch|hole [NAME] at VALUE size SIZE", Several: true, Example: "opening door at 600 size 800 x 2000", Sub: []Attr{
			{Word: "sill", Form: "VALUE", Example: "sill 900"},
			{Word: "arch", Form: "VALUE"},
			{Word: "hinge", Form: "left|right opens up|down", Example: "hinge left opens up"},
		}},
	}},
	Kind{Word: "mark", Named: true, Attributes: []Attr{
		{Word: "point", Form: "POINTS", Example: "point deck.centre"},
		{Word: "path", Form: "PATH", Example: "path 0,0 line 1200,0"},
		{Word: "dashed", Form: ""},
	}},
	Kind{Word: "figure", Named: true, Attributes: []Attr{
		{Word: "artwork", Form: "TEXT", Example: `artwork "pilot.svg"`},
		{Word: "height", Form: "VALUE", Example: "height 1780"},
	}},
	Kind{Word: "walk", Named: true, Attributes: []Attr{
		{Word: "over", Form: "NAMES"},
		{Word: "within", Form: "VALUE"},
	}},
	Kind{Word: "cloth", Named: true, Attributes: []Attr{
		{Word: "allow", Form: "{ top VALUE | bottom VALUE | sides VALUE }"},
		{Word: "grid", Form: "VALUE [fine VALUE] [in POINT size SIZE]"},
		{Word: "span", Form: "from VALUE VALUE [twice]"},
	}},
)

func withCommon(kinds ...Kind) []Kind {
	common := []Attr{
		{Word: "at", Form: "POINT", Example: "at 0, 3600"},
		{Word: "turn", Form: "VALUE", Example: "turn 30deg"},
		{Word: "level", Form: "VALUE", Example: "level 450"},
		{Word: "in", Form: "REF"},
		{Word: "on", Form: "REF [at POINT|VALUE [level VALUE]]", Example: "on deck"},
		{Word: "repeat", Form: "VALUE ( around POINT radius VALUE [from VALUE] [facing out|in|same] | along PATH|REF [every VALUE] | by PAIR )",
			Example: "repeat 12 around 0, 3600 radius 4200 from 15deg"},
		{Word: "except", Form: "NUMBERS"},
		{Word: "shift", Form: "NUMBERS by PAIR | LIST", Several: true},
		{Word: "also", Form: "TEXT [at POINT] [turn VALUE] [level VALUE]", Several: true, Example: `also "scene 2" at 1200, 3000`},
		{Word: "of", Form: "TEXT"},
		{Word: "note", Form: "TEXT", Several: true, Example: `note "screwed from below"`},
		{Word: "full-size", Form: "floor|face|side { floor|face|side }", Example: "full-size floor"},
		{Word: "model", Form: "no|rod|tube|NAME"},
	}
	for i := range kinds {
		if kinds[i].Named {
			kinds[i].Attributes = append(kinds[i].Attributes, common...)
		}
	}
	return kinds
}
