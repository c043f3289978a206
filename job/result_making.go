package job

// MakingFacts are how the frames are made once their parts are sawn: gluing up,
// sanding, finish, the dry lay.
type MakingFacts struct{}
