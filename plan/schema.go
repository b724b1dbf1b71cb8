package plan

import (
	"bytes"
	"encoding/json"

	"ellwand/cloth"
	"ellwand/garment"
)

// object is a JSON object of the schema.
type object map[string]any

// Schema is the JSON Schema (draft 2020-12) of the plan file, made from the
// same table of keys that reads it, for editors that complete and check YAML.
func Schema() ([]byte, error) {
	p := blank()
	var y cloth.Yarn
	yarn, fibre := yarnKeys(&y)
	spec := &PieceSpec{Dims: map[string]float64{}}
	top := mapping(topKeys(p))
	props := top["properties"].(object)
	props["ellwand"] = object{"const": Version, "description": "version of the plan file"}
	for _, s := range sections()[1:] {
		props[s.name] = mapping(s.keys(p))
	}
	props["garment"] = garmentSchema(p)
	props["pieces"] = listOf(with(mapping(append(pieceKeys(spec), dimKeys(spec)...)), object{
		"points": object{"type": "array", "items": object{"type": "array", "items": object{"type": "number"}, "minItems": 2, "maxItems": 2}},
		"edges":  object{"type": "object", "additionalProperties": edgeSchema()},
	}))
	seam := blankSeam()
	props["seams"] = listOf(mapping(seamKeys(&seam)))
	props["yarns"] = listOf(with(with(mapping(yarn), object{"fibre": mapping(fibre), "blend": listOf(mapping(partKeys(&cloth.FibrePart{})))}), threadSchema(&y)))
	props["fleeces"] = listOf(lotSchema())
	props["dyes"] = listOf(mapping(dyeKeys(&cloth.Dye{})))
	props["hours"] = hoursSchema()
	props["choices"] = listOf(mapping(choiceKeys(&Choice{})))
	props["samples"] = listOf(mapping(sampleKeys(&cloth.Sample{})))
	props["log"] = logSchema()
	props["real_cloth"] = realClothSchema()
	props["match"] = listOf(mapping(matchKeys(&MatchSpec{})))
	props["lay"] = with(mapping(layKeys(&SavedLay{})), object{"placements": listOf(mapping(placementKeys(&SavedPlacement{})))})
	top["$schema"] = "https://json-schema.org/draft/2020-12/schema"
	top["title"] = "Ellwand plan"
	top["required"] = []string{"ellwand", "cloth", "loom"}

	var buf bytes.Buffer
	e := json.NewEncoder(&buf)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	err := e.Encode(top)
	return buf.Bytes(), err
}

// garmentSchema allows what any of the drafts has; the loader is stricter.
func garmentSchema(p *Plan) object {
	ease, options := object{}, object{}
	for _, d := range garment.Drafts() {
		for _, k := range paramKeys(p, d.Ease) {
			ease[k.name] = object{"type": "number", "description": k.label}
		}
		for _, k := range paramKeys(p, d.Options) {
			options[k.name] = object{"type": "number", "description": k.label}
		}
	}
	closed := func(props object) object {
		return object{"type": "object", "additionalProperties": false, "properties": props}
	}
	return closed(object{"draft": object{"enum": draftKey(p).choices}, "ease": closed(ease), "options": closed(options)})
}

func edgeSchema() object {
	return object{"type": "object", "additionalProperties": false, "properties": object{
		"finish":       object{"enum": garment.Finishes()},
		"allowance_cm": object{"type": "number", "minimum": 0, "maximum": 20},
	}}
}

func listOf(items object) object {
	return object{"type": "array", "items": items, "maxItems": maxItems}
}

func with(m, more object) object {
	props := m["properties"].(object)
	for name, s := range more {
		props[name] = s
	}
	return m
}

// mapping is the schema of a mapping of simple keys.
func mapping(keys []key) object {
	props, required := object{}, []string{}
	for _, k := range keys {
		props[k.name] = k.schema()
		if k.required {
			required = append(required, k.name)
		}
	}
	m := object{"type": "object", "additionalProperties": false, "properties": props}
	if len(required) > 0 {
		m["required"] = required
	}
	return m
}

func (k key) schema() object {
	s := object{"description": k.label + ": " + k.accepted}
	number := object{"type": "number", "minimum": k.min, "maximum": k.max}
	switch {
	case k.own != nil:
		for name, v := range k.own {
			s[name] = v
		}
	case k.kind == kindText && len(k.choices) > 0:
		s["enum"] = k.choices
	case k.kind == kindText:
		s["type"] = []string{"string", "number", "boolean", "null"}
	case k.kind == kindYesNo:
		s["type"] = "boolean"
	case k.kind == kindNumbers:
		s["type"], s["items"], s["maxItems"] = "array", number, maxList
	case k.kind == kindTexts:
		s["type"], s["items"], s["maxItems"] = "array", object{"type": []string{"string", "number", "boolean"}}, maxItems
	case k.kind == kindRate:
		s["oneOf"] = []object{number, {"type": "array", "items": number, "minItems": 3, "maxItems": 3}}
	case k.kind == kindInteger:
		s["type"], s["minimum"], s["maximum"] = "integer", k.min, k.max
	default:
		s["type"], s["minimum"], s["maximum"] = "number", k.min, k.max
	}
	return s
}
