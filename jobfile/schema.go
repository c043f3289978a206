package jobfile

import (
	"encoding/json"
	"maps"
	"slices"

	"bowerwright/job"
)

// An object is a JSON object; encoding/json sorts its keys.
type object = map[string]any

// ref points to one of defs.
func ref(name string) object { return object{"$ref": "#/$defs/" + name} }

func listOf(item object) object { return object{"type": "array", "items": item} }

// whole is a whole number.
func whole(low, high int) object {
	return object{"type": "integer", "minimum": low, "maximum": high}
}

// defs are the kinds of value. The schema cannot tell a good length from a bad
// one in every case; the program does.
var defs = object{
	"text":   object{"type": []string{"string", "number", "boolean"}},
	"length": object{"type": []string{"string", "number"}, "pattern": `^[^,;]`, "description": "10 3/8 in, 10-3/8\", 5' 6 1/2\", 264 mm, 26.4 cm; a bare number only when unit is given"},
	"price":  object{"type": []string{"string", "number"}, "description": "$4.49, 4.49 USD"},
	"angle":  object{"type": []string{"string", "number"}, "description": "degrees: 22.5"},
	"angles": object{"type": []string{"string", "number"}, "description": "50 left, 60 right"},
	"pair":   object{"type": "string", "description": "two values: x, y or width x thickness"},
	"date":   object{"type": "string", "pattern": `^[0-9]{4}-[0-9]{2}-[0-9]{2}$`},
	"switch": object{"enum": []any{true, false, "yes", "no", "true", "false", "on", "off", "Yes", "No", "YES", "NO", "On", "Off", "ON", "OFF"}},
}

const schemaBase = "https://json-schema.org/draft/2020-12/schema"

// Schema is the JSON Schema of job files, as bytes that end in a line end.
func Schema() []byte {
	return marshal(fileSchema("bowerwright job file", jobHeader, false))
}

// ShopSchema is the JSON Schema of shop files.
func ShopSchema() []byte {
	return marshal(fileSchema("bowerwright shop file", shopHeader, true))
}

// CutListSchema is the JSON Schema of bare cut lists in YAML.
func CutListSchema() []byte {
	return marshal(headedSchema("bowerwright cut list", listHeader, describe("", listTable(nil)).fields))
}

// ProgressSchema is the JSON Schema of files that tell what is sawn.
func ProgressSchema() []byte {
	return marshal(headedSchema("bowerwright progress", progressHeader, describe("", progressTable(nil)).fields))
}

func fileSchema(title, header string, shop bool) object {
	var rows []info
	for _, f := range jobTable {
		if !(shop && f.JobOnly) {
			i := f.info
			i.Need = i.Need && !shop
			rows = append(rows, i)
		}
	}
	return headedSchema(title, header, rows)
}

// headedSchema is that of a file with these fields below its header.
func headedSchema(title, header string, rows []info) object {
	s := groupSchema(&section{fields: rows})
	props := s["properties"].(object)
	props[header] = object{"const": Version, "description": "What this file is, and its version; always the first line."}
	required, _ := s["required"].([]string)
	s["required"] = append([]string{header}, required...)
	s["$schema"], s["title"] = schemaBase, title
	s["description"] = "Made from the table of fields that the reader uses."
	s["$defs"] = defs
	return s
}

// groupSchema is the schema of a group of fields.
func groupSchema(s *section) object {
	props, required := object{}, []string(nil)
	for _, i := range s.fields {
		props[i.Key] = i.schema()
		if i.Need {
			required = append(required, i.Key)
		}
	}
	out := object{"type": "object", "properties": props, "additionalProperties": false}
	if required != nil {
		out["required"] = required
	}
	if s.name == "frames" {
		return frameSchema(out)
	}
	return out
}

// schema is that of a field's value, with its sentence.
func (i info) schema() object {
	var s object
	switch k := i.kind; {
	case k.sub == nil:
		s = maps.Clone(k.schema)
	case k.ways:
		s = object{"type": "object", "additionalProperties": object{"anyOf": []any{object{"enum": []string{nothing}}, object{"type": "object", "additionalProperties": groupSchema(k.sub)}}}}
	case k.named:
		s = object{"type": "object", "additionalProperties": groupSchema(k.sub)}
	case k.form == list:
		s = listOf(groupSchema(k.sub))
	default:
		s = groupSchema(k.sub)
	}
	s["description"] = i.Doc
	return s
}

// frameSchema adds, for each shape, which measures go with it.
func frameSchema(common object) object {
	delete(common, "additionalProperties") // unevaluatedProperties sees into allOf
	var all []any
	for _, d := range job.Shapes {
		names := append([]string{d.Name}, d.Also...)
		all = append(all, object{
			"if":   object{"properties": object{"shape": object{"enum": names}}, "required": []string{"shape"}},
			"then": shapeSchema(d),
		})
	}
	common["allOf"] = all
	common["unevaluatedProperties"] = false
	return common
}

func shapeSchema(d job.ShapeDef) object {
	props := object{}
	for _, f := range measureFields(d) {
		props[f.Key] = f.schema()
	}
	out := object{"properties": props}
	if len(d.Need) > 0 {
		out["required"] = d.Need
	}
	var groups []any
	for _, g := range d.OneOf {
		groups = append(groups, object{"required": g, "not": othersOf(d, g)})
	}
	if groups != nil {
		out["oneOf"] = groups
	}
	return out
}

// othersOf matches when any size outside the group is given.
func othersOf(d job.ShapeDef, group []string) object {
	any := []any{}
	for _, g := range d.OneOf {
		for _, key := range g {
			o := object{"required": []string{key}}
			if !slices.Contains(group, key) {
				any = append(any, o)
			}
		}
	}
	if len(any) == 0 { // the group is all the sizes there are
		return object{"not": object{}}
	}
	return object{"anyOf": any}
}

func marshal(v any) []byte {
	b, err := json.MarshalIndent(v, "", "  ")
	if err != nil {
		panic(err) // maps, lists and texts always marshal
	}
	return append(b, '\n')
}
