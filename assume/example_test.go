package assume_test

import (
	"fmt"

	"bowerwright/assume"
)

func ExampleBook_With() {
	built := assume.BuiltInBook()
	shop, err := built.With(assume.Shop, assume.Kerf, 0.1)
	if err != nil {
		fmt.Println(err)
		return
	}
	r := shop.Reader()
	kerf := r.Get(assume.Kerf)
	fmt.Println(kerf.Value, kerf.Unit, "from the", kerf.Origin)
	fmt.Println(len(r.Used()), "used")
	_, err = shop.With(assume.Job, assume.Kerf, 3)
	fmt.Println(err)
	// Output:
	// 0.1 in from the shop file
	// 1 used
	// 3 in is out of range for cut.kerf: write 0 to 0.5 in
}
