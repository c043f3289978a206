// Where a frame in hand comes to lie while it is dragged: side to side with a
// frame that stands, else corner on corner, else on the floor. This is
// layout.Snap in TypeScript, held to the same vectors; why it is as it is stands
// there. The server lays out anew what is set down.

import type { Align, Hold, XY } from './types';
import { add, along, apply, applyAll, boxOf, boxesWithin, centre, cross, dist, dot, faceOf, middle, mul, sub, wrap, type Box, type Face, type Pose } from './geom';

export interface Shape {
  outline: XY[]; // as the kind has it, counter-clockwise
  inside: XY[];
  open: boolean; // its last side is no board
}

export interface Placed extends Shape {
  id: string;
  mirror: boolean; // outline and inside are where it stands
}

export interface SnapSettings {
  gap: number; // between the faces of a seam
  tolerance: number; // of a joint
  capture: number;
  mark: number; // 0: places stay as held
  floor: number | null; // height of the floor line
  origin: XY; // the zero of the places in the job file
}

// A CornerHold puts corner on corner, the frame turned as it is held.
export interface CornerHold {
  to: string;
  corner: number;
  toCorner: number;
}

export interface Snap {
  hold: Hold | null;
  corner: CornerHold | null; // with neither it stands on the floor
  pose: Pose;
  outline: XY[];
  contact: [XY, XY] | null; // where the sides meet
  off: number;
}

export const aligns: Align[] = ['centred', 'flush at start', 'flush at end'];

const snapTurn = Math.PI / 9;
const snapNamed = 0.5;
const same = 1e-6;
export const leastSeam = 12.7;
const seamAngle = (2 * Math.PI) / 180;

export const sidesOf = (s: Shape): number => (s.open ? s.outline.length - 1 : s.outline.length);

const angle = (p: XY): number => Math.atan2(p[1], p[0]);

export const woodBox = (s: Shape): Box => boxOf(s.open ? [...s.outline, ...s.inside] : s.outline);

// placedAt is a shape at a pose.
export function placedAt(shape: Shape, pose: Pose, id = ''): Placed {
  return { id, mirror: pose.mirror, open: shape.open, outline: applyAll(pose, shape.outline), inside: applyAll(pose, shape.inside) };
}

// attach gives the pose that lays a side of a frame in hand on a side of a
// placed one, the two gap mm apart.
export function attach(shape: Shape, mirror: boolean, to: Placed, hold: Hold, gap: number): Pose {
  const theirs = faceOf(to.outline, hold.toSide, to.mirror);
  const pose: Pose = { mirror, turn: 0, shift: [0, 0] };
  const flat = faceOf(applyAll(pose, shape.outline), hold.side, mirror);
  pose.turn = wrap(angle(theirs.out) + Math.PI - angle(flat.out));
  const ours = faceOf(applyAll(pose, shape.outline), hold.side, mirror);
  const ends = [along(theirs, ours.from), along(theirs, ours.to)].sort((a, b) => a - b);
  let by = hold.shift;
  if (hold.align === 'flush at start') by -= ends[0];
  else if (hold.align === 'flush at end') by += theirs.length - ends[1];
  else by += (theirs.length - ends[0] - ends[1]) / 2;
  const off = gap - dot(sub(ours.from, theirs.from), theirs.out);
  pose.shift = add(mul(theirs.dir, by), mul(theirs.out, off));
  return pose;
}

// contactOf is the stretch over which two sides lie on each other.
export function contactOf(outline: XY[], mirror: boolean, side: number, to: Placed, toSide: number): [XY, XY] | null {
  const theirs = faceOf(to.outline, toSide, to.mirror);
  const stretch = stretchOf(theirs, faceOf(outline, side, mirror));
  if (!stretch) return null;
  return [add(theirs.from, mul(theirs.dir, stretch[0])), add(theirs.from, mul(theirs.dir, stretch[1]))];
}

// stretchOf is the part of face a that looks straight at face b.
function stretchOf(a: Face, b: Face): [number, number] | null {
  if (dot(a.out, b.out) > -Math.cos(seamAngle)) return null;
  const start = along(a, b.to);
  const end = along(a, b.from);
  const from = Math.max(Math.min(start, end), 0);
  const to = Math.min(Math.max(start, end), a.length);
  return to - from >= leastSeam ? [from, to] : null;
}

// held makes the snap of one way of holding.
export function held(shape: Shape, mirror: boolean, to: Placed, hold: Hold, gap: number, off = 0): Snap {
  const pose = attach(shape, mirror, to, hold, gap);
  const outline = applyAll(pose, shape.outline);
  return { hold, corner: null, pose, outline, contact: contactOf(outline, mirror, hold.side, to, hold.toSide), off };
}

// standing puts a frame down on the floor, as it is turned.
export function standing(shape: Shape, pose: Pose): Snap {
  const foot = woodBox(placedAt(shape, pose)).foot;
  const down: Pose = { ...pose, shift: [pose.shift[0], pose.shift[1] - foot] };
  return { hold: null, corner: null, pose: down, outline: applyAll(down, shape.outline), contact: null, off: 0 };
}

// How a frame is drawn, the strongest first.
const ways = [overSides, overCorners, overFloor];

// snap finds the place nearest to where a frame is held at which it is free, or
// null. From a corner or the floor it is drawn on to what is near enough from
// there, so that what has snapped stays.
export function snap(frames: Placed[], shape: Shape, pose: Pose, s: SnapSettings): Snap | null {
  let [got, how] = snapOnce(frames, shape, pose, s);
  while (got && how > 0) {
    const [next, better] = snapOnce(frames, shape, got.pose, s);
    if (!next || better >= how) break;
    got = { ...next, off: next.off + got.off };
    how = better;
  }
  return got;
}

function snapOnce(frames: Placed[], shape: Shape, pose: Pose, s: SnapSettings): [Snap | null, number] {
  const hand = placedAt(shape, pose);
  for (const [how, offers] of ways.entries()) {
    const best = nearest(offers(frames, shape, pose, hand, s), frames, shape, s);
    if (best) return [best, how];
  }
  return [null, ways.length];
}

function nearest(offers: Snap[], frames: Placed[], shape: Shape, s: SnapSettings): Snap | null {
  while (offers.length) {
    let best = 0;
    for (let i = 1; i < offers.length; i++) if (offers[i].off < offers[best].off - same) best = i;
    if (isFree(offers[best], frames, shape, s)) return offers[best];
    offers.splice(best, 1);
  }
  return null;
}

function isFree(o: Snap, frames: Placed[], shape: Shape, s: SnapSettings): boolean {
  const f = placedAt(shape, o.pose);
  const box = woodBox(f);
  if (s.floor !== null && box.foot < s.floor - s.tolerance) return false;
  for (const other of frames) if (boxesWithin(box, woodBox(other), 0) && overlap(f, other) > s.tolerance) return false;
  const to = o.corner && frames.find((g) => g.id === o.corner!.to);
  return !to || !seamed(f, to, s);
}

// overlap is the deepest that two boards of two frames reach into each other.
export function overlap(f: Placed, g: Placed): number {
  let deepest = 0;
  const theirs = boardsOf(g);
  for (const a of boardsOf(f)) {
    for (const b of theirs) if (boxesWithin(a.box, b.box, 0)) deepest = Math.max(deepest, Math.min(reachInto(a.corners, b.corners), reachInto(b.corners, a.corners)));
  }
  return deepest;
}

function boardsOf(f: Placed): { corners: XY[]; box: Box }[] {
  const n = f.outline.length;
  return Array.from({ length: sidesOf(f) }, (_, k) => {
    const next = (k + 1) % n;
    const c = [f.outline[k], f.outline[next], f.inside[next], f.inside[k]];
    if (f.mirror) [c[1], c[3]] = [c[3], c[1]];
    return { corners: c, box: boxOf(c) };
  });
}

function reachInto(a: XY[], b: XY[]): number {
  let least = Infinity;
  for (let i = 0; i < a.length; i++) {
    const edge = sub(a[(i + 1) % a.length], a[i]);
    const length = Math.hypot(edge[0], edge[1]);
    if (length === 0) continue;
    let most = -Infinity;
    for (const p of b) most = Math.max(most, cross(edge, sub(p, a[i])) / length);
    least = Math.min(least, most);
  }
  return least;
}

// seamed says whether two frames have a seam, side to side.
export function seamed(f: Placed, g: Placed, s: { gap: number; tolerance: number }): boolean {
  return seams(f, g, s) > 0;
}

// seams counts the seams of two frames.
export function seams(f: Placed, g: Placed, s: { gap: number; tolerance: number }): number {
  let count = 0;
  for (let i = 1; i <= sidesOf(f); i++) {
    for (let j = 1; j <= sidesOf(g); j++) {
      const a = faceOf(f.outline, i, f.mirror);
      const b = faceOf(g.outline, j, g.mirror);
      const stretch = stretchOf(a, b);
      if (!stretch) continue;
      const gaps = stretch.map((d) => {
        const p = add(a.from, mul(a.dir, d));
        return dot(sub(nearOn(b, p), p), a.out);
      });
      if (Math.min(...gaps) >= -s.tolerance && Math.max(...gaps) <= s.gap + s.tolerance) count++;
    }
  }
  return count;
}

function nearOn(f: Face, p: XY): XY {
  return add(f.from, mul(f.dir, Math.max(0, Math.min(f.length, along(f, p)))));
}

function overSides(frames: Placed[], shape: Shape, pose: Pose, hand: Placed, s: SnapSettings): Snap[] {
  const offers: Snap[] = [];
  for (const to of frames) {
    for (let toSide = 1; toSide <= sidesOf(to); toSide++) {
      const theirs = faceOf(to.outline, toSide, to.mirror);
      for (let side = 1; side <= sidesOf(hand); side++) {
        const at = placeAlong(theirs, faceOf(hand.outline, side, hand.mirror), s);
        if (at) offers.push(held(shape, pose.mirror, to, { side, to: to.id, toSide, align: at.align, shift: at.shift }, s.gap, at.off));
      }
    }
  }
  return offers;
}

function placeAlong(theirs: Face, ours: Face, s: SnapSettings): { align: Align; shift: number; off: number } | null {
  if (Math.min(theirs.length, ours.length) < leastSeam) return null;
  const turn = wrap(angle(theirs.out) + Math.PI - angle(ours.out));
  const mid = middle(ours.from, ours.to);
  const away = dot(sub(mid, theirs.from), theirs.out) - s.gap;
  if (Math.abs(turn) > snapTurn + same || Math.abs(away) > s.capture + same) return null;
  const at = along(theirs, mid);
  const half = ours.length / 2;
  const { align, shift, place } = alignOf(theirs.length, ours.length, at, s);
  if (Math.min(theirs.length, place + half) - Math.max(0, place - half) < leastSeam - same) return null;
  return { align, shift, off: Math.hypot(Math.hypot(away, at - place), turn * half) };
}

// alignOf takes a named place that is near enough, else the one with the least
// shift; from half way between two of them it goes on until nothing changes.
function alignOf(theirs: number, ours: number, at: number, s: SnapSettings): { align: Align; shift: number; place: number } {
  const named = [theirs / 2, ours / 2, theirs - ours / 2];
  const shiftTo = (mm: number): number => {
    const shift = marks(mm, s.mark);
    return Math.abs(shift) <= snapNamed * s.capture + same ? 0 : shift;
  };
  for (;;) {
    let best = 0;
    let least = shiftTo(at - named[0]);
    named.forEach((place, i) => {
      const shift = shiftTo(at - place);
      const nearer = shift === 0 && Math.abs(at - place) < Math.abs(at - named[best]) - same;
      if (Math.abs(shift) < Math.abs(least) - same || (least === 0 && nearer)) [best, least] = [i, shift];
    });
    const place = named[best] + least;
    if (Math.abs(place - at) <= same || least === 0) return { align: aligns[best], shift: least, place };
    at = place;
  }
}

const marks = (mm: number, mark: number): number => (mark > 0 ? Math.floor((mm + same) / mark + 0.5) * mark : mm);

function overCorners(frames: Placed[], shape: Shape, pose: Pose, hand: Placed, s: SnapSettings): Snap[] {
  const offers: Snap[] = [];
  for (const to of frames) {
    to.outline.forEach((there, j) => {
      hand.outline.forEach((here, i) => {
        const off = dist(here, there);
        if (off > s.capture + same || !isCorner(to, j) || !isCorner(hand, i)) return;
        const moved: Pose = { ...pose, shift: add(pose.shift, sub(there, here)) };
        offers.push({ hold: null, corner: { to: to.id, corner: i + 1, toCorner: j + 1 }, pose: moved, outline: applyAll(moved, shape.outline), contact: null, off });
      });
    });
  }
  return offers;
}

function isCorner(f: Shape, k: number): boolean {
  const n = f.outline.length;
  const at = f.outline[k];
  return Math.max(dist(at, f.outline[(k + 1) % n]), dist(at, f.outline[(k + n - 1) % n])) >= leastSeam;
}

function overFloor(_: Placed[], shape: Shape, pose: Pose, hand: Placed, s: SnapSettings): Snap[] {
  const off = Math.abs(woodBox(hand).foot - (s.floor ?? 0));
  if (s.floor === null || off > s.capture + same) return [];
  const moved: Pose = { ...pose, turn: wrap(pose.turn + level(pose, hand)) };
  moved.shift = add(moved.shift, sub(centre(hand.outline), apply(moved, centre(shape.outline))));
  const foot = woodBox(placedAt(shape, moved)).foot;
  moved.shift = [marks(moved.shift[0] - s.origin[0], s.mark) + s.origin[0], moved.shift[1] + s.floor - foot];
  return [{ hold: null, corner: null, pose: moved, outline: applyAll(moved, shape.outline), contact: null, off }];
}

// level is the turn that makes a frame stand as its kind does, or on a side.
function level(pose: Pose, hand: Placed): number {
  let best = wrap(-pose.turn);
  let found = true;
  if (Math.abs(best) > snapTurn + same) [best, found] = [0, false];
  for (let side = 1; side <= sidesOf(hand); side++) {
    const turn = wrap(-Math.PI / 2 - angle(faceOf(hand.outline, side, hand.mirror).out));
    if (Math.abs(turn) > snapTurn + same || (found && Math.abs(turn) >= Math.abs(best) - same) || !standsOn(hand, side)) continue;
    [best, found] = [turn, true];
  }
  return best;
}

function standsOn(hand: Placed, side: number): boolean {
  const f = faceOf(hand.outline, side, hand.mirror);
  if (f.length < leastSeam) return false;
  return hand.outline.every((p, k) => Math.max(dot(sub(p, f.from), f.out), dot(sub(hand.inside[k], f.from), f.out)) <= same);
}

// poseOf finds the pose that a placed outline has, from its kind's.
export function poseOf(shape: Shape, outline: XY[], mirror: boolean): Pose {
  const pose: Pose = { mirror, turn: 0, shift: [0, 0] };
  const flat = applyAll(pose, shape.outline);
  pose.turn = wrap(angle(sub(outline[1], outline[0])) - angle(sub(flat[1], flat[0])));
  pose.shift = sub(outline[0], apply(pose, shape.outline[0]));
  return pose;
}
