package unit_test

import (
	"errors"
	"fmt"

	"bowerwright/unit"
)

func ExampleParseLength() {
	for _, text := range []string{"10 3/8 in", `5' 6 1/2"`, "⅜ in", "26.4 cm"} {
		l, err := unit.ParseLength(text, unit.NoUnit)
		fmt.Println(int64(l), err)
	}
	// Output:
	// 263525000 <nil>
	// 1689100000 <nil>
	// 9525000 <nil>
	// 264000000 <nil>
}

func ExampleParseLength_refused() {
	_, err := unit.ParseLength("10,5 in", unit.NoUnit)
	var e *unit.ParseError
	if errors.As(err, &e) {
		fmt.Printf("at byte %d: %s\nwrite %s\n", e.Offset, e.Problem, e.Write)
	}
	// Output:
	// at byte 2: a comma may mark decimals or thousands
	// write 10.5 in
}

func ExampleFormat() {
	l := 10*unit.Inch + 3*unit.Inch/8
	fmt.Println(unit.Format(l, unit.Style{}))
	fmt.Println(unit.Format(l, unit.Style{System: unit.Metric}))
	fmt.Println(unit.Format(l, unit.Style{System: unit.Metric, Mark: unit.Millimetre / 2}))
	// Output:
	// 10 3/8 in
	// 264 mm
	// 263.5 mm
}

func ExampleFormatOverall() {
	l := 90*unit.Inch + unit.Inch/16
	fmt.Println(unit.FormatOverall(l, unit.Style{}))
	fmt.Println(unit.FormatOverall(l, unit.Style{System: unit.Metric}))
	// Output:
	// 7 ft 6 1/16 in
	// 2288 mm
}

func ExampleFormatMass() {
	fmt.Println(unit.FormatMass(61.2*unit.Pound, unit.US))
	fmt.Println(unit.FormatMass(28, unit.Metric))
	// Output:
	// 62 lb (28 kg)
	// 28 kg (62 lb)
}
