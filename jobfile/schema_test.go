package jobfile

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/goccy/go-yaml"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"bowerwright/job"
)

// compile makes a published schema ready; it must be a valid schema itself.
func compile(t *testing.T, text []byte) *jsonschema.Schema {
	t.Helper()
	doc, err := jsonschema.UnmarshalJSON(bytes.NewReader(text))
	if err != nil {
		t.Fatal(err)
	}
	c := jsonschema.NewCompiler()
	if err := c.AddResource("schema.json", doc); err != nil {
		t.Fatal(err)
	}
	s, err := c.Compile("schema.json")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// asJSON is a YAML text as an editor that checks schemas sees it.
func asJSON(t *testing.T, src string) any {
	t.Helper()
	var v any
	if err := yaml.Unmarshal([]byte(src), &v); err != nil {
		t.Fatal(err)
	}
	b, err := json.Marshal(withTextKeys(v))
	if err != nil {
		t.Fatal(err)
	}
	out, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func withTextKeys(v any) any {
	switch v := v.(type) {
	case map[string]any:
		for k := range v {
			v[k] = withTextKeys(v[k])
		}
	case map[any]any:
		out := map[string]any{}
		for k, x := range v {
			out[fmt.Sprint(k)] = withTextKeys(x)
		}
		return out
	case []any:
		for i := range v {
			v[i] = withTextKeys(v[i])
		}
	}
	return v
}

func TestSchemaTakesGoodFiles(t *testing.T) {
	s := compile(t, Schema())
	good := map[string]string{"sample": sample(t), "starter": string(Starter("A")), "layout": lay}
	names, err := filepath.Glob("../examples/*.yaml")
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range names {
		src, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		good[name] = string(src)
	}
	for _, d := range job.Shapes {
		good[d.Name] = kindOf("shape: " + d.Name + "\n" + d.Example)
	}
	for name, src := range good {
		clean(t, src)
		if err := s.Validate(asJSON(t, src)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
	if err := compile(t, ShopSchema()).Validate(asJSON(t, shop)); err != nil {
		t.Error(err)
	}
}

// refusedByBoth are bad files that a schema can tell.
var refusedByBoth = strings.Fields(`missing missing-in-groups unknown-fields unknown-in-groups wrong-types wrong-types-inside layout-is-a-list
	words counts shape-missing shape-unknown diameter-even diameter-odd diameter-ring diameter-arch diameter-house flats-of-odd
	measure-of-another no-size two-sizes diamond-mixed ring-sizes needs version-word version-newer version-0 no-version
	shop-file-as-job dates assumptions root-is-a-list root-is-a-line currency-list empty-values`)

func TestSchemaRefusesBadFiles(t *testing.T) {
	s := compile(t, Schema())
	src := map[string]string{"currency-list": lay + "currency: [USD]\n"}
	for _, c := range badFiles {
		src[c.name] = c.src
	}
	for _, name := range refusedByBoth {
		if src[name] == "" {
			t.Fatalf("no bad file %s", name)
		}
		if _, _, l := Read([]byte(src[name]), name, nil, ""); !l.Stops() {
			t.Errorf("the reader takes %s", name)
		}
		if s.Validate(asJSON(t, src[name])) == nil {
			t.Errorf("the schema takes %s", name)
		}
	}
}

func TestResultSchema(t *testing.T) {
	s := compile(t, ResultSchema())
	b, err := json.Marshal(planned(t, string(Starter("A"))))
	if err != nil {
		t.Fatal(err)
	}
	v, err := jsonschema.UnmarshalJSON(bytes.NewReader(b))
	if err != nil {
		t.Fatal(err)
	}
	m := v.(map[string]any)
	m["format"], m["version"] = "bowerwright result", json.Number("1") // Plan's caller may set these
	if err := s.Validate(m); err != nil {
		t.Error(err)
	}
	for _, key := range []string{"frames", "saw", "input_sha256"} {
		kept := m[key]
		delete(m, key)
		if s.Validate(m) == nil {
			t.Errorf("a result without %s is taken", key)
		}
		m[key] = kept
	}
	m["frames"] = "many"
	if s.Validate(m) == nil {
		t.Error("frames may be a text")
	}
}
