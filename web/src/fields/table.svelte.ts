// The fields of the job file, as the program's own table has them, and what a
// job has written in them.

import { api } from '../api';
import type { OpenJob } from '../open.svelte';
import type { Snag } from '../types';

export interface Field {
  key: string;
  doc: string;
  takes: string;
  example: string;
  usual: string;
  source: string;
  choices?: string[];
  need: boolean;
  form: 'line' | 'list' | 'fields';
  fields?: Field[];
  under?: number;
}

export interface Shape {
  name: string;
  doc: string;
  example: string;
  fields: Field[];
  need: string[] | null;
  one_of: string[][] | null;
}

export interface Said {
  path: string;
  form: 'line' | 'list' | 'fields' | 'nothing';
  text: string;
}

class Table {
  fields = $state.raw<Field[]>([]);
  shapes = $state.raw<Shape[]>([]);
  private asked = false;

  async load(): Promise<void> {
    if (this.asked) return;
    this.asked = true;
    try {
      const told = (await api.fields()) as { fields: Field[]; shapes: Shape[] };
      this.fields = told.fields ?? [];
      this.shapes = told.shapes ?? [];
    } catch {
      this.asked = false;
    }
  }
}

export const table = new Table();

// Written is what stands in a job's file, place by place.
export class Written {
  places = $state.raw(new Map<string, Said>());
  private rev = 0;

  constructor(readonly job: OpenJob) {}

  async follow(rev: number): Promise<void> {
    if (rev === this.rev) return;
    this.rev = rev;
    const told = await api.written(this.job.id, rev).catch(() => null);
    if (told && rev === this.rev) this.places = new Map(told.map((s) => [s.path, s as Said]));
  }

  get(path: string): Said | undefined {
    return this.places.get(path);
  }

  // names are those that stand straight under a group.
  names(path: string): string[] {
    return [...this.places.keys()].filter((p) => p.startsWith(path + '.') && !/[.[]/.test(p.slice(path.length + 1))).map((p) => p.slice(path.length + 1));
  }

  // items counts those of a list.
  items(path: string): number {
    let n = 0;
    while (this.places.has(`${path}[${n}]`)) n++;
    return n;
  }

  snags(path: string, whole: boolean): Snag[] {
    return this.job.snags.filter((s) => s.place === path || (whole && (s.place.startsWith(path + '.') || s.place.startsWith(path + '['))));
  }
}

// sample is what a new thing begins with: the part of an example that stands
// behind its name.
export function sample(field: Field): string {
  if (field.form === 'list') {
    const need = (field.fields ?? []).filter((f) => f.need);
    return need.length ? `{${need.map((f) => `${f.key}: ${f.example}`).join(', ')}}` : field.example;
  }
  const behind = /^[^{]*?: (.*)$/s.exec(field.example);
  return behind ? behind[1] : field.example;
}
