package cutlist

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"bowerwright/snag"
	"bowerwright/unit"
)

var update = flag.Bool("update", false, "write the goldens of bad lists")

func said2(f interface{ Source(string) (string, bool) }, l snag.List) string {
	return snag.Text(l, f.Source, snag.Width)
}

const top = "part,length (in),count,left,right\n"

// badLists have something to put right; what is said about each is in testdata.
var badLists = []struct{ name, src string }{
	{"nothing", ""},
	{"only-comments", "# nothing yet\n\n"},
	{"only-a-head", top},
	{"no-head", "rail,34 1/2,6\npost,20,9\n"},
	{"not-utf8", top + "r\xe4il,34,6,0,0\n"},
	{"utf16", "\xff\xfep\x00a\x00"},
	{"nul", top + "a\x00b,34,6,0,0\n"},
	{"too-big", top + strings.Repeat("a,1,1,0,0\n", MaxBytes/10)},
	{"too-many-rows", top + strings.Repeat("a,1,1,0,0\n", MaxRows+1)},
	{"columns", "prat,length,lenght,qty,number,colour,length (lb),left (in)\n1,2,3,4,5,6,7,8\n"},
	{"columns-missing", "part,left\nrail,45\n"},
	{"decimal-comma", top + "rail,34,5,6,45,45\npost,20,9,0,0\n"},
	{"short-rows", top + "rail,34,6\npost,20,9,0,0,0\n"},
	{"cell-without-name", "part,length (in),count,\nrail,34,6,x\n"},
	{"quotes", "part,length (in),count\n\"rail,34,6\n\"rail\"s,34,6\n\"34 1/2\"\" of,34,6\n\"a\"\" b\",1,1\n"},
	{"lengths", "part;length;count\na;34;1\nb;34 1/3x in;1\nc;;1\nd;1,250 in;1\ne;1.234,5 mm;1\nf;1,2,3 mm;1\ng;0,1 mm;1\nh;30 m;1\ni;-3 in;1\nj;12, in;1\n"},
	{"two-decimal-marks", "part;length mm;count\na;34,5;1\nb;20.5;1\n"},
	{"counts", "part,length (in),count,spare\na,1,0,0\nb,1,1.5,0\nc,1,4.0,0\nd,1,-2,0\ne,1,,0\nf,1,300000,0\ng,1,two,0\nh,1,04,0\ni,1,1,-1\nj,1,1,x\n"},
	{"ends", top + "a,1,1,90,0\nb,1,1,x,0\nc,1,1,0,-86\nd,1,1,30 in,45 rad\n"},
	{"names", top + ",1,1,0,0\n" + strings.Repeat("x", 41) + ",1,1,0,0\nrail,34,6,0,0\nrail,35,6,0,0\n"},
	{"words", "part,length (in),count,laid,timber\na,1,1,flt,pine\nb,1,1,edge,\nc,1,1,sideways," + strings.Repeat("p", 41) + "\n"},
	{"many", top + strings.Repeat("a,x,1,0,0\n", 250)},
}

var badStocks = []struct{ name, src string }{
	{"stock-nothing", "length\n"},
	{"stock-columns", "timber,lenght,pric\npine,8 ft,4\n"},
	{"stock-values", "timber,size,length,price,at most,on hand,unusable,turning\n" +
		"pine,1x4,8 ft,4.49,,,,\npine,1x6,8 ft,$4.499,,,,\npine,,8 ft,-$1,0,,,maybe\npine,,8 ft,,2,3,,\npine,,8 ft,,,,31 in to 33 in,\n" +
		"pine,,8 ft,,,2,31 in to 33 in,\npine,,8 ft,$1,,1,31 in to 33 in,\npine,,8 ft,,,1,31 in,\npine,,8 ft,,,1,33 in to 31 in,\npine,,8 ft,,,1,90 in to 99 in,\npine,,8 ft,,,1,a to 3 in and 4 in to b,\n" +
		"oak,1x44,8 ft,,,,,\nash,,8 in,,,,,\nelm,1x4,40 ft,,,,,\n,1x4,8 ft,,,,,\n"},
	{"stock-no-size", "timber,length\nash,8 ft\n"},
	{"stock-trims", "length,thickness,width,trim first,trim far,turning\n8 ft,3/4 in,3 1/2 in,400 mm,x,no\n9 ft,1 in,,,,yes\n"},
}

func TestBadLists(t *testing.T) {
	used := map[string]bool{}
	for _, c := range badLists {
		used[c.name+".txt"] = true
		t.Run(c.name, func(t *testing.T) {
			l, snags := Read([]byte(c.src), "list.csv", unit.NoUnit)
			golden(t, c.name, said2(l, snags), snags)
		})
	}
	for _, c := range badStocks {
		used[c.name+".txt"] = true
		t.Run(c.name, func(t *testing.T) {
			s, snags := ReadStock([]byte(c.src), "stock.csv", unit.NoUnit, "")
			golden(t, c.name, said2(s, snags), snags)
		})
	}
	files, err := os.ReadDir("testdata/bad")
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		if !used[f.Name()] {
			t.Errorf("testdata/bad/%s belongs to no case", f.Name())
		}
	}
}

func golden(t *testing.T, name, got string, snags snag.List) {
	t.Helper()
	if !snags.Stops() {
		t.Fatal("nothing to put right was found")
	}
	path := filepath.Join("testdata", "bad", name+".txt")
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if want, err := os.ReadFile(path); err != nil || string(want) != got {
		t.Errorf("%s is another (%v); it is now:\n%s", path, err, got)
	}
}
