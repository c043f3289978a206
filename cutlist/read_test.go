package cutlist

import (
	"reflect"
	"strings"
	"testing"

	"bowerwright/job"
	"bowerwright/unit"
)

const in = unit.Inch

// read reads a list that has nothing to put right.
func read(t *testing.T, text string, bare unit.Unit) []job.ListPart {
	t.Helper()
	l, snags := Read([]byte(text), "list.csv", bare)
	if len(snags) > 0 {
		t.Fatalf("%q: %s", text, said2(l, snags))
	}
	return l.Parts
}

func TestWhatIsRead(t *testing.T) {
	deg := unit.FromDegrees
	rail := job.ListPart{Name: "rail", Outside: 345 * in / 10, Left: deg(45), Right: deg(-22.5), Count: 6, Path: "parts[0]"}
	plain := job.ListPart{Name: "rail", Outside: 345 * in / 10, Count: 6, Path: "parts[0]"}
	for name, c := range map[string]struct {
		text string
		bare unit.Unit
		want job.ListPart
	}{
		"a fraction":            {"part,length,count,left,right\nrail,34 1/2 in,6,45,-22.5\n", unit.NoUnit, rail},
		"inch mark":             {"part,length,count\nrail,34 1/2\",6\n", unit.NoUnit, plain},
		"inch mark, dash":       {"part,length,count\nrail,34-1/2\",6\n", unit.NoUnit, plain},
		"inch mark in quotes":   {"part,length,count\n\"rail\",\"34 1/2\"\"\",\"6\"\n", unit.NoUnit, plain},
		"feet":                  {"part,length,count\nrail,2' 10 1/2\",6\n", unit.NoUnit, plain},
		"unit in brackets":      {"part,length (in),count\nrail,34.5,6\n", unit.NoUnit, plain},
		"unit in square ones":   {"part,length [in],count\nrail,34.5,6\n", unit.NoUnit, plain},
		"unit with the name":    {"part,Length in,count\nrail,34.5,6\n", unit.NoUnit, plain},
		"millimetres":           {"part,length mm,count\nrail,876.3,6\n", unit.NoUnit, plain},
		"unit by the caller":    {"part,length,count\nrail,34.5,6\n", unit.Inches, plain},
		"column over caller":    {"part,length (mm),count\nrail,876.3,6\n", unit.Inches, plain},
		"cell over column":      {"part,length (mm),count\nrail,34.5 in,6\n", unit.NoUnit, plain},
		"own order, own names":  {"QTY,Second End,NAME,First End,Outside Length\n6,-22.5,rail,45,34.5 in\n", unit.NoUnit, rail},
		"semicolon and comma":   {"part;length (in);count;left;right\nrail;34,5;6;45;-22,5\n", unit.NoUnit, rail},
		"tab and comma":         {"part\tlength (in)\tcount\tleft\tright\nrail\t34,5\t6\t45\t-22,5\n", unit.NoUnit, rail},
		"decimal comma, quoted": {"part,length (in),count,left,right\nrail,\"34,5\",6,45,\"-22,5\"\n", unit.NoUnit, rail},
		"byte order mark":       {"\ufeffpart,length (in),count\nrail,34.5,6\n", unit.NoUnit, plain},
		"CRLF":                  {"part,length (in),count\r\nrail,34.5,6\r\n", unit.NoUnit, plain},
		"CR":                    {"part,length (in),count\rrail,34.5,6\r", unit.NoUnit, plain},
		"blank and comments":    {"# shelves\n\n  # more\npart,length (in),count\n,,\n   \nrail,34.5,6\n# end\n", unit.NoUnit, plain},
		"spaces round cells":    {" part , length (in) , count \n rail , 34.5 , 6 \n", unit.NoUnit, plain},
		"sep line":              {"sep=;\npart;length (in);count\nrail;34.5;6\n", unit.NoUnit, plain},
		"empty columns behind":  {"part,length (in),count,,\nrail,34.5,6,,\n", unit.NoUnit, plain},
		"degree sign":           {"part,length (in),count,left (deg),right °\nrail,34.5,6,45°,-22.5\n", unit.NoUnit, rail},
		"no end of line":        {"part,length (in),count\nrail,34.5,6", unit.NoUnit, plain},
		"a comma in a name": {"part,length (in),count\n\"rail, long\",34.5,6\n", unit.NoUnit,
			job.ListPart{Name: "rail, long", Outside: 345 * in / 10, Count: 6, Path: "parts[0]"}},
		"a # in quotes": {"part,length (in),count\n\"#1\",34.5,6\n", unit.NoUnit, job.ListPart{Name: "#1", Outside: 345 * in / 10, Count: 6, Path: "parts[0]"}},
		"no names":      {"length (in),count\n34.5,6\n", unit.NoUnit, job.ListPart{Outside: 345 * in / 10, Count: 6, Path: "parts[0]"}},
		"timber, laid, spare": {"part,length (in),count,timber,laid,spare\nrail,34.5,6,pine,Flat,2\n", unit.NoUnit,
			job.ListPart{Name: "rail", Timber: "pine", Flat: true, Outside: 345 * in / 10, Count: 6, Spare: 2, Path: "parts[0]"}},
		"a decimal under one": {"part;length m;count\nrail;0,125;6\n", unit.NoUnit, job.ListPart{Name: "rail", Outside: 125 * unit.Millimetre, Count: 6, Path: "parts[0]"}},
	} {
		t.Run(name, func(t *testing.T) {
			if got := read(t, c.text, c.bare); len(got) != 1 || got[0] != c.want {
				t.Errorf("%+v, want %+v", got, c.want)
			}
		})
	}
}

func TestLinesPointAtTheirRows(t *testing.T) {
	l, _ := Read([]byte("# one\npart,length (in),count\n\na,10,1\nb,12,1\n"), "list.csv", 0)
	if at := l.Locate("parts[1]"); at.Line != 5 || at.Column != 3 || at.File != "list.csv" {
		t.Errorf("%+v", at)
	}
	if at := l.Locate("timber.pine"); at.Line != 0 {
		t.Errorf("a list has no timber, and it lies at %+v", at)
	}
	if _, ok := l.Source("other.csv"); ok {
		t.Error("the text of another file")
	}
}

func TestUnitsOfAList(t *testing.T) {
	for text, metric := range map[string]bool{
		"length,count\n10 in,1\n":                   false,
		"length,count\n300 mm,1\n":                  true,
		"length mm,count\n300,1\n":                  true,
		"length,count\n10 in,1\n30 cm,1\n3 m,1\n":   true,
		"length (in),count\n10,1\n11,1\n300 mm,1\n": false,
	} {
		if l, _ := Read([]byte(text), "list.csv", 0); l.Metric != metric {
			t.Errorf("%q: metric is %v", text, l.Metric)
		}
	}
}

func TestStock(t *testing.T) {
	text := strings.Join([]string{
		"timber;size;thickness;width;length;price (EUR);at most;on hand;unusable;trim first;trim far;turning",
		"pine;1x4;;;8 ft;4,49;;;;1/4 in;0 in;no",
		"pine;;;;10 ft;5,80;6;;;;;",
		"pine;;;;41 in;;;2;;;;no",
		"pine;;;;96 in;;;1;31 in to 33 in and 60 in to 61 in;;;",
		"oak;;20 mm;45 mm;2,4 m;;;;;;;",
	}, "\n")
	s, snags := ReadStock([]byte(text), "stock.csv", 0, "")
	if len(snags) > 0 {
		t.Fatal(snags)
	}
	no, first, far := false, in/4, unit.Length(0)
	mm := unit.Millimetre
	want := []job.Timber{
		{Name: "pine", Nominal: "1x4", TrimFirst: &first, TrimFar: &far, Turning: &no, From: "job file",
			Lengths: []job.StockLength{{Length: 96 * in, PriceMinor: 449, Currency: "EUR"}, {Length: 120 * in, PriceMinor: 580, Currency: "EUR", Most: 6}},
			OnHand:  []job.HandBoard{{Count: 2, Length: 41 * in}, {Count: 1, Length: 96 * in, Spans: [][2]unit.Length{{31 * in, 33 * in}, {60 * in, 61 * in}}}}},
		{Name: "oak", Thickness: 20 * mm, Width: 45 * mm, From: "job file", Lengths: []job.StockLength{{Length: 2400 * mm}}},
	}
	if !reflect.DeepEqual(s.Timber, want) {
		t.Errorf("%+v\nwant %+v", s.Timber, want)
	}
	if at := s.Locate("timber.oak.trim"); at.Line != 6 || at.Path != "timber.oak.trim" {
		t.Errorf("%+v", at)
	}
}

func TestStockWithoutNames(t *testing.T) {
	s, snags := ReadStock([]byte("length,thickness,width,price\n8 ft,3/4 in,3 1/2 in,$4.49\n"), "stock.csv", 0, "")
	if len(snags) > 0 || len(s.Timber) != 1 || s.Timber[0].Name != "boards" {
		t.Errorf("%+v, %v", s.Timber, snags)
	}
}
