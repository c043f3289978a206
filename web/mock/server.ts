// A stand-in for the program, for looking at the pages without it: three
// examples, moves done roughly, nothing kept.

import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { IncomingMessage, ServerResponse } from 'node:http';
import type { Plugin } from 'vite';
import { applyAll } from '../src/geom';
import { held, poseOf, type Placed, type Shape } from '../src/snap';
import type { Frame, JobCard, Kind, Move, View, XY } from '../src/types';

interface Kept {
  card: JobCard;
  views: View[];
  at: number;
  result: any;
  written: unknown;
}

const jobs = new Map<string, Kept>();

let fields: unknown;

function load(): void {
  const dir = mkdtempSync(join(tmpdir(), 'mock-'));
  execFileSync('go', ['run', 'web/mock/gen.go', dir], { cwd: fileURLToPath(new URL('../..', import.meta.url)) });
  const read = (name: string): any => JSON.parse(readFileSync(join(dir, name + '.json'), 'utf8'));
  fields = read('fields');
  for (const name of ['thistle-wall', 'hop-lane', 'lantern-gate']) {
    const { view: v, result, written } = read(name);
    jobs.set(name, {
      card: { id: name, name: v.name, for: v.for, date: v.date, venue: v.venue, state: 'agreed', frames: v.frames.length, changed: '2026-11-25T08:10:00Z', svg: '' },
      views: [v],
      at: 0,
      result,
      written,
    });
  }
}

const sidesOf = (k: Kind): Shape => ({ outline: k.outline, inside: k.inside, open: k.sides.length === k.outline.length - 1 });

function moved(v: View, m: Move): View {
  const frames = structuredClone(v.frames);
  const kinds = structuredClone(v.kinds);
  const shapes = new Map(kinds.map((k) => [k.name, sidesOf(k)]));
  const shift = (f: Frame, by: XY): void => {
    for (const p of [...f.outline, ...f.inside]) {
      p[0] += by[0];
      p[1] += by[1];
    }
  };
  if (m.do === 'set') {
    const kind = kinds.find((k) => k.name === m.kind)!;
    const id = m.id ?? kind.name[0].toUpperCase() + (frames.length + 1);
    const f: Frame = { id, label: id, kind: kind.name, outline: [], inside: [], turn: m.turn ?? 0, mirror: m.mirror ?? false, holds: m.hold ? [m.hold] : [], floor: !m.hold };
    let pose = { mirror: f.mirror, turn: ((m.turn ?? 0) * Math.PI) / 180, shift: m.at ?? ([0, 0] as XY) };
    if (m.hold) {
      const hold = m.hold;
      const other = frames.find((o) => o.id === hold.to)!;
      const to: Placed = { ...shapes.get(other.kind)!, id: other.id, mirror: other.mirror, outline: other.outline, inside: other.inside };
      pose = held(shapes.get(kind.name)!, f.mirror, to, hold, 0.8).pose;
    }
    f.outline = applyAll(pose, kind.outline);
    f.inside = applyAll(pose, kind.inside);
    const i = frames.findIndex((o) => o.id === id);
    if (i < 0) frames.push(f);
    else frames[i] = f;
  } else {
    for (const f of frames.filter((f) => m.ids.includes(f.id))) {
      const kind = kinds.find((k) => k.name === f.kind)!;
      if (m.do === 'nudge') shift(f, [m.marks[0] * v.mark.mm, m.marks[1] * v.mark.mm]);
      if (m.do === 'copy') {
        const g = structuredClone(f);
        g.id = g.label = f.id + 'x';
        shift(g, m.by ?? [v.width.mm, 0]);
        frames.push(g);
      }
      if (m.do === 'turn' || m.do === 'mirror') {
        const pose = poseOf(shapes.get(f.kind)!, f.outline, f.mirror);
        if (m.do === 'turn') pose.turn += (m.steps * Math.PI) / 6;
        else pose.mirror = f.mirror = !f.mirror;
        f.outline = applyAll(pose, kind.outline);
        f.inside = applyAll(pose, kind.inside);
      }
      if (m.do === 'takeaway') frames.splice(frames.indexOf(f), 1);
    }
  }
  const all = frames.flatMap((f) => f.outline);
  const left = Math.min(...all.map((p) => p[0]));
  const foot = Math.min(...all.map((p) => p[1]));
  frames.forEach((f) => shift(f, [-left, -foot]));
  for (const k of kinds) k.placed = frames.filter((f) => f.kind === k.name).length;
  const wide = Math.max(...all.map((p) => p[0]));
  const high = Math.max(...all.map((p) => p[1]));
  const size = (mm: number) => ({ mm, us: `${Math.floor(mm / 304.8)} ft ${Math.round((mm / 25.4) % 12)} in`, metric: `${Math.round(mm)} mm` });
  return { ...v, frames, kinds, width: size(wide), height: size(high) };
}

async function body(q: IncomingMessage): Promise<any> {
  let text = '';
  for await (const part of q) text += part;
  return text ? JSON.parse(text) : {};
}

async function serve(q: IncomingMessage, a: ServerResponse): Promise<void> {
  const [, , , id, what] = (q.url ?? '').split('?')[0].split('/');
  const say = (told: unknown, status = 200): void => {
    a.statusCode = status;
    a.setHeader('Content-Type', 'application/json');
    a.end(JSON.stringify(told));
  };
  if (q.url === '/api/fields') return say(fields);
  if (!id) return say(q.method === 'GET' ? { jobs: [...jobs.values()].map((j) => j.card) } : { id: 'hop-lane', rev: 1 });
  const job = jobs.get(id);
  if (!job) return say({ error: { say: 'There is no such job.', remedy: '', place: '' } }, 404);
  const view = (): View => ({
    ...job.views[job.at],
    rev: job.at + 1,
    back: job.at > 0 ? 'the last move' : null,
    forward: job.at < job.views.length - 1 ? 'the last move' : null,
  });
  const changed = (): void => say({ rev: job.at + 1, view: view(), merged: false });
  if (what === 'answers') {
    a.setHeader('Content-Type', 'text/event-stream');
    const send = (event: string, data: unknown): void => void a.write(`event: ${event}\ndata: ${JSON.stringify(data)}\n\n`);
    const t = job.result.timber[0];
    send('counted', { boards: t.claim, cost: job.result.buying.total, weight: job.result.overall.weight, proved: '' });
    const standing = job.result.standing;
    const f = standing?.findings?.[standing.governs];
    setTimeout(() => {
      send('stands', { word: standing.word, share: f?.use.ratio ?? 0, line: standing.says });
      send('ready', { rev: job.at + 1 });
    }, 300);
    return;
  }
  if (what === 'changes') {
    a.setHeader('Content-Type', 'text/event-stream');
    a.write(':\n\n');
    return;
  }
  if (q.method === 'GET') return say(what === 'result' ? job.result : what === 'written' ? { written: job.written } : view());
  const asked = await body(q);
  if (what === 'moves') {
    job.views = [...job.views.slice(0, job.at + 1), moved(job.views[job.at], asked.move)];
    job.at++;
  } else if (what === 'back') job.at = Math.max(0, job.at - 1);
  else if (what === 'forward') job.at = Math.min(job.views.length - 1, job.at + 1);
  return changed();
}

export function mock(): Plugin {
  load();
  const image = execFileSync('go', ['list', '-m', '-f', '{{.Dir}}', 'golang.org/x/image']).toString().trim();
  return {
    name: 'mock-server',
    configureServer(server) {
      server.middlewares.use((q, a, next) => {
        const font = /^\/font\/([\w-]+\.ttf)$/.exec(q.url ?? '');
        if (font) a.end(readFileSync(`${image}/font/gofont/ttfs/${font[1]}`));
        else if (q.url?.startsWith('/api/')) void serve(q, a);
        else next();
      });
    },
  };
}
