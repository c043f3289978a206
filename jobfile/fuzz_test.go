package jobfile

import (
	"reflect"
	"testing"
	"unicode/utf8"

	"bowerwright/snag"
)

// FuzzRead: no bytes make Read panic; the same bytes give the same answer; the
// file comes back as it was; every snag has a place in the file that is there.
func FuzzRead(f *testing.F) {
	for _, c := range badFiles {
		if len(c.src) < 4000 {
			f.Add([]byte(c.src), []byte(nil))
		}
	}
	f.Add(Starter("A"), []byte(shop))
	f.Add([]byte(lay+"copies:\n  - B1..B2 as C1..C2, mirrored at 60\n"), []byte("bowerwright-shop: 1\n"))
	f.Fuzz(func(t *testing.T, src, shop []byte) {
		s, file, l := Read(src, "job.yaml", shop, "shop.yaml")
		again, _, m := Read(src, "job.yaml", shop, "shop.yaml")
		if !reflect.DeepEqual(l, m) || !reflect.DeepEqual(s, again) {
			t.Fatal("two readings differ")
		}
		if string(file.Bytes()) != string(src) {
			t.Fatal("the bytes changed")
		}
		for _, sn := range l {
			if sn.Problem == "" || sn.Remedy == "" || sn.Place.File == "" || !utf8.ValidString(sn.Problem+sn.Remedy) {
				t.Fatalf("%+v does not say all", sn)
			}
		}
		snag.Text(l, file.Source, snag.Width)
	})
}
