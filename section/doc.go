// Package section finds how few units a set piece travels in, and in which
// order it is put together and taken down.
//
// A [Problem] is the frames, the seams between them and what a section must
// keep to; [Solve] gives a [Plan]: every frame in exactly one section, every
// section connected by its own seams, passing and light enough, and able to
// bear being carried. Fewest sections first, then fewest site screws, then the
// evenest masses (the least sum of squares). A [Refutation] shows that one
// fewer is impossible; a program that shares no code with the search replays
// it, and goes over the plan, before either is given out. Where the work
// allowed ran out, the plan says how few have not been ruled out.
//
// [Assembly.Arrange] and [Assembly.Strike] give the order of work, [Travel] all of
// it: the sections in the shop, the set piece on
// site, and the strike. A separate program replays that too.
//
// Lengths are float64 millimetres, masses kilograms, times minutes. Work is
// counted in steps, never in time: the same problem gives the same plan.
//
// The package knows no timber and no doors: what passes, weighs and bears is
// asked of its caller. It takes on trust that a part of what passes passes
// too, as it is with a convex hull and with a weight. Bearing is not taken so.
package section
