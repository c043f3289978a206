package face

import (
	"bytes"
	"compress/zlib"
	"encoding/binary"
	"io"
	"testing"

	"golang.org/x/image/font/sfnt"
)

// unpack turns a WOFF file back into a font file, by the format's description
// and nothing of the packer.
func unpack(t *testing.T, w []byte) []byte {
	t.Helper()
	be := binary.BigEndian
	if string(w[:4]) != "wOFF" || int(be.Uint32(w[8:])) != len(w) {
		t.Fatalf("head % x, %d bytes", w[:12], len(w))
	}
	n := int(be.Uint16(w[12:]))
	out := append([]byte{0, 1, 0, 0}, w[12], w[13], 0, 0, 0, 0, 0, 0)
	body := []byte{}
	for i := range n {
		e := w[44+20*i:]
		at, packed, size := be.Uint32(e[4:]), be.Uint32(e[8:]), be.Uint32(e[12:])
		if at%4 != 0 {
			t.Errorf("table %s begins at %d", e[:4], at)
		}
		data := w[at : at+packed]
		if packed < size {
			z, err := zlib.NewReader(bytes.NewReader(data))
			if err != nil {
				t.Fatal(err)
			}
			if data, err = io.ReadAll(z); err != nil {
				t.Fatal(err)
			}
		}
		if len(data) != int(size) {
			t.Fatalf("table %s has %d bytes of %d", e[:4], len(data), size)
		}
		out = append(out, e[:4]...)
		out = append(out, e[16:20]...)
		out = be.AppendUint32(out, uint32(12+16*n+len(body)))
		out = be.AppendUint32(out, size)
		body = append(body, data...)
		body = append(body, make([]byte, -len(data)&3)...)
	}
	if got := int(be.Uint32(w[16:])); got != len(out)+len(body) {
		t.Errorf("unpacked it has %d bytes, it says %d", len(out)+len(body), got)
	}
	return append(out, body...)
}

// TestWOFFKeepsWhatIsAsked: a rune asked for has the outline and width of the
// whole font, one made of others among them; one not asked for is blank.
func TestWOFFKeepsWhatIsAsked(t *testing.T) {
	asked := []rune("AÅ3/8×°é■")
	for _, name := range Names {
		w, err := WOFF(name, asked)
		if err != nil {
			t.Fatal(err)
		}
		if len(w) > 20000 {
			t.Errorf("%s: %d bytes for %d runes", name, len(w), len(asked))
		}
		f, err := sfnt.Parse(unpack(t, w))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		cut, whole := &Face{f: f}, mustOpen(t, name)
		for _, r := range asked {
			got, err := cut.Outline(r)
			if err != nil {
				t.Fatalf("%s: %q: %v", name, r, err)
			}
			want, err := whole.Outline(r)
			if err != nil {
				t.Fatal(err)
			}
			if len(got) == 0 || len(got) != len(want) || got[0] != want[0] || got[len(got)-1] != want[len(want)-1] {
				t.Errorf("%s: %q has another outline", name, r)
			}
			a, _ := cut.Advance(r)
			if b, _ := whole.Advance(r); a != b {
				t.Errorf("%s: %q is %d wide, was %d", name, r, a, b)
			}
		}
		if got, err := cut.Outline('W'); err != nil || len(got) != 0 {
			t.Errorf("%s: W was not asked for and has %d steps, %v", name, len(got), err)
		}
	}
}

func TestWOFFIsTheSameTwice(t *testing.T) {
	a, err := WOFF("Go Bold", []rune("abc"))
	if err != nil {
		t.Fatal(err)
	}
	if b, _ := WOFF("Go Bold", []rune("cba")); !bytes.Equal(a, b) {
		t.Error("the order of runes changes the file")
	}
	if _, err := WOFF("Gone", nil); err == nil {
		t.Error("a font that is not there")
	}
}

func mustOpen(t *testing.T, name string) *Face {
	t.Helper()
	f, err := Open(name)
	if err != nil {
		t.Fatal(err)
	}
	return f
}
