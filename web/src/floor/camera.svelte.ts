// The part of the floor that is in view: where mm are on the screen. The floor
// line never lies above the rule at the foot of the sheet.

import type { Box } from '../geom';
import type { XY } from '../types';

const least = 0.01; // px a mm: 100 m on a wide screen
const most = 4;

export class Camera {
  wide = $state(800);
  high = $state(500);
  left = $state(42); // the upright rule
  foot = $state(48); // the rule at the foot
  scale = $state(0.2);
  x = $state(0); // screen x of the set piece's left end as seen
  y = $state(0); // how far the floor lies below the rule's edge, px
  back = $state(false); // seen from behind
  across = $state(0); // width of the set piece, mm
  touched = false; // the person has chosen what is in view

  get ground(): number {
    return this.high - this.foot + this.y;
  }

  toScreen(p: XY): XY {
    const x = this.back ? this.across - p[0] : p[0];
    return [this.x + x * this.scale, this.ground - p[1] * this.scale];
  }

  toFloor(p: XY): XY {
    const x = (p[0] - this.x) / this.scale;
    return [this.back ? this.across - x : x, (this.ground - p[1]) / this.scale];
  }

  get matrix(): string {
    const s = this.scale;
    return this.back ? `matrix(${-s} 0 0 ${-s} ${this.x + this.across * s} ${this.ground})` : `matrix(${s} 0 0 ${-s} ${this.x} ${this.ground})`;
  }

  zoom(by: number, at: XY = [this.wide / 2, this.high / 2]): void {
    const scale = Math.min(most, Math.max(least, this.scale * by));
    const f = scale / this.scale;
    this.x = at[0] - (at[0] - this.x) * f;
    const over = this.high - this.foot - at[1]; // the point's height over the rule
    this.y = Math.max(0, (this.y + over) * f - over);
    this.scale = scale;
    this.touched = true;
  }

  pan(dx: number, dy: number): void {
    this.x += dx;
    this.y = Math.max(0, this.y + dy);
    this.touched = true;
  }

  fitScale(box: Box): number {
    const w = this.wide - this.left - 40;
    const h = this.high - this.foot - 34;
    return Math.min(most, Math.max(least, Math.min(w / Math.max(1, box.right - box.left), h / Math.max(1, box.top))));
  }

  fit(box: Box): void {
    this.scale = this.fitScale(box);
    const free = this.wide - this.left - (box.right - box.left) * this.scale;
    const seen = this.back ? this.across - box.right : box.left;
    this.x = this.left + free / 2 - seen * this.scale;
    this.y = 0;
    this.touched = false;
  }

  // show brings a point into view.
  show(p: XY): void {
    const [x, y] = this.toScreen(p);
    const room = 60;
    if (x < this.left + room) this.x += this.left + room - x;
    if (x > this.wide - room) this.x -= x - (this.wide - room);
    if (y < room) this.y = Math.max(0, this.y + room - y);
    if (y > this.high - this.foot - 10) this.y = Math.max(0, this.y - (y - (this.high - this.foot - 10)));
  }
}
