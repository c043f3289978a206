package job

import "bowerwright/price"

// A BuyingAsked is what the job says about prices, packs and tax. The zero value
// has no prices.
type BuyingAsked struct {
	// Prices are what files say things cost: the shop file's, then the job
	// file's, then the price list's. Place is the path in the file.
	Prices []price.Offer
	Tax    TaxAsked
	InHand []InHand // the shop file's, then the job file's, which go over them by name
}

// An InHand is so much of a thing that is there already. Holds of no pack is
// nothing.
type InHand struct {
	Name  string
	Holds price.Quantity
	From  string
	Place string // its path in the file
}

// A TaxAsked is how prices are taxed. The zero value says nothing of tax: no
// tax is added.
type TaxAsked struct {
	Given    bool
	Rate     price.Rate
	Included bool // prices include it; with a Rate of 0 nothing is known but that
}
