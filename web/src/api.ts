// The only place that speaks to the server.

import type { Changed, Conflict, Edit, JobCard, Move, View } from './types';

// A Refusal is what the server says when it does not do a thing.
export class Refusal extends Error {
  constructor(
    readonly status: number,
    readonly say: string,
    readonly remedy = '',
    readonly place = '',
    readonly conflict: Conflict | null = null,
  ) {
    super(say);
  }
}

// windowId tells this window's changes from those of others.
export const windowId = Array.from(crypto.getRandomValues(new Uint8Array(8)), (b) => b.toString(16).padStart(2, '0')).join('');

async function ask<T>(method: string, path: string, body?: unknown): Promise<T> {
  const headers: Record<string, string> = { Accept: 'application/json' };
  if (method !== 'GET') Object.assign(headers, { Bowerwright: '1', Window: windowId, 'Content-Type': 'application/json' });
  let answer: Response;
  try {
    answer = await fetch('/api' + path, { method, headers, body: body === undefined ? undefined : JSON.stringify(body) });
  } catch {
    throw new Refusal(0, 'There is no connection to the program.', 'Start it again with bowerwright serve; this page goes on by itself.');
  }
  const text = await answer.text();
  let told: unknown = null;
  try {
    told = text ? JSON.parse(text) : null;
  } catch {
    throw new Refusal(answer.status, 'The program answered with something that is no answer.', 'Try again.');
  }
  if (answer.ok) return told as T;
  if (answer.status === 401) location.assign('/sign-in');
  const error = (told as { error?: { say?: string; remedy?: string; place?: string } } | null)?.error;
  const conflict = answer.status === 409 && told && 'head' in (told as object) ? (told as Conflict) : null;
  throw new Refusal(answer.status, error?.say ?? conflict?.say ?? 'The program could not do that.', error?.remedy, error?.place, conflict);
}

const job = (id: string): string => '/jobs/' + encodeURIComponent(id);

export const api = {
  jobs: () => ask<{ jobs: JobCard[] }>('GET', '/jobs').then((a) => a.jobs ?? []),
  begin: (from: 'new' | 'copy' | 'file', rest: { of?: string; text?: string; name?: string } = {}) =>
    ask<{ id: string; rev: number }>('POST', '/jobs', { from, ...rest }),
  view: (id: string) => ask<View>('GET', job(id)),
  state: (id: string, state: string) => ask<unknown>('PUT', job(id) + '/state', { state }),
  edits: (id: string, base: number, edits: Edit[], say: string) => ask<Changed>('POST', job(id) + '/edits', { base, edits, say }),
  move: (id: string, base: number, move: Move) => ask<Changed>('POST', job(id) + '/moves', { base, move }),
  back: (id: string, base: number) => ask<Changed>('POST', job(id) + '/back', { base }),
  forward: (id: string, base: number) => ask<Changed>('POST', job(id) + '/forward', { base }),
  putAway: (id: string) => ask<unknown>('DELETE', job(id)),
  takeBack: (id: string) => ask<unknown>('POST', job(id) + '/return', {}),
  fields: () => ask<unknown>('GET', '/fields'),
  written: (id: string, rev: number) =>
    ask<{ written: { path: string; form: string; text: string }[] | null }>('GET', `${job(id)}/written?rev=${rev}`).then((a) => a.written ?? []),
  result: <T>(id: string, rev: number) => ask<T>('GET', `${job(id)}/result?rev=${rev}`),
  answers: (id: string, rev: number) => new EventSource(`/api${job(id)}/answers?rev=${rev}`),
  changes: (id: string) => new EventSource(`/api${job(id)}/changes?window=${windowId}`),
  at: (id: string, rest: string) => '/api' + job(id) + rest,
};
