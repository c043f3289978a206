// What the server tells, as it stands in the answers of /api. Lengths are mm,
// x to the right, y up from the floor; text of lengths is made by the server.

export type XY = [number, number];

export interface Size {
  mm: number;
  us: string;
  metric: string;
}

export interface Weight {
  kg: number;
  us: string;
  metric: string;
}

export interface JobCard {
  id: string;
  name: string;
  for: string;
  date: string;
  venue: string;
  state: string;
  frames: number;
  changed: string;
  svg: string;
}

export interface KindSide {
  n: number;
  length: Size;
}

export interface Kind {
  name: string;
  title: string;
  shape: string;
  outline: XY[];
  inside: XY[];
  placed: number;
  spare: number;
  sides: KindSide[];
  open?: boolean;
}

export type Align = 'centred' | 'flush at start' | 'flush at end';

export interface Hold {
  side: number;
  to: string;
  toSide: number;
  align: Align | '';
  shift: number;
}

export interface Frame {
  id: string;
  label: string;
  kind: string;
  outline: XY[];
  inside: XY[];
  turn: number;
  mirror: boolean;
  holds: Hold[] | null;
  floor: boolean;
}

export interface Seam {
  n: number;
  a: { frame: string; side: number };
  b: { frame: string; side: number };
  from: XY;
  to: XY;
  length: Size;
}

export interface Pair {
  a: string;
  b: string;
  say: string;
}

export interface Snag {
  code: string;
  severity: string;
  place: string;
  line: number;
  column: number;
  value: string;
  problem: string;
  remedy: string;
}

export interface Note {
  code: string;
  where: string;
  text: string;
  do: string;
}

export interface View {
  rev: number;
  back: string | null;
  forward: string | null;
  name: string;
  for: string;
  date: string;
  venue: string;
  state?: string;
  units: 'us' | 'metric';
  mark: { mm: number; text: string };
  gap?: number; // between the faces of a seam, mm
  tolerance?: number; // of a joint, mm
  origin?: XY; // where the zero of the layout's places lies
  kinds: Kind[];
  frames: Frame[];
  seams: Seam[];
  near: Pair[];
  overlaps: Pair[];
  width: Size;
  height: Size;
  weight?: Weight;
  opening: { x: number; y: number; w: number; h: number } | null;
  people: { name: string; height: number }[];
  snags: Snag[];
  notes: Note[];
}

export interface Counted {
  boards: string;
  cost: string;
  weight: Weight;
  proved: string;
}

export interface Changed {
  rev: number;
  view: View;
  merged: boolean;
}

export interface Conflict {
  head: number;
  say: string;
  mine: string;
  theirs: string;
}

export interface Edit {
  path: string;
  text: string;
}

export type Move =
  | { do: 'set'; kind: string; id?: string; at?: XY; turn?: number; mirror?: boolean; hold?: Hold }
  | { do: 'nudge'; ids: string[]; marks: XY }
  | { do: 'turn'; ids: string[]; steps: number }
  | { do: 'mirror'; ids: string[] }
  | { do: 'copy'; ids: string[]; by?: XY }
  | { do: 'takeaway'; ids: string[] };
