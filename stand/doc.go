// Package stand works out whether a set piece stays on its feet, and how many
// people it takes to get it there.
//
// # Standing
//
// For each way of dressing, dry and soaked, the whole is pushed over every edge
// of the hull on which it stands, and along the floor, in 36 directions and in
// the worst direction that there is: by the level load of exhibition rules, by a
// push at shoulder height, by a crowd that leans, by a gust. A load is turned
// with its full force, as if the piece were as broad from every side; wind at a
// slant is a fifth stronger. The sum is
//
//	what holds it       0.9 x weight x lever, ballast, stakes
//	-------------  =  ---------------------------------------------
//	what tips it      force x height of the force, the floor's lean
//
// and for sliding the same with friction. It should be 1.5 or more. The Ratio of
// a finding is what is wanted over what there is: up to a half is well inside,
// up to one near the limit, beyond it over. All these figures are assumptions
// that can be edited, with their sources; none of them is written here.
//
// From the same sums come the answers: the largest gust and the largest push by
// calculation, the ballast that is missing and the fewest units that make it up,
// the base that would do without, and in which order dressing comes down.
//
// # Lifting
//
// How much of a rigid piece each hand carries, what it takes to tilt it up about
// its heel, and how many people a lift wants: by the HSE's guideline weights and
// team factors, with what the NIOSH lifting equation recommends for one person
// beside it, since that one does not speak of teams.
//
// # Where things are
//
// Plan and heights are those of package base: float64 mm, x to the right as seen
// from the front, y backwards from the foremost front edges, heights from the
// floor. A direction is the one in which something pushes, anticlockwise as seen
// from above from x: a quarter turn is backwards, away from the guests. Forces
// are N, moments N mm.
//
// # The promise
//
// Equal input gives equal output. More gust, push or solidity, less ballast or a
// smaller hull never improve a finding. A limit is never rounded up.
//
// # What it does not know
//
// Knots, split ends and bad glue, and what the base itself bears. Gusts between
// buildings, flapping cloth, children who climb, people who lean from one side
// and are let go. It never says that anything may be relied on: it is a working
// estimate, not an engineer's certificate.
package stand
