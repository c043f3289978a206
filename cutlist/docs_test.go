package cutlist

import (
	"os"
	"strings"
	"testing"

	"bowerwright/unit"
)

func page(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("../docs/cut-list.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// The page names every word that names a column, in the row of that column.
func TestThePageNamesEveryColumn(t *testing.T) {
	lines := strings.Split(page(t), "\n")
	for _, columns := range [][]Column{Columns, StockColumns} {
		for _, c := range columns {
			found := false
			for _, l := range lines {
				row := strings.HasPrefix(l, "| `")
				for _, n := range c.Names {
					row = row && strings.Contains(l, "`"+n+"`")
				}
				found = found || row
			}
			if !found {
				t.Errorf("no row of docs/cut-list.md has %v", c.Names)
			}
		}
	}
}

// The examples of the page are read.
func TestExamplesOfThePage(t *testing.T) {
	lists, stocks := 0, 0
	for i, b := range strings.Split(page(t), "```") {
		switch b = strings.TrimPrefix(b, "\n"); {
		case i%2 == 0:
		case strings.HasPrefix(b, "# shelves"):
			if got := read(t, b, unit.NoUnit); len(got) != 3 || got[2].Name != "stay, short" {
				t.Errorf("%+v", got)
			}
			lists++
		case strings.HasPrefix(b, "timber,"):
			if s, snags := ReadStock([]byte(b), "stock.csv", unit.NoUnit, ""); len(snags) > 0 || len(s.Timber) != 1 || len(s.Timber[0].OnHand) != 2 {
				t.Errorf("%+v %v", s.Timber, snags)
			}
			stocks++
		}
	}
	if lists != 1 || stocks != 1 {
		t.Errorf("%d lists and %d stocks", lists, stocks)
	}
}
