package job

// BuyingFacts are everything that is bought for the job, in whole packs, with
// what it costs.
type BuyingFacts struct{}
