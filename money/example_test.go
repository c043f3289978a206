package money_test

import (
	"fmt"

	"bowerwright/money"
)

func ExampleParse() {
	for _, text := range []string{"$4.49", "EUR 12", "12.5 GBP", "1,250"} {
		a, err := money.Parse(text, "")
		if err != nil {
			fmt.Println(err)
			continue
		}
		fmt.Println(a)
	}
	// Output:
	// 4.49 USD
	// 12.00 EUR
	// 12.50 GBP
	// "1,250": a comma may mark decimals or thousands; write 1250
}

func ExampleAmount_Split() {
	shares, _ := money.Amount{Minor: 100, Currency: "USD"}.Split(1, 1, 1)
	fmt.Println(shares)
	// Output: [0.34 USD 0.33 USD 0.33 USD]
}
