// Points, moves and outlines in mm, as package geom has them: a move mirrors
// first (x to -x), then turns anticlockwise, then shifts.

import type { XY } from './types';

export interface Pose {
  mirror: boolean;
  turn: number; // radians
  shift: XY;
}

export const add = (a: XY, b: XY): XY => [a[0] + b[0], a[1] + b[1]];
export const sub = (a: XY, b: XY): XY => [a[0] - b[0], a[1] - b[1]];
export const mul = (a: XY, f: number): XY => [a[0] * f, a[1] * f];
export const dot = (a: XY, b: XY): number => a[0] * b[0] + a[1] * b[1];
export const cross = (a: XY, b: XY): number => a[0] * b[1] - a[1] * b[0];
export const dist = (a: XY, b: XY): number => Math.hypot(a[0] - b[0], a[1] - b[1]);
export const middle = (a: XY, b: XY): XY => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];

export function apply(m: Pose, p: XY): XY {
  const x = m.mirror ? -p[0] : p[0];
  const c = Math.cos(m.turn);
  const s = Math.sin(m.turn);
  return [x * c - p[1] * s + m.shift[0], x * s + p[1] * c + m.shift[1]];
}

export const applyAll = (m: Pose, outline: XY[]): XY[] => outline.map((p) => apply(m, p));

// wrap brings an angle into (-pi, pi].
export function wrap(a: number): number {
  const turned = a - 2 * Math.PI * Math.round(a / (2 * Math.PI));
  return turned <= -Math.PI ? turned + 2 * Math.PI : turned;
}

// A Face is a straight edge of a frame's wood with the direction out of it.
export interface Face {
  from: XY;
  to: XY;
  dir: XY;
  out: XY;
  length: number;
}

export function faceOf(outline: XY[], side: number, mirrored: boolean): Face {
  const from = outline[side - 1];
  const to = outline[side % outline.length];
  const length = dist(from, to);
  const dir = length > 0 ? mul(sub(to, from), 1 / length) : ([1, 0] as XY);
  // The wood is on the left of a side, on the right when the frame is mirrored.
  const left: XY = [-dir[1], dir[0]];
  return { from, to, dir, out: mirrored ? left : mul(left, -1), length };
}

export const along = (f: Face, p: XY): number => dot(sub(p, f.from), f.dir);

export interface Box {
  left: number;
  right: number;
  foot: number;
  top: number;
}

export function boxOf(points: XY[]): Box {
  const b = { left: Infinity, right: -Infinity, foot: Infinity, top: -Infinity };
  for (const [x, y] of points) {
    b.left = Math.min(b.left, x);
    b.right = Math.max(b.right, x);
    b.foot = Math.min(b.foot, y);
    b.top = Math.max(b.top, y);
  }
  return b;
}

export const boxesWithin = (a: Box, b: Box, reach: number): boolean =>
  a.left - reach <= b.right && b.left - reach <= a.right && a.foot - reach <= b.top && b.foot - reach <= a.top;

export function area(outline: XY[]): number {
  let sum = 0;
  outline.forEach((p, i) => (sum += cross(p, outline[(i + 1) % outline.length])));
  return sum / 2;
}

// centre is the middle of an outline's area.
export function centre(outline: XY[]): XY {
  const a = area(outline);
  if (Math.abs(a) < 1e-9) return outline[0] ?? [0, 0];
  let x = 0;
  let y = 0;
  outline.forEach((p, i) => {
    const q = outline[(i + 1) % outline.length];
    const c = cross(p, q);
    x += (p[0] + q[0]) * c;
    y += (p[1] + q[1]) * c;
  });
  return [x / (6 * a), y / (6 * a)];
}

export function contains(outline: XY[], p: XY): boolean {
  let inside = false;
  for (let i = 0, j = outline.length - 1; i < outline.length; j = i++) {
    const a = outline[i];
    const b = outline[j];
    if (a[1] > p[1] !== b[1] > p[1] && p[0] < ((b[0] - a[0]) * (p[1] - a[1])) / (b[1] - a[1]) + a[0]) inside = !inside;
  }
  return inside;
}

export function toSegment(a: XY, b: XY, p: XY): number {
  const d = sub(b, a);
  const l = dot(d, d);
  const t = l > 0 ? Math.max(0, Math.min(1, dot(sub(p, a), d) / l)) : 0;
  return dist(p, add(a, mul(d, t)));
}
