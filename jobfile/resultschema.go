package jobfile

import (
	"reflect"
	"strings"

	"bowerwright/job"
)

// ResultSchema is the JSON Schema of result.json, made from job.Result.
func ResultSchema() []byte {
	m := typeMaker{defs: object{}}
	s := m.structure(reflect.TypeFor[job.Result]())
	s["$schema"], s["title"] = schemaBase, "bowerwright result"
	s["description"] = "Made from the program's own types. Lengths in mm to the micrometre; angles in degrees."
	s["$defs"] = m.defs
	props := s["properties"].(object)
	props["format"] = object{"const": "bowerwright result"}
	props["version"] = object{"const": 1}
	return marshal(s)
}

// A typeMaker makes schemas of Go types as encoding/json writes them.
type typeMaker struct{ defs object }

func (m typeMaker) of(t reflect.Type) object {
	switch t.Kind() {
	case reflect.String:
		return object{"type": "string"}
	case reflect.Bool:
		return object{"type": "boolean"}
	case reflect.Float32, reflect.Float64:
		return object{"type": "number"}
	case reflect.Slice: // nil is written as null
		return object{"type": []string{"array", "null"}, "items": m.of(t.Elem())}
	case reflect.Array:
		return object{"type": "array", "items": m.of(t.Elem()), "minItems": t.Len(), "maxItems": t.Len()}
	case reflect.Map:
		return object{"type": []string{"object", "null"}, "additionalProperties": m.of(t.Elem())}
	case reflect.Pointer:
		return object{"anyOf": []any{m.of(t.Elem()), object{"type": "null"}}}
	case reflect.Struct:
		if _, made := m.defs[t.Name()]; !made {
			m.defs[t.Name()] = object{} // ends a type that holds itself
			m.defs[t.Name()] = m.structure(t)
		}
		return ref(t.Name())
	}
	return object{"type": "integer"}
}

func (m typeMaker) structure(t reflect.Type) object {
	props, required := object{}, []string{}
	for f := range fieldsOf(t) {
		tag, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		if tag == "-" || !f.IsExported() {
			continue
		}
		if tag == "" {
			tag = f.Name
		}
		props[tag] = m.of(f.Type)
		if !strings.Contains(options, "omitempty") && !strings.Contains(options, "omitzero") {
			required = append(required, tag)
		}
	}
	return object{"type": "object", "properties": props, "required": required, "additionalProperties": false}
}

func fieldsOf(t reflect.Type) func(func(reflect.StructField) bool) {
	return func(yield func(reflect.StructField) bool) {
		for i := range t.NumField() {
			if !yield(t.Field(i)) {
				return
			}
		}
	}
}
