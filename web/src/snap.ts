// Where a frame in hand comes to lie while it is dragged: side to side with a
// frame that stands, or on the floor. The server lays out anew what is set
// down; this is the preview, and package layout has the same in Go.

import type { Align, Hold, XY } from './types';
import { add, along, apply, applyAll, boxOf, boxesWithin, dot, faceOf, middle, mul, sub, wrap, type Face, type Pose } from './geom';

export interface Shape {
  outline: XY[]; // as the kind has it, counter-clockwise
  sides: number; // boards: one fewer than corners where it is open, none where it is sawn round
}

export interface Placed extends Shape {
  id: string;
  mirror: boolean; // its outline is where it stands
}

export interface Snap {
  hold: Hold | null; // null: it stands on the floor
  pose: Pose;
  outline: XY[];
  contact: [XY, XY] | null; // where the sides meet
}

export const aligns: Align[] = ['centred', 'flush at start', 'flush at end'];

// leastSeam is the shortest contact, in mm, that counts as lying against a side.
const leastSeam = 12.7;

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

const angle = (p: XY): number => Math.atan2(p[1], p[0]);

// contactOf is the stretch over which two sides lie on each other.
export function contactOf(outline: XY[], mirror: boolean, side: number, to: Placed, toSide: number): [XY, XY] | null {
  const theirs = faceOf(to.outline, toSide, to.mirror);
  const ours = faceOf(outline, side, mirror);
  const ends = [along(theirs, ours.from), along(theirs, ours.to)].sort((a, b) => a - b);
  const from = Math.max(0, ends[0]);
  const till = Math.min(theirs.length, ends[1]);
  if (till - from < leastSeam) return null;
  return [add(theirs.from, mul(theirs.dir, from)), add(theirs.from, mul(theirs.dir, till))];
}

// held makes the snap of one way of holding.
export function held(shape: Shape, mirror: boolean, to: Placed, hold: Hold, gap: number): Snap {
  const pose = attach(shape, mirror, to, hold, gap);
  const outline = applyAll(pose, shape.outline);
  return { hold, pose, outline, contact: contactOf(outline, mirror, hold.side, to, hold.toSide) };
}

// standing puts a frame down on the floor, as it is turned.
export function standing(shape: Shape, pose: Pose): Snap {
  const foot = boxOf(applyAll(pose, shape.outline)).foot;
  const down: Pose = { ...pose, shift: [pose.shift[0], pose.shift[1] - foot] };
  return { hold: null, pose: down, outline: applyAll(down, shape.outline), contact: null };
}

// Limits of the capture: a side is taken when it is turned by less than this,
// and a place along it that has a name draws from further off than a mark does.
const turnReach = Math.PI / 9;

// snap finds the attachment nearest to where a frame is held, no further than
// capture mm off, or null. Of two equally near the earlier frame, the lower
// side and the earlier alignment win.
export function snap(placed: Placed[], shape: Shape, pose: Pose, capture: number, mark: number, gap: number): Snap | null {
  const outline = applyAll(pose, shape.outline);
  const box = boxOf(outline);
  let best: { hold: Hold; to: Placed; off: number } | null = null;
  for (const to of placed) {
    if (!boxesWithin(box, boxOf(to.outline), capture)) continue;
    for (let toSide = 1; toSide <= to.sides; toSide++) {
      const theirs = faceOf(to.outline, toSide, to.mirror);
      for (let side = 1; side <= shape.sides; side++) {
        const found = nearest(theirs, faceOf(outline, side, pose.mirror), capture, mark, gap);
        if (found && (!best || found.off < best.off - 1e-6)) {
          best = { hold: { side, to: to.id, toSide, align: found.align, shift: found.shift }, to, off: found.off };
        }
      }
    }
  }
  if (best) return held(shape, pose.mirror, best.to, best.hold, gap);
  if (Math.abs(box.foot) <= capture) return standing(shape, level(shape, pose));
  return null;
}

// nearest is the best place of one side along another, and how far off it is.
function nearest(theirs: Face, ours: Face, capture: number, mark: number, gap: number): { align: Align; shift: number; off: number } | null {
  const turned = wrap(angle(theirs.out) + Math.PI - angle(ours.out));
  if (Math.abs(turned) > turnReach) return null;
  const mid = middle(ours.from, ours.to);
  const away = dot(sub(mid, theirs.from), theirs.out) - gap;
  if (Math.abs(away) > capture) return null;
  const at = along(theirs, mid);
  const half = ours.length / 2;
  if (Math.min(theirs.length, at + half) - Math.max(0, at - half) < leastSeam) return null;
  const named: Record<Align, number> = {
    centred: theirs.length / 2,
    'flush at start': half,
    'flush at end': theirs.length - half,
  };
  let align: Align = 'centred';
  let off = Infinity;
  for (const a of aligns) {
    const d = Math.abs(at - named[a]);
    if (d < off - 1e-6) {
      align = a;
      off = d;
    }
  }
  if (off <= capture * 0.6) return { align, shift: 0, off: Math.hypot(away, off) };
  const shift = Math.round((at - named[align]) / mark) * mark;
  return { align, shift, off: Math.hypot(away, capture * 0.6) };
}

// level turns a frame so that a side that is nearly level lies flat.
function level(shape: Shape, pose: Pose): Pose {
  const outline = applyAll(pose, shape.outline);
  const open = shape.sides < outline.length;
  let turn = 0;
  let lowest = Infinity;
  const count = open && shape.sides > 0 ? outline.length : shape.sides;
  for (let side = 1; side <= count; side++) {
    const f = faceOf(outline, side, pose.mirror);
    const by = wrap(-Math.PI / 2 - angle(f.out));
    const height = (f.from[1] + f.to[1]) / 2;
    if (Math.abs(by) <= turnReach && height < lowest) {
      lowest = height;
      turn = by;
    }
  }
  if (turn === 0) return pose;
  const foot = middle(outline[0], outline[1]);
  const turned: Pose = { ...pose, turn: wrap(pose.turn + turn) };
  const now = applyAll(turned, shape.outline);
  return { ...turned, shift: add(turned.shift, sub(foot, middle(now[0], now[1]))) };
}

// poseOf finds the pose that a placed outline has, from its kind's.
export function poseOf(shape: Shape, outline: XY[], mirror: boolean): Pose {
  const pose: Pose = { mirror, turn: 0, shift: [0, 0] };
  const flat = applyAll(pose, shape.outline);
  pose.turn = wrap(angle(sub(outline[1], outline[0])) - angle(sub(flat[1], flat[0])));
  pose.shift = sub(outline[0], apply(pose, shape.outline[0]));
  return pose;
}
