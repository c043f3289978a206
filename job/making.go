package job

// makeUp fills Result.Making, and says what else is sawn from the boards.
func (p *planner) makeUp() {}
