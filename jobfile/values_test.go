package jobfile

import (
	"fmt"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"bowerwright/job"
	"bowerwright/snag"
)

// codes are the codes of a reading's snags, in order.
func codes(src string) []string {
	var out []string
	_, _, l := Read([]byte(src), "job.yaml", nil, "")
	for _, s := range l {
		out = append(out, s.Code)
	}
	return out
}

func TestPlainly(t *testing.T) {
	for in, want := range map[string]string{"010": "10", "007.5": "7.5", "010 in": "10 in", "1_000": "1000", "1_000 mm": "1000 mm", "1e3": "1000",
		"2.5E2": "250", "0x10": "it in", "0b1": "it in", "0o7": "it in", ".inf": "it in", "1e99": "it in", "00": "it in", "1e-9": "it in"} {
		if got := plainly(in); !strings.HasPrefix(got, want) {
			t.Errorf("%s: write %s", in, got)
		}
	}
}

// TestStrange: which numbers are refused, and which are not.
func TestStrange(t *testing.T) {
	for _, s := range []string{"010", "-010", "+007", "0x1F", "0X1f", "0o17", "0b11", "1_000", "1e3", "1.5e3", "1E+3", ".inf", "-.Inf", ".NaN", "00"} {
		if !strange.MatchString(s) {
			t.Errorf("%s is taken", s)
		}
	}
	for _, s := range []string{"0", "0.5", "10", "-0.25", "1", "10 3/8 in", "0 in", "5' 6\"", "⅜ in", "1/8", ".5", "100", "1 e", "$4.49"} {
		if strange.MatchString(s) {
			t.Errorf("%s is refused", s)
		}
	}
}

// TestRanges: the ends of every range are taken and what is beyond is not.
func TestRanges(t *testing.T) {
	for _, c := range []struct {
		field     string // with %s for the value
		good, bad []string
	}{
		{"joint tolerance: %s", []string{"0", "1/4 in"}, []string{"0.251 in", "-0.01 in"}},
		{"saw: {hold: %s}", []string{"8 in", "24 in"}, []string{"24.1 in"}},
		{"saw:\n  swing: %s", []string{"0", "90", "0 left, 90 right"}, []string{"90.1", "-1", "91 left, 0 right", "0 left, 91 right"}},
		{"saw: {detents: [%s]}", []string{"0", "90"}, []string{"-0.1", "90.1"}},
		{"driver: {length: %s}", []string{"1 mm", "2 m"}, []string{"0.9 mm", "2.1 m"}},
		{"assume: {saw.error: %s}", []string{"0.01", "2", "1 deg"}, []string{"0.009", "2.01"}},
		{"assume: {board.moisture: %s}", []string{"0", "30", "30 %"}, []string{"30.1", "-1"}},
		{"copies: [\"B1 as C1, mirrored at %s\"]", []string{"500 m", "-500 m"}, []string{"501 m"}},
	} {
		for _, v := range c.good {
			if got := codes(lay + fmt.Sprintf(c.field, v) + "\n"); len(got) > 0 {
				t.Errorf(c.field+": %v", v, got)
			}
		}
		for _, v := range c.bad {
			if got := codes(lay + fmt.Sprintf(c.field, v) + "\n"); !slices.Equal(got, []string{outOfRange.Code}) {
				t.Errorf(c.field+": %v", v, got)
			}
		}
	}
}

func TestMarks(t *testing.T) {
	for _, m := range []string{"1/2 in", "1/4 in", "1/8 in", "1/16 in", "1/32 in", "1/64 in", "1 mm", "0.5 mm", "0.0625"} {
		clean(t, lay+"mark: "+m+"\n")
	}
	for _, m := range []string{"1 in", "1/3 in", "1/128 in", "0.1 mm", "2 mm", "0", "-1 mm"} {
		if got := codes(lay + "mark: " + m + "\n"); !slices.Equal(got, []string{badWord.Code}) {
			t.Errorf("%s: %v", m, got)
		}
	}
}

func TestNames(t *testing.T) {
	for _, s := range []string{"a", "B1", "big-one", "łuk_2", strings.Repeat("a", 40)} {
		if !isName(s) {
			t.Errorf("%s is no name", s)
		}
	}
	for _, s := range []string{"", "1a", "-a", "a b", "a.b", "a,b", strings.Repeat("a", 41)} {
		if isName(s) {
			t.Errorf("%s is a name", s)
		}
	}
	for _, w := range reserved {
		if got := codes(strings.ReplaceAll(lay, "big", w)); !slices.Contains(got, badName.Code) {
			t.Errorf("a kind may be called %s: %v", w, got)
		}
	}
}

// TestSizes: of the groups of sizes that a shape may be given by, each alone
// is taken, and any two that are not one together are refused, by the reader
// and by the schema.
func TestSizes(t *testing.T) {
	s := compile(t, Schema())
	for _, d := range job.Shapes {
		base := ""
		for _, key := range d.Need {
			m, _ := d.Measure(key)
			if m.Is == job.CornerList || m.Is == job.SideList {
				continue
			}
			base += "\n" + key + ": " + m.Example
		}
		sizes := func(keys []string) string {
			var b strings.Builder
			for _, key := range keys {
				m, _ := d.Measure(key)
				b.WriteString("\n" + key + ": " + m.Example)
			}
			return kindOf("shape: " + d.Name + base + b.String())
		}
		for i, g := range d.OneOf {
			clean(t, sizes(g))
			if err := s.Validate(asJSON(t, sizes(g))); err != nil {
				t.Error(err)
			}
			for _, h := range d.OneOf[:i] {
				both := slices.Compact(slices.Sorted(slices.Values(slices.Concat(g, h))))
				if slices.ContainsFunc(d.OneOf, func(o []string) bool { return slices.Equal(slices.Sorted(slices.Values(o)), both) }) {
					continue
				}
				if got := codes(sizes(both)); !slices.Contains(got, oneSize.Code) {
					t.Errorf("%s by %v: %v", d.Name, both, got)
				}
				if s.Validate(asJSON(t, sizes(both))) == nil {
					t.Errorf("the schema takes %s by %v", d.Name, both)
				}
			}
		}
	}
}

// TestDiameter: no shape is given by a diameter, and each says what to write.
func TestDiameter(t *testing.T) {
	for _, d := range job.Shapes {
		_, _, l := Read([]byte(kindOf("shape: "+d.Name+"\n"+d.Example+"\ndiameter: 18")), "job.yaml", nil, "")
		if len(l) != 1 || l[0].Code != unclearDiameter.Code || l[0].Remedy == "" {
			t.Errorf("%s: %v", d.Name, l)
		}
	}
}

// TestAllAtOnce: snags of independent fields are all found, however they are
// mixed.
func TestAllAtOnce(t *testing.T) {
	wrong := []struct{ line, code string }{
		{"date: soon", badDate.Code}, {"vennue: barn", unknownField.Code}, {"mark: 3 in", badWord.Code}, {"near miss: wide", badLength.Code},
		{"saw: {clamp: perhaps}", badSwitch.Code}, {"maker: [a]", wrongType.Code}, {"driver: {length: 0x7}", strangeNumber.Code},
		{"assume: {no.such: 1}", unknownAssumption.Code}, {"for: #4", hashValue.Code}, {"families: [big]", badFamily.Code},
	}
	rapid.Check(t, func(t *rapid.T) {
		some := rapid.SliceOfNDistinct(rapid.IntRange(0, len(wrong)-1), 1, len(wrong), rapid.ID[int]).Draw(t, "lines")
		src := lay
		var want []string
		for _, i := range some {
			src += wrong[i].line + "\n"
			want = append(want, wrong[i].code)
		}
		if got := codes(src); !slices.Equal(got, want) {
			t.Fatalf("%s\nfound %v", src, got)
		}
	})
}

// TestShopAndJob: a field says the same whether it stands in the job file or
// in the shop file under it.
func TestShopAndJob(t *testing.T) {
	lines := []string{"maker: Wren", "mark: 1/32 in", "joint tolerance: 1/64 in", "seam gap: 0 in", "near miss: 1 in", "paper: a4", "show: metric",
		"people: [{name: Ida, does: saws}]", "driver: {name: d, length: 7 in}", "saw: {kerf: 3 mm, swing: 50, takes: {lying: {0: 12 in x 3 in}}}"}
	all, _ := clean(t, lay+strings.Join(lines, "\n")+"\n")
	rapid.Check(t, func(t *rapid.T) {
		jobText, shopText := lay, "bowerwright-shop: 1\n"
		for _, l := range lines {
			if rapid.Bool().Draw(t, l) {
				jobText += l + "\n"
			} else {
				shopText += l + "\n"
			}
		}
		got, _, l := Read([]byte(jobText), "job.yaml", []byte(shopText), "shop.yaml")
		if len(l) > 0 {
			t.Fatal(l)
		}
		got.Saw.From, got.Said = all.Saw.From, all.Said // say where it came from, as they should
		if !reflect.DeepEqual(got, all) {
			t.Fatalf("job\n%s\nshop\n%s\nis  %+v\nnot %+v", jobText, shopText, got, all)
		}
	})
}

// TestFieldOrder: the order of fields changes nothing, unit and currency
// included.
func TestFieldOrder(t *testing.T) {
	blocks := []string{"name: A\n", "unit: mm\n", "currency: EUR\n", "timber: {pine: {board: 1x4, length: 2400, price: 5}}\n",
		"frames: {big: {shape: hexagon, flats: 450}}\n", "layout: {B1: \"big at 0, 20\"}\n", "families: []\n"}
	want, _ := clean(t, "bowerwright: 1\n"+strings.Join(blocks, ""))
	rapid.Check(t, func(t *rapid.T) {
		mixed := rapid.Permutation(blocks).Draw(t, "order")
		got, _, l := Read([]byte("bowerwright: 1\n"+strings.Join(mixed, "")), "job.yaml", nil, "")
		if len(l) > 0 || !reflect.DeepEqual(got, want) {
			t.Fatalf("%v %+v", l, got)
		}
	})
}

func TestEither(t *testing.T) {
	for want, words := range map[string][]string{"": nil, "a": {"a"}, "a or b": {"a", "b"}, "a, b or c": {"a", "b", "c"}} {
		if got := either(words); got != want {
			t.Errorf("%v: %s", words, got)
		}
	}
}

func TestShorten(t *testing.T) {
	if got := shorten(strings.Repeat("ł", 81)); got != strings.Repeat("ł", 80)+"…" {
		t.Error(got)
	}
	if got := shorten("short"); got != "short" {
		t.Error(got)
	}
}

func TestFound(t *testing.T) {
	var f found
	for range maxSnags + 5 {
		f.add(snag.Snag{Code: "x"})
	}
	if all := f.all("a"); len(all) != maxSnags+1 || !strings.HasPrefix(all[maxSnags].Problem, "5 more") {
		t.Errorf("%d snags", len(all))
	}
}

func TestExactly(t *testing.T) {
	for _, d := range []float64{0.25, 22.5, 31.6, 1.0 / 3} {
		if got := exactly(d * math.Pi / 180 * 180 / math.Pi); math.Abs(got-d) > 1e-9 {
			t.Errorf("%v became %v", d, got)
		}
	}
}
