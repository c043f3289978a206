// What is in the person's hand at the floor, and what is done with it. The hand
// snaps by itself; what is set down goes to the server as a move.

import { add, apply, applyAll, area, boxOf, boxesWithin, centre, contains, dist, dot, faceOf, sub, toSegment, type Pose } from '../geom';
import type { OpenJob } from '../open.svelte';
import { attach, contactOf, held, overlap, placedAt, poseOf, seams, sidesOf, snap, standing, woodBox, type Placed, type Shape, type Snap } from '../snap';
import type { Align, Frame, Hold, Kind, View, XY } from '../types';

// At most so many px off, a side is taken.
export const capturePx = 22;
// A hair, mm: what is nearer than this to the floor or a side lies on it.
const hair = 1;
// Where the server does not say: the assumptions that hold for a job that names
// no seam gap and no joint tolerance, 1/32 in.
const usual = 25.4 / 32;

export interface InHand {
  kind: Kind;
  id: string | null; // null: new, from the rack
  label: string;
  pose: Pose | null; // null: held over the rack, nowhere yet
  snap: Snap | null;
  start: Pose | null; // where it was taken from
  wish: number; // the turn, radians, that it is given where the side does not say
  with: string[]; // frames that hold on to it and move along
  sent: boolean;
}

export interface FreeSide {
  to: Placed;
  side: number;
  free: [XY, XY];
}

export function shapeOf(kind: Kind): Shape {
  return { outline: kind.outline, inside: kind.inside, open: kind.open ?? kind.sides.length === kind.outline.length - 1 };
}

export class Hand {
  now = $state.raw<InHand | null>(null);
  chosen = $state.raw<string[]>([]);
  spoken = $state('');
  dragging = $state(false);

  kinds = $derived.by(() => new Map((this.job.view?.kinds ?? []).map((k) => [k.name, k])));

  constructor(readonly job: OpenJob) {}

  get view(): View {
    return this.job.view!;
  }

  get gap(): number {
    return this.view.gap ?? usual;
  }

  get tolerance(): number {
    return this.view.tolerance ?? usual;
  }

  get big(): number {
    return this.view.units === 'us' ? 25.4 : 10;
  }

  placed(f: Frame): Placed {
    const kind = this.kinds.get(f.kind);
    return { id: f.id, outline: f.outline, inside: f.inside, mirror: f.mirror, open: kind ? shapeOf(kind).open : false };
  }

  // others are the frames that stay while the one in hand moves.
  get others(): Placed[] {
    const gone = new Set([this.now?.id, ...(this.now?.with ?? [])]);
    return this.view.frames.filter((f) => !gone.has(f.id)).map((f) => this.placed(f));
  }

  frame(id: string | null): Frame | undefined {
    return this.view.frames.find((f) => f.id === id);
  }

  // followers are those that hold on to any of the given, one by one. Copies and
  // second holds do not matter here: the server knows.
  followers(ids: string[]): string[] {
    const out = new Set(ids);
    for (let more = true; more; ) {
      more = false;
      for (const f of this.view.frames) {
        const first = f.holds?.[0];
        if (first && !f.floor && out.has(first.to) && !out.has(f.id)) {
          out.add(f.id);
          more = true;
        }
      }
    }
    return [...out].filter((id) => !ids.includes(id));
  }

  choose(id: string, more: boolean): void {
    if (more) this.chosen = this.chosen.includes(id) ? this.chosen.filter((c) => c !== id) : [...this.chosen, id];
    else this.chosen = [id];
    this.say(this.chosen.length === 1 ? this.describe(this.chosen[0]) : `${this.chosen.length} frames chosen`);
  }

  letGo(): void {
    this.chosen = [];
  }

  describe(id: string): string {
    const f = this.frame(id);
    if (!f) return '';
    const near = new Set<string>();
    for (const s of this.view.seams) {
      if (s.a.frame === id) near.add(s.b.frame);
      if (s.b.frame === id) near.add(s.a.frame);
    }
    const labels = [...near].map((n) => this.frame(n)?.label ?? n);
    const title = this.kinds.get(f.kind)?.title ?? f.kind;
    return `${f.label}, ${title}${labels.length ? ', lies on ' + list(labels) : ', lies on no other frame'}`;
  }

  takeKind(kind: Kind): void {
    this.chosen = [];
    this.now = { kind, id: null, label: '', pose: null, snap: null, start: null, wish: 0, with: [], sent: false };
    this.say(`${kind.title} in hand. Tab goes to the next free side.`);
  }

  takeFrame(id: string): void {
    const f = this.frame(id);
    const kind = f && this.kinds.get(f.kind);
    if (!f || !kind) return;
    const pose = poseOf(shapeOf(kind), f.outline, f.mirror);
    this.chosen = [id];
    const mine: InHand = { kind, id, label: f.label, pose, snap: null, start: pose, wish: pose.turn, with: this.followers([id]), sent: false };
    this.now = mine;
    const hold = f.floor ? null : (f.holds?.[0] ?? null);
    const to = hold && hold.side ? this.others.find((o) => o.id === hold.to) : undefined;
    if (hold && to) this.now = { ...mine, snap: held(shapeOf(kind), f.mirror, to, { ...hold, align: hold.align || 'centred' }, this.gap) };
    else if (f.floor && boxOf(f.outline).foot < 1) this.now = { ...mine, snap: standing(shapeOf(kind), pose) };
    this.say(`${f.label} in hand. ${this.says()}`);
  }

  // dragTo moves what is in hand so that its middle follows the pointer, and
  // snaps it.
  dragTo(pose: Pose, capture: number): void {
    const n = this.now;
    if (!n) return;
    const shape = shapeOf(n.kind);
    const found = snap(this.others, shape, pose, { gap: this.gap, tolerance: this.tolerance, capture, mark: this.view.mark.mm, floor: 0, origin: this.view.origin ?? [0, 0] });
    const snapped = found && this.plainly(n, found);
    this.now = { ...n, pose: snapped?.pose ?? pose, snap: snapped };
  }

  // plainly says centred where sides are as long as each other: the outlines that
  // the page has are rounded, and their hair would choose one end.
  private plainly(n: InHand, found: Snap): Snap {
    const hold = found.hold;
    const to = hold && this.others.find((o) => o.id === hold.to);
    if (!hold || !to || hold.align === 'centred' || hold.shift !== 0) return found;
    const ours = faceOf(n.kind.outline, hold.side, false).length;
    if (Math.abs(ours - faceOf(to.outline, hold.toSide, to.mirror).length) > hair / 10) return found;
    return held(shapeOf(n.kind), found.pose.mirror, to, { ...hold, align: 'centred' }, this.gap);
  }

  // poseAt is the pose with the middle of the frame at a place.
  poseAt(p: XY): Pose {
    const n = this.now!;
    const pose: Pose = n.pose ?? { mirror: false, turn: 0, shift: [0, 0] };
    const c = centre(applyAll({ ...pose, shift: [0, 0] }, n.kind.outline));
    return { ...pose, shift: sub(p, c) };
  }

  // lay puts what is in hand on a side, in the turn that is nearest to how it was
  // taken up or turned since.
  lay(to: Placed, toSide: number, near?: XY): void {
    const n = this.now;
    if (!n || n.kind.sides.length === 0) return;
    const mirror = n.pose?.mirror ?? false;
    const turn = n.wish;
    let best: Hold | null = null;
    let least = Infinity;
    for (const side of n.kind.sides) {
      const hold: Hold = { side: side.n, to: to.id, toSide, align: 'centred', shift: 0 };
      const pose = attach(shapeOf(n.kind), mirror, to, hold, this.gap);
      const off = Math.abs(Math.atan2(Math.sin(pose.turn - turn), Math.cos(pose.turn - turn)));
      if (off < least - 1e-6) [best, least] = [hold, off];
    }
    if (!best) return;
    if (near) best = { ...best, align: this.alignAt(to, best, near) };
    this.put(held(shapeOf(n.kind), mirror, to, best, this.gap));
  }

  // alignAt is the named place along a side that is nearest to where it was
  // tapped.
  private alignAt(to: Placed, hold: Hold, near: XY): Align {
    const face = faceOf(to.outline, hold.toSide, to.mirror);
    const at = dot(sub(near, face.from), face.dir) / face.length;
    const mine = this.now!.kind.outline;
    const ours = dist(mine[hold.side - 1], mine[hold.side % mine.length]);
    if (Math.abs(ours - face.length) < face.length * 0.2) return 'centred';
    return at < 0.3 ? 'flush at start' : at > 0.7 ? 'flush at end' : 'centred';
  }

  stand(x: number): void {
    const n = this.now;
    if (!n) return;
    const upright: Pose = { mirror: n.pose?.mirror ?? false, turn: n.wish, shift: [0, 0] };
    this.now = { ...n, pose: upright };
    const pose = this.poseAt([x, 0]);
    this.put(standing(shapeOf(n.kind), pose));
  }

  private put(s: Snap): void {
    this.now = { ...this.now!, pose: s.pose, snap: s };
    this.say(this.says());
  }

  // freeSides are the stretches of sides on which nothing lies, frame by frame,
  // long enough to lay something on; the floor's two ends come last.
  freeSides(): FreeSide[] {
    const out: FreeSide[] = [];
    const all = this.others;
    for (const to of all) {
      for (let side = 1; side <= sidesOf(to); side++) {
        const face = faceOf(to.outline, side, to.mirror);
        if (face.from[1] < 2 && face.to[1] < 2) continue;
        if (all.some((o) => o !== to && this.covers(o, to, side))) continue;
        out.push({ to, side, free: [face.from, face.to] });
      }
    }
    return out;
  }

  private covers(o: Placed, to: Placed, toSide: number): boolean {
    const face = faceOf(to.outline, toSide, to.mirror);
    const reach = this.gap + 2;
    if (!boxesWithin(boxOf(o.outline), boxOf([face.from, face.to]), reach)) return false;
    for (let side = 1; side <= sidesOf(o); side++) {
      const f = faceOf(o.outline, side, o.mirror);
      if (dot(f.out, face.out) > -0.999) continue;
      const off = dot(sub(f.from, face.from), face.out);
      if (Math.abs(off) > reach) continue;
      const c = contactOf(o.outline, o.mirror, side, to, toSide);
      if (c && dist(c[0], c[1]) > face.length * 0.5) return true;
    }
    return false;
  }

  // next goes to the next (or the one before) place where it fits.
  next(step: 1 | -1): void {
    const n = this.now;
    if (!n) return;
    const free = this.freeSides();
    const stops = free.length + 2;
    const at = n.snap?.hold ? free.findIndex((f) => f.to.id === n.snap!.hold!.to && f.side === n.snap!.hold!.toSide) : n.snap ? free.length + (n.snap.outline[0][0] < 0 ? 1 : 0) : -1;
    for (let i = 1; i <= stops; i++) {
      const k = (((at < 0 && step < 0 ? 0 : at) + step * i) % stops + stops) % stops;
      if (k >= free.length || n.kind.sides.length === 0) this.standBeside(k === free.length + 1);
      else this.lay(free[k].to, free[k].side);
      if (this.bites().length === 0 && boxOf(this.now!.snap!.outline).foot > -hair) return;
    }
  }

  private standBeside(left: boolean): void {
    const n = this.now!;
    const box = boxOf(this.others.flatMap((o) => o.outline).concat(this.others.length ? [] : [[0, 0]]));
    const mine = boxOf(applyAll(n.pose ?? { mirror: false, turn: 0, shift: [0, 0] }, n.kind.outline));
    const half = (mine.right - mine.left) / 2;
    this.stand(left ? box.left - half - 150 : box.right + half + 150);
  }

  // slide moves it along the side it lies on, or freely, by a mark or by the big
  // step.
  slide(dir: XY, big: boolean): void {
    const n = this.now;
    if (!n) return;
    if (!n.pose) return this.next(1);
    const by = big ? this.big : this.view.mark.mm;
    const hold = n.snap?.hold;
    if (!hold) {
      const moved: Pose = { ...n.pose, shift: add(n.pose.shift, [dir[0] * by, n.snap ? 0 : dir[1] * by]) };
      if (n.snap && dir[1] <= 0) return this.put(standing(shapeOf(n.kind), moved));
      const free: Pose = { ...n.pose, shift: add(n.pose.shift, [dir[0] * by, dir[1] * by]) };
      this.now = { ...n, pose: free, snap: null };
      return this.say(this.says());
    }
    const to = this.others.find((o) => o.id === hold.to);
    if (!to) return;
    const face = faceOf(to.outline, hold.toSide, to.mirror);
    const way = dot(face.dir, dir);
    this.shiftBy((Math.abs(way) < 0.05 ? 1 : Math.sign(way)) * by);
  }

  // shiftBy moves it along the other's side.
  shiftBy(mm: number): void {
    const n = this.now;
    const hold = n?.snap?.hold;
    const to = hold && this.others.find((o) => o.id === hold.to);
    if (!n || !hold || !to) return;
    const s = held(shapeOf(n.kind), n.pose!.mirror, to, { ...hold, shift: hold.shift + mm }, this.gap);
    if (s.contact) this.put(s);
  }

  align(align: Align): void {
    const n = this.now;
    const hold = n?.snap?.hold;
    const to = hold && this.others.find((o) => o.id === hold.to);
    if (n && hold && to) this.put(held(shapeOf(n.kind), n.pose!.mirror, to, { ...hold, align, shift: 0 }, this.gap));
  }

  // turn lays the next of its own sides on the same place.
  turn(step = 1): void {
    const n = this.now;
    if (!n) return;
    const count = n.kind.sides.length;
    const hold = n.snap?.hold;
    const to = hold && this.others.find((o) => o.id === hold.to);
    if (hold && to) {
      const side = ((hold.side - 1 + step + count) % count) + 1;
      this.put(held(shapeOf(n.kind), n.pose!.mirror, to, { ...hold, side }, this.gap));
      this.now = { ...this.now!, wish: this.now!.pose!.turn };
      return;
    }
    const corners = n.kind.outline.length;
    const pose: Pose = n.pose ?? this.poseAt([0, 0]);
    const outline = applyAll(pose, n.kind.outline);
    const lean = (k: number): number => {
      const f = faceOf(outline, ((k % corners) + corners) % corners + 1, pose.mirror);
      return -Math.PI / 2 - Math.atan2(f.out[1], f.out[0]);
    };
    let lowest = 0;
    for (let k = 0; k < corners; k++) if (Math.abs(Math.sin(lean(k) / 2)) < Math.abs(Math.sin(lean(lowest) / 2)) - 1e-9) lowest = k;
    const by = lean(lowest + step) - lean(lowest);
    this.turnBy(Math.abs(Math.sin(by / 2)) < 1e-9 ? Math.PI / 2 : by);
  }

  private turnBy(by: number): void {
    const n = this.now!;
    const at = n.pose ? centre(applyAll(n.pose, n.kind.outline)) : null;
    const turned: Pose = { ...(n.pose ?? { mirror: false, turn: 0, shift: [0, 0] }) };
    turned.turn += by;
    this.now = { ...n, pose: turned, wish: turned.turn };
    const pose = at ? this.poseAt(at) : turned;
    if (n.snap && at) return this.put(standing(shapeOf(n.kind), pose));
    this.now = { ...this.now, pose: at ? pose : null, snap: null };
    this.say(this.says());
  }

  mirror(): void {
    const n = this.now;
    if (!n) return;
    const pose: Pose = n.pose ? { ...n.pose, mirror: !n.pose.mirror } : { mirror: true, turn: 0, shift: [0, 0] };
    const hold = n.snap?.hold;
    const to = hold && this.others.find((o) => o.id === hold.to);
    if (hold && to) return this.put(held(shapeOf(n.kind), pose.mirror, to, hold, this.gap));
    const at = n.pose ? centre(applyAll(n.pose, n.kind.outline)) : null;
    this.now = { ...n, pose };
    if (at) this.now = { ...this.now, pose: this.poseAt(at) };
    if (n.snap && at) return this.put(standing(shapeOf(n.kind), this.poseAt(at)));
    this.say(this.says());
  }

  // setDown sends it; until the answer is there it stays drawn where it is.
  async setDown(): Promise<boolean> {
    const n = this.now;
    if (!n?.pose || n.sent) return false;
    this.now = { ...n, sent: true };
    const known = new Set(this.view.frames.map((f) => f.id));
    const base = { do: 'set' as const, kind: n.kind.name, ...(n.id ? { id: n.id } : {}), ...(n.pose.mirror ? { mirror: true } : {}) };
    const degrees = Number(((n.pose.turn * 180) / Math.PI).toFixed(6));
    const hold = n.snap?.hold;
    // On a corner it stands by its place: a corner holds nothing.
    const done = await this.job.move(hold ? { ...base, hold } : { ...base, at: n.pose.shift.map((c) => Number(c.toFixed(4))) as XY, ...(degrees ? { turn: degrees } : {}) });
    if (!done) {
      if (this.now?.sent) this.now = { ...n, sent: false };
      return false;
    }
    this.now = null;
    const fresh = n.id ?? this.view.frames.find((f) => !known.has(f.id))?.id;
    this.chosen = fresh ? [fresh] : [];
    this.say(`Set down. ${fresh ? this.describe(fresh) : ''}. ${this.trouble()}`);
    return true;
  }

  putBack(): void {
    const was = this.now;
    this.now = null;
    this.chosen = was?.id ? [was.id] : [];
    if (was) this.say(was.id ? `${was.label} is back where it was.` : 'Put back on the rack.');
  }

  // bites are the frames that it would overlap, by their labels.
  bites(): string[] {
    const n = this.now;
    if (!n?.pose) return [];
    const mine = placedAt(shapeOf(n.kind), n.pose);
    const box = woodBox(mine);
    return this.others.filter((o) => boxesWithin(box, woodBox(o), 0) && overlap(mine, o) > this.tolerance).map((o) => this.label(o.id));
  }

  // meets counts the seams that it would have.
  meets(): number {
    const n = this.now;
    if (!n?.pose) return 0;
    const mine = placedAt(shapeOf(n.kind), n.pose);
    const box = woodBox(mine);
    const near = this.others.filter((o) => boxesWithin(box, woodBox(o), this.gap + this.tolerance));
    return near.reduce((sum, o) => sum + seams(mine, o, this), 0);
  }

  // says tells in words where it lies.
  says(): string {
    const n = this.now;
    if (!n) return '';
    if (!n.pose) return 'Tap a free side, or the floor.';
    const bites = this.bites();
    const where = this.where(n);
    return bites.length ? `${where} It overlaps ${list(bites)}.` : where;
  }

  private where(n: InHand): string {
    const hold = n.snap?.hold;
    const corner = n.snap?.corner;
    if (corner) return `Its corner ${corner.corner} on corner ${corner.toCorner} of ${this.label(corner.to)}: no seam.`;
    if (!hold) return n.snap ? 'Stands on the floor.' : 'Lies on nothing yet.';
    const label = this.frame(hold.to)?.label ?? hold.to;
    const mine = n.kind.sides.find((s) => s.n === hold.side)?.length;
    const other = this.frame(hold.to);
    const theirs = this.kinds.get(other?.kind ?? '')?.sides.find((s) => s.n === hold.toSide)?.length;
    const c = n.snap!.contact;
    const covered = c ? dist(c[0], c[1]) : 0;
    const text = (s: { us: string; metric: string }): string => (this.view.units === 'us' ? s.us : s.metric);
    if (mine && covered > mine.mm - 1) return `Lies on ${label} for its whole side, ${text(mine)}${place(hold)}.`;
    if (theirs && covered > theirs.mm - 1) return `Lies along the whole side of ${label}, ${text(theirs)}${place(hold)}.`;
    return `Lies on ${label} for a part of its side${place(hold)}.`;
  }

  // trouble is what the last answer found wrong with the layout.
  trouble(): string {
    const v = this.view;
    return [...v.overlaps.map((o) => `${this.label(o.a)} and ${this.label(o.b)} overlap.`), ...v.near.map((o) => `${this.label(o.a)} and ${this.label(o.b)} nearly meet.`)].join(' ');
  }

  label(id: string): string {
    return this.frame(id)?.label ?? id;
  }

  say(text: string): void {
    this.spoken = text;
  }

  // at finds the frame at a place, the smallest first.
  at(p: XY): Frame | undefined {
    return this.view.frames
      .filter((f) => contains(f.outline, p))
      .sort((a, b) => Math.abs(area(a.outline)) - Math.abs(area(b.outline)))[0];
  }

  // sideAt finds the free side nearest to a place, within reach mm.
  sideAt(p: XY, reach: number): FreeSide | null {
    let best: FreeSide | null = null;
    let least = reach;
    for (const f of this.freeSides()) {
      const d = toSegment(f.free[0], f.free[1], p);
      if (d < least) [best, least] = [f, d];
    }
    return best;
  }

  // tap is a press without a drag on the floor.
  tap(p: XY, reach: number, more: boolean): void {
    const n = this.now;
    const f = this.at(p);
    if (n && !n.sent) {
      const side = this.sideAt(p, f ? Infinity : reach * 2.5);
      const near = f ? this.freeSides().filter((s) => s.to.id === f.id) : [];
      if (near.length) {
        near.sort((a, b) => toSegment(a.free[0], a.free[1], p) - toSegment(b.free[0], b.free[1], p));
        this.lay(near[0].to, near[0].side, p);
      } else if (side && !f) this.lay(side.to, side.side, p);
      else this.stand(p[0]);
      return;
    }
    if (f) this.choose(f.id, more);
    else if (!more) this.letGo();
  }
}

function place(h: Hold): string {
  const words = h.align && h.align !== 'centred' ? ', ' + h.align : '';
  return words + (h.shift ? ', shifted' : '');
}

export function list(words: string[]): string {
  return words.length < 2 ? (words[0] ?? '') : words.slice(0, -1).join(', ') + ' and ' + words[words.length - 1];
}

// moveBetween carries what moves along from where a frame was to where it is.
export function moveBetween(from: Pose, to: Pose): (p: XY) => XY {
  const c = Math.cos(from.turn);
  const s = Math.sin(from.turn);
  return (p) => {
    const d = sub(p, from.shift);
    const back: XY = [d[0] * c + d[1] * s, -d[0] * s + d[1] * c];
    return apply(to, from.mirror ? [-back[0], back[1]] : back);
  };
}
