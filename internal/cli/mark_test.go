package cli

import (
	"encoding/json"
	"os"
	"strings"

	"github.com/rogpeppe/go-internal/testscript"
)

// mark puts the mark of a result.json where a file says MARK, the first time:
// mark first/result.json done.yaml.
func mark(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: mark result.json FILE")
	}
	var r struct{ Mark string }
	ts.Check(json.Unmarshal([]byte(ts.ReadFile(args[0])), &r))
	text := ts.ReadFile(args[1])
	if !strings.Contains(text, "MARK") {
		ts.Fatalf("%s says no MARK", args[1])
	}
	ts.Check(os.WriteFile(ts.MkAbs(args[1]), []byte(strings.Replace(text, "MARK", r.Mark, 1)), 0o644))
}
