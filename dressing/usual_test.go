package dressing

import (
	"testing"

	"bowerwright/assume"
)

func TestUsual(t *testing.T) {
	l := Usual(assume.BuiltInBook().Reader())
	want(t, "closes", l.Closes, 1, 1e-12)
	want(t, "in front", l.Front, 76.2, 1e-9)
	b, err := assume.Parse("id,name,value,unit,low,high,status,source,note\ndress.front,front,1,lb,0,2,memory,x,\n")
	if err != nil {
		t.Fatal(err)
	}
	defer func() {
		if recover() == nil {
			t.Error("a length in pounds is read")
		}
	}()
	Usual(b.Reader())
}
