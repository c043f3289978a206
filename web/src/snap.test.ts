import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, test } from 'vitest';
import { applyAll, boxOf, dist, faceOf, type Pose } from './geom';
import { attach, overlap, placedAt, poseOf, snap, type Placed, type Shape, type Snap, type SnapSettings } from './snap';
import type { XY } from './types';

function regular(n: number, side: number): XY[] {
  const r = side / (2 * Math.sin(Math.PI / n));
  return Array.from({ length: n }, (_, i): XY => {
    const a = -Math.PI / 2 + Math.PI / n - (2 * Math.PI) / n + (2 * Math.PI * i) / n;
    return [r * Math.cos(a), r * Math.sin(a)];
  });
}

const hexagon: Shape = { outline: regular(6, 200), inside: regular(6, 178), open: false };
const square: Shape = { outline: regular(4, 100), inside: regular(4, 62), open: false };
const set: SnapSettings = { gap: 0.8, tolerance: 0.8, capture: 30, mark: 1.5875, floor: null, origin: [0, 0] };
const still: Pose = { mirror: false, turn: 0, shift: [0, 0] };
const stands: Placed = { ...hexagon, id: 'A', mirror: false };

describe('attach', () => {
  test.each([false, true])('lays sides on each other, mirrored %s', (mirror) => {
    for (let toSide = 1; toSide <= 6; toSide++) {
      for (let side = 1; side <= 4; side++) {
        const pose = attach(square, mirror, stands, { side, to: 'A', toSide, align: 'centred', shift: 0 }, 0.8);
        const outline = applyAll(pose, square.outline);
        const ours = faceOf(outline, side, mirror);
        const theirs = faceOf(stands.outline, toSide, false);
        expect(ours.out[0]).toBeCloseTo(-theirs.out[0], 9);
        expect(ours.out[1]).toBeCloseTo(-theirs.out[1], 9);
        expect(dist([(ours.from[0] + ours.to[0]) / 2, (ours.from[1] + ours.to[1]) / 2], [(theirs.from[0] + theirs.to[0]) / 2, (theirs.from[1] + theirs.to[1]) / 2])).toBeCloseTo(0.8, 9);
        expect(overlap(placedAt(square, pose), stands)).toBeLessThan(1e-6);
      }
    }
  });
  test('flush ends are level', () => {
    const theirs = faceOf(stands.outline, 2, false);
    const pose = attach(square, false, stands, { side: 1, to: 'A', toSide: 2, align: 'flush at start', shift: 0 }, 0);
    const ours = faceOf(applyAll(pose, square.outline), 1, false);
    expect(Math.min(dist(ours.from, theirs.from), dist(ours.to, theirs.from))).toBeCloseTo(0, 9);
  });
});

describe('snap', () => {
  test('what snapped snaps to the same place again', () => {
    const at = attach(square, false, stands, { side: 3, to: 'A', toSide: 3, align: 'flush at end', shift: 0 }, 0.8);
    const held = snap([stands], square, { ...at, shift: [at.shift[0] + 7, at.shift[1] + 5] }, set);
    expect(held?.hold).toMatchObject({ side: 3, to: 'A', toSide: 3, align: 'flush at end' });
    const again = snap([stands], square, held!.pose, set);
    expect(again?.hold).toEqual(held?.hold);
  });
  test('out of reach it stays free', () => {
    expect(snap([stands], square, { ...still, shift: [900, 900] }, set)).toBeNull();
  });
  test('near the floor it stands level', () => {
    const held = snap([], hexagon, { ...still, turn: 0.1, shift: [500, 190] }, { ...set, capture: 60, floor: 0 });
    expect(held?.hold).toBeNull();
    expect(boxOf(held!.outline).foot).toBeCloseTo(0, 6);
    expect(held!.outline.filter((p) => Math.abs(p[1]) < 1e-6)).toHaveLength(2);
  });
});

test('the pose of a placed outline is found again', () => {
  for (const mirror of [false, true]) {
    const pose: Pose = { mirror, turn: 1.1, shift: [30, -4] };
    const found = poseOf(square, applyAll(pose, square.outline), mirror);
    expect(found.turn).toBeCloseTo(1.1, 9);
    expect(found.shift[0]).toBeCloseTo(30, 9);
  }
});

// The vectors that package layout writes and is held to.
interface Spot {
  kind: string;
  mirror: boolean;
  turn: number;
  at: XY;
}
const vectors = JSON.parse(readFileSync(fileURLToPath(new URL('../../layout/testdata/snap.json', import.meta.url)), 'utf8')) as {
  kinds: Record<string, { outside: XY[]; inside: XY[]; open: boolean }>;
  scenes: Record<string, (Spot & { id: string })[]>;
  cases: any[];
};
const shapes = new Map(Object.entries(vectors.kinds).map(([name, k]): [string, Shape] => [name, { outline: k.outside, inside: k.inside, open: k.open }]));
const poseAt = (s: Spot): Pose => ({ mirror: s.mirror, turn: (s.turn * Math.PI) / 180, shift: s.at });

// Wanted figures are rounded to a millionth.
const close = (got: number, want: number): void => expect(Math.abs(got - want)).toBeLessThan(2e-6);

function compare(got: Snap, want: any): void {
  const on = got.hold ? 'side' : got.corner ? 'corner' : 'floor';
  expect(on).toBe(want.on);
  if (got.hold) {
    const { to, side, toSide, align } = got.hold;
    expect({ to, side, toSide, align }).toEqual({ to: want.to, side: want.side, toSide: want.toSide, align: want.align });
    close(got.hold.shift, want.shift);
  }
  if (got.corner) expect(got.corner).toEqual({ to: want.to, corner: want.corner, toCorner: want.toCorner });
  close(Math.sin((got.pose.turn - (want.turn * Math.PI) / 180) / 2) * 360 / Math.PI, 0);
  close(got.off, want.off);
  want.outline.forEach((p: XY, i: number) => {
    close(got.outline[i][0], p[0]);
    close(got.outline[i][1], p[1]);
  });
}

describe('the vectors of package layout', () => {
  test('are there', () => expect(vectors.cases.length).toBeGreaterThanOrEqual(200));
  test.each(vectors.cases.map((c, i) => ({ i, c, name: `${i}: ${c.held.kind} in ${c.scene}` })))('$name', ({ c }) => {
    const frames = vectors.scenes[c.scene].map((f) => placedAt(shapes.get(f.kind)!, poseAt(f), f.id));
    const got = snap(frames, shapes.get(c.held.kind)!, poseAt(c.held), { gap: c.gap, tolerance: c.tolerance, capture: c.capture, mark: c.mark, floor: c.floor ?? null, origin: c.origin });
    if (!c.want) return expect(got).toBeNull();
    expect(got).not.toBeNull();
    compare(got!, c.want);
  });
});
