package cutlist

import (
	"bytes"
	"math/rand"
	"reflect"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"bowerwright/job"
	"bowerwright/snag"
	"bowerwright/unit"
)

// somePart draws a part that a list can say.
func somePart(t *rapid.T, i int) job.ListPart {
	long := rapid.OneOf(rapid.Map(rapid.IntRange(40, 6000), func(n int) unit.Length { return unit.Length(n) * unit.Inch / 64 }),
		rapid.Map(rapid.Int64Range(1_000_000, 3_000_000_000), func(n int64) unit.Length { return unit.Length(n) }))
	degrees := rapid.Map(rapid.IntRange(-850, 850), func(n int) unit.Angle { return unit.FromDegrees(float64(n) / 10) })
	name := rapid.StringMatching(`[a-zA-Z#";,'][a-z ;,"']{0,10}[a-z]`)
	return job.ListPart{Name: strconv.Itoa(i) + name.Draw(t, "name"), Timber: rapid.SampledFrom([]string{"", "pine", "oak"}).Draw(t, "timber"),
		Flat: rapid.Bool().Draw(t, "flat"), Outside: long.Draw(t, "long"), Left: degrees.Draw(t, "left"), Right: degrees.Draw(t, "right"),
		Count: rapid.IntRange(1, 200_000).Draw(t, "count"), Spare: rapid.IntRange(0, 9).Draw(t, "spare")}
}

// What is written is read back as it was, whatever stands between the cells.
func TestWrittenAndReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var parts []job.ListPart
		for i := range rapid.IntRange(1, 12).Draw(t, "n") {
			p := somePart(t, i)
			p.Path = "parts[" + strconv.Itoa(i) + "]"
			parts = append(parts, p)
		}
		var b bytes.Buffer
		if err := Write(&b, parts, rapid.SampledFrom([]rune{',', ';', '\t'}).Draw(t, "sep")); err != nil {
			t.Fatal(err)
		}
		l, snags := Read(b.Bytes(), "list.csv", unit.NoUnit)
		if len(snags) > 0 {
			t.Fatalf("%s\n%s", b.String(), said2(l, snags))
		}
		if !reflect.DeepEqual(l.Parts, parts) {
			t.Fatalf("%+v\nis read back as\n%+v", parts, l.Parts)
		}
	})
}

// Cells turned about, with another separator, other names of columns and
// decimal commas, say the same.
func TestOrderAndSeparatorChangeNothing(t *testing.T) {
	rows := [][]string{{"part", "length (mm)", "count", "left", "right"}}
	r := rand.New(rand.NewSource(1))
	for i := range 20 {
		rows = append(rows, []string{"p" + strconv.Itoa(i), strconv.Itoa(100+r.Intn(900)) + ".5", strconv.Itoa(1 + r.Intn(40)), "22.5", "-" + strconv.Itoa(r.Intn(60))})
	}
	key := func(p job.ListPart) string { return p.Name }
	want := byKey(read(t, joined(rows, ",", "."), unit.NoUnit), key)
	for range 60 {
		turned := turn(r, rows)
		for c, names := range map[int][]string{0: {"Name", "MARK"}, 1: {"Outside, mm", "outside_length (mm)"}, 2: {"QTY", "pcs", "Number"}} {
			at := slices.Index(turned[0], rows[0][c])
			turned[0][at] = names[r.Intn(len(names))]
		}
		for _, sep := range []string{",", ";", "\t"} {
			for _, mark := range []string{".", ","} {
				got := byKey(read(t, joined(turned, sep, mark), unit.NoUnit), key)
				if !reflect.DeepEqual(got, want) {
					t.Fatalf("with %q and %q: %v\nwant %v", sep, mark, got, want)
				}
			}
		}
	}
}

// joined writes rows with a separator and a decimal mark; cells that need
// quotes get them.
func joined(rows [][]string, sep, mark string) string {
	var b strings.Builder
	for i, cells := range rows {
		for j, c := range cells {
			if j > 0 {
				b.WriteString(sep)
			}
			if i > 0 {
				c = strings.ReplaceAll(c, ".", mark)
			}
			if strings.Contains(c, sep) {
				c = `"` + c + `"`
			}
			b.WriteString(c)
		}
		b.WriteString("\n")
	}
	return b.String()
}

// turn shuffles the columns, and the rows below the first.
func turn(r *rand.Rand, rows [][]string) [][]string {
	order := r.Perm(len(rows[0]))
	var out [][]string
	for _, cells := range rows {
		var c []string
		for _, at := range order {
			c = append(c, cells[at])
		}
		out = append(out, c)
	}
	r.Shuffle(len(out)-1, func(a, b int) { out[a+1], out[b+1] = out[b+1], out[a+1] })
	return out
}

func byKey(parts []job.ListPart, key func(job.ListPart) string) map[string]job.ListPart {
	out := map[string]job.ListPart{}
	for _, p := range parts {
		p.Path = ""
		out[key(p)] = p
	}
	return out
}

// Nothing is left out: a list with no snag has a part for every row that is
// neither blank nor a comment, and their counts add up.
func TestNothingIsDropped(t *testing.T) {
	r := rand.New(rand.NewSource(2))
	for range 200 {
		var b strings.Builder
		b.WriteString("count;part;length mm\n")
		rows, sum := 0, 0
		for i := range r.Intn(30) + 1 {
			switch r.Intn(5) {
			case 0:
				b.WriteString("# a comment\n")
			case 1:
				b.WriteString(";;\n")
			default:
				n := 1 + r.Intn(50)
				rows, sum = rows+1, sum+n
				b.WriteString(strconv.Itoa(n) + ";p" + strconv.Itoa(i) + ";" + strconv.Itoa(50+r.Intn(900)) + ",5\n")
			}
		}
		if rows == 0 {
			continue
		}
		got := 0
		parts := read(t, b.String(), unit.NoUnit)
		for _, p := range parts {
			got += p.Count
		}
		if len(parts) != rows || got != sum {
			t.Fatalf("%d rows with %d parts are read as %d with %d:\n%s", rows, sum, len(parts), got, b.String())
		}
	}
}

// No bytes make the readers panic; the same bytes give the same answer; every
// snag says all, and a list without snags is whole.
func FuzzRead(f *testing.F) {
	for _, c := range append(badLists, badStocks...) {
		if len(c.src) < 3000 {
			f.Add([]byte(c.src))
		}
	}
	f.Add([]byte("sep=;\n\ufeffpart;length (in);count;left;right\n\"a\"\"b\";34,5;6;45;-22,5\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		l, snags := Read(src, "list.csv", unit.NoUnit)
		again, more := Read(src, "list.csv", unit.NoUnit)
		s, third := ReadStock(src, "stock.csv", unit.Inches, "USD")
		if !reflect.DeepEqual(l, again) || !reflect.DeepEqual(snags, more) {
			t.Fatal("two readings differ")
		}
		if string(l.Bytes()) != string(src) {
			t.Fatal("the bytes changed")
		}
		for _, sn := range append(append(snag.List{}, snags...), third...) {
			if sn.Problem == "" || sn.Remedy == "" || sn.Place.File == "" || !utf8.ValidString(sn.Problem+sn.Remedy) {
				t.Fatalf("%+v does not say all", sn)
			}
		}
		said2(l, snags)
		said2(s, third)
		if snags.Stops() {
			return
		}
		if len(l.Parts) == 0 {
			t.Fatal("no parts, and nothing to put right")
		}
		for _, p := range l.Parts {
			if p.Outside < leastLong || p.Outside > mostLong || p.Count < 1 || p.Count > mostCount || l.Locate(p.Path).Line == 0 {
				t.Fatalf("%+v", p)
			}
		}
	})
}
