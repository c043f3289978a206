// Package statics works out how a frame of sticks carries a load: how far every
// point moves, and what every stick, screw, contact and support bears.
//
// # The model
//
// A Model has nodes; members, which are straight, prismatic and elastic;
// springs, which stand for screws, brackets and soft ground; contacts, which
// push and never pull; and supports. Deflections are small and the material is
// linear: forces grow in step with the load until a contact opens.
//
// Members are Timoshenko beams: they bend both ways, stretch, twist after St
// Venant and shear. Their ends may stand off their nodes on rigid arms. A spring
// or a contact acts at one point, to which rigid arms reach from the two nodes
// it joins, so that no moment is lost between centre lines.
//
// # How things of the shop are put
//
//   - A glued mitre: one node for the two parts that meet. A mitre that gives: two
//     nodes in one place and, over its face, four springs.
//   - A seam: a node in the middle of either side, a spring for each screw, with
//     the seam's name, and contacts near the corners of the face.
//   - A foot screwed up through plywood: the same, with Ground for one of the
//     nodes. A bracket: a spring with Turn and Rock. A soft floor: contacts to
//     Ground, and springs Across for what keeps it from sliding.
//   - Hands: springs to Ground that are Switched, one for each place a hand might
//     take; a case names those that do. Ways out, such as a second screw, too.
//
// A row of screws that a frame hangs on, faces apart, is a hinge: the frame is
// Loose, if not Pushed. What a screw resists of that stands as its Rock. Nothing
// should be a million times as stiff as a stick to stand for rigid: the sums
// would have nothing left for the rest.
//
// # Units
//
// N, mm, N mm and MPa throughout; rotations in radians. Any other consistent set
// does as well, as nothing in the package has a size of its own.
//
// # What it promises
//
// Prepare finds an order of elimination once; Solve then answers case by case,
// for cases with different loads, and with springs switched on and off.
// Contacts make the energy of the frame a convex function, quadratic in pieces.
// Newton's method on the contacts that are closed, with an exact search along
// each step, goes down at every step and so never returns to where it was; after
// a stated number of steps it says that it has not settled and gives no figures.
// A frame that can move without resistance gets no figures either, but a picture
// of how it moves. The sums come with their residual and with the balance of
// loads and reactions, and a result that is not in balance is an error. The same
// model and case give the same bits in every run on one kind of machine.
//
// # What it does not know
//
// Strength, buckling, cracks, creep, friction, play in holes, and how a joint
// gives way. It does not judge; package stand does.
//
// # Sources
//
// The stiffness of a shear-flexible beam: Przemieniecki, Theory of Matrix
// Structural Analysis (1968), section 5.6. The method of contact: Newton's
// method for piecewise quadratic functions with exact line search, as in Fischer
// and Kanzow, On finite termination of an iterative method for linear
// complementarity problems (1996). Both cited from memory; the tests hold the
// element to closed forms and the contacts to trying every state.
package statics
