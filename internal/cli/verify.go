package cli

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"

	"bowerwright/job"
)

type verifyCmd struct {
	File string `arg:"" name:"file" help:"A result.json, as plan writes it; - reads standard input."`
}

// mostResult is how large a result may be: far beyond a job of the most frames.
const mostResult = 512 << 20

// Run reads a result and looks its cutting over. It trusts nothing in the file:
// what is told is checked against what is told elsewhere, and the proofs are
// followed by the checker, which did not make them.
func (c verifyCmd) Run(e *env) error {
	text, err := readUpTo(c.File, mostResult, "result")
	if err != nil {
		return err
	}
	r, err := readResult(text)
	if err != nil {
		return failf(exitPutRight, "%s: %v", c.name(), err)
	}
	verdicts, wrong := job.Verify(r)
	if r.Seal != job.Seal(r) {
		wrong = append(wrong, "seal: something in the file is not as it was written")
	}
	open := 0
	for _, v := range verdicts {
		e.verdict(v)
		wrong = append(wrong, v.Wrong...)
		open += len(v.Open)
	}
	if len(wrong) > 0 {
		fmt.Fprintf(e.errOut, "%s: %s not right:\n", c.name(), are(len(wrong), "thing"))
		for _, w := range wrong {
			fmt.Fprintf(e.errOut, "  %s\n", w)
		}
		return failure{code: exitPutRight}
	}
	if open > 0 {
		return failf(exitOver, "%s: nothing is wrong, but %s could not be followed to the end", c.name(), counted(open, "proof"))
	}
	fmt.Fprintf(e.out, "%s: all is right\n", c.name())
	return nil
}

func are(n int, noun string) string {
	if n == 1 {
		return counted(n, noun) + " is"
	}
	return counted(n, noun) + " are"
}

func (c verifyCmd) name() string {
	if c.File == "-" {
		return "standard input"
	}
	return c.File
}

// verdict says what was looked over of a timber.
func (e *env) verdict(v job.Verdict) {
	fmt.Fprintf(e.out, "%s, %s: %s, %s\n", v.Name, v.Laid, counted(v.Boards, "board"), counted(v.Parts, "part"))
	if len(v.Wrong) > 0 {
		fmt.Fprintf(e.out, "  something is wrong with it\n")
		return
	}
	fmt.Fprintf(e.out, "  every part is on a board as often as it is wanted; counts, lengths, cuts, stops and prices agree\n")
	for _, l := range v.Followed {
		fmt.Fprintf(e.out, "  followed: %s\n", l)
	}
	for _, l := range v.Open {
		fmt.Fprintf(e.out, "  not followed to the end: %s\n", l)
	}
}

// readResult reads a result strictly: its format and version, every field that
// results have, and no other.
func readResult(text []byte) (r job.Result, err error) {
	var head struct {
		Format  *string `json:"format"`
		Version *int    `json:"version"`
	}
	switch err := json.Unmarshal(text, &head); {
	case err != nil:
		return r, fmt.Errorf("it is no result.json: %s", jsonSays(text, err))
	case head.Format == nil || *head.Format != resultFormat:
		return r, fmt.Errorf("it is no result.json: it does not begin with \"format\": %q", resultFormat)
	case head.Version == nil:
		return r, errors.New("it has no version")
	case *head.Version > resultVersion:
		return r, fmt.Errorf("it is of version %d, and this program reads versions up to %d: take a newer program", *head.Version, resultVersion)
	case *head.Version < 1:
		return r, fmt.Errorf("it is of version %d, which never was", *head.Version)
	}
	d := json.NewDecoder(bytes.NewReader(text))
	d.DisallowUnknownFields()
	if err := d.Decode(&r); err != nil {
		return r, fmt.Errorf("it cannot be read: %s", jsonSays(text, err))
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return r, errors.New("something stands behind its end")
	}
	var tree any
	if err := json.Unmarshal(text, &tree); err != nil {
		return r, fmt.Errorf("it cannot be read: %s", jsonSays(text, err))
	}
	var missing []string
	lacks("", reflect.TypeFor[job.Result](), tree, &missing)
	if len(missing) > 0 {
		more := ""
		if n := len(missing) - mostMissing; n > 0 {
			missing, more = missing[:mostMissing], fmt.Sprintf(" and %d more", n)
		}
		return r, fmt.Errorf("parts of it are missing: %s%s", strings.Join(missing, ", "), more)
	}
	if len(r.Timber) == 0 {
		return r, errors.New("there is no timber in it: nothing was cut")
	}
	return r, nil
}

const (
	resultFormat  = "bowerwright result"
	resultVersion = 1
	mostMissing   = 8
)

// jsonSays gives what is wrong with JSON, with its line where it is told.
func jsonSays(text []byte, err error) string {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case errors.As(err, &syntax):
		return fmt.Sprintf("line %d: %v", lineAt(text, syntax.Offset), syntax)
	case errors.As(err, &kind):
		return fmt.Sprintf("line %d: %s cannot be a %s", lineAt(text, kind.Offset), kind.Field, kind.Value)
	}
	return strings.TrimPrefix(err.Error(), "json: ")
}

func lineAt(text []byte, offset int64) int {
	return 1 + bytes.Count(text[:min(offset, int64(len(text)))], []byte("\n"))
}

// lacks lists the fields that a value of a type must have and a tree has not.
func lacks(path string, t reflect.Type, tree any, out *[]string) {
	switch t.Kind() {
	case reflect.Pointer:
		if tree != nil {
			lacks(path, t.Elem(), tree, out)
		}
	case reflect.Slice, reflect.Array:
		list, _ := tree.([]any)
		for i, v := range list {
			lacks(fmt.Sprintf("%s[%d]", path, i), t.Elem(), v, out)
		}
	case reflect.Struct:
		fields, ok := tree.(map[string]any)
		if !ok {
			*out = append(*out, path)
			return
		}
		for i := range t.NumField() {
			f := t.Field(i)
			name, options, _ := strings.Cut(f.Tag.Get("json"), ",")
			v, has := fields[name]
			optional := slices.Contains(strings.Split(options, ","), "omitempty") || slices.Contains(strings.Split(options, ","), "omitzero")
			switch at := strings.TrimPrefix(path+"."+name, "."); {
			case has:
				lacks(at, f.Type, v, out)
			case !optional:
				*out = append(*out, at)
			}
		}
	}
}
