package job

// A BuyingAsked is what the job says about prices, packs and tax. The zero value
// has no prices.
type BuyingAsked struct{}
