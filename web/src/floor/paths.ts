// Outlines as paths, in mm.

import type { XY } from '../types';

const n = (x: number): string => String(Math.round(x * 100) / 100);

export const line = (points: XY[]): string => 'M' + points.map((p) => `${n(p[0])} ${n(p[1])}`).join('L');

// boards is the wood of a frame: outline with its opening, or the band of an
// open one.
export function boards(outline: XY[], inside: XY[], open: boolean): string {
  if (open) return line([...outline, ...inside.slice().reverse()]) + 'Z';
  return line(outline) + 'Z' + line(inside) + 'Z';
}

// mitres are the joints at the corners.
export function mitres(outline: XY[], inside: XY[], open: boolean): string {
  const from = open ? 1 : 0;
  return outline
    .slice(from, open ? -1 : undefined)
    .map((p, i) => line([p, inside[i + from]]))
    .join('');
}
