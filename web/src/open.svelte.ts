// The job that is open: what the server last said of it, and the changes that
// are on their way. Changes go one after another, each on top of the last.

import { api, Refusal, windowId } from './api';
import type { Changed, Conflict, Counted, Edit, Move, Snag, View } from './types';

export interface Standing {
  word: string;
  share: number;
  line: string;
}

// The bubble stands in the part of the glass that its word names, also where
// something else than the share that is told governs.
const parts: Record<string, [number, number, number]> = { 'well inside': [0, 0.25, 0.5], 'near the limit': [0.5, 0.75, 1] };

function shareOf(word: string, told: number | null | undefined): number {
  const [from, usual, to] = parts[word] ?? [1.15, 1.2, Infinity];
  return told == null ? usual : Math.min(to, Math.max(from, told));
}

type Send = (base: number) => Promise<Changed>;

export class OpenJob {
  view = $state.raw<View | null>(null);
  counted = $state.raw<Counted | null>(null);
  standing = $state.raw<Standing | null>(null);
  stands = $state.raw<Record<string, unknown> | null>(null); // the whole of the answer
  result = $state.raw<any>(null); // the whole result of the revision that is ready
  ready = $state(0); // revision whose whole result is worked out
  later = $state.raw<Snag[]>([]); // snags that only the whole work finds
  why = $state(''); // why nothing is worked out
  busy = $state(''); // what is being worked out
  kept = $state('');
  waiting = $state(0); // changes on their way
  trouble = $state.raw<Refusal | null>(null);
  clash = $state.raw<{ conflict: Conflict; again: Send } | null>(null);
  told = $state(''); // what another window did

  private queue: Promise<unknown> = Promise.resolve();
  private answers: EventSource | null = null;
  private changes: EventSource | null = null;

  snags = $derived.by(() => {
    const seen = this.view?.snags ?? [];
    return [...seen, ...this.later.filter((l) => !seen.some((s) => s.place === l.place && s.code === l.code && s.problem === l.problem))];
  });

  constructor(readonly id: string) {}

  async start(): Promise<void> {
    try {
      this.take(await api.view(this.id));
    } catch (e) {
      this.trouble = refusal(e);
      return;
    }
    this.changes = api.changes(this.id);
    this.changes.onmessage = (e) => this.heard(e);
    this.changes.addEventListener('changed', (e) => this.heard(e as MessageEvent));
  }

  stop(): void {
    this.answers?.close();
    this.changes?.close();
  }

  edit(edits: Edit[], say: string): Promise<boolean> {
    return this.send((base) => api.edits(this.id, base, edits, say));
  }

  move(move: Move): Promise<boolean> {
    return this.send((base) => api.move(this.id, base, move));
  }

  back(): Promise<boolean> {
    return this.view?.back == null ? Promise.resolve(false) : this.send((base) => api.back(this.id, base));
  }

  forward(): Promise<boolean> {
    return this.view?.forward == null ? Promise.resolve(false) : this.send((base) => api.forward(this.id, base));
  }

  // settle answers a clash: ours goes on top of theirs, or is let go.
  async settle(mine: boolean): Promise<void> {
    const clash = this.clash;
    this.clash = null;
    this.take(await api.view(this.id));
    if (mine && clash) await this.send(clash.again);
  }

  private send(what: Send): Promise<boolean> {
    this.waiting++;
    const done = this.queue.then(async () => {
      try {
        const changed = await what(this.view?.rev ?? 0);
        this.trouble = null;
        this.take(changed.view);
        this.keep();
        if (changed.merged) this.told = 'Another window changed this job too; both changes are kept.';
        return true;
      } catch (e) {
        const r = refusal(e);
        if (r.conflict) this.clash = { conflict: r.conflict, again: what };
        else this.trouble = r;
        return false;
      } finally {
        this.waiting--;
      }
    });
    this.queue = done;
    return done;
  }

  private keep(): void {
    const now = new Date();
    this.kept = `${now.getHours()}:${String(now.getMinutes()).padStart(2, '0')}`;
  }

  private take(view: View): void {
    const changed = view.rev !== this.view?.rev;
    this.view = { ...view, snags: view.snags ?? [], notes: view.notes ?? [], seams: view.seams ?? [], near: view.near ?? [], overlaps: view.overlaps ?? [], people: view.people ?? [], frames: view.frames ?? [], kinds: view.kinds ?? [] };
    if (changed || !this.answers) this.listen(view.rev);
  }

  // listen follows the long answers of a revision; those of the one before stop.
  private listen(rev: number): void {
    this.answers?.close();
    this.ready = 0;
    this.why = '';
    this.later = [];
    const source = api.answers(this.id, rev);
    this.answers = source;
    this.busy = 'being worked out';
    const on = (name: string, f: (data: any) => void): void =>
      source.addEventListener(name, (e) => {
        if (this.answers === source) f(parse((e as MessageEvent).data));
      });
    on('counted', (d) => (this.counted = d));
    on('stands', (d) => {
      this.stands = d;
      this.standing = d ? { word: d.word ?? '', share: shareOf(d.word, d.share), line: d.line ?? d.says ?? '' } : null;
    });
    on('busy', (d) => (this.busy = d?.line ?? 'being worked out'));
    on('ready', (d) => {
      this.ready = d?.rev ?? rev;
      this.busy = '';
      source.close();
      void this.fetchResult(rev);
    });
    on('stopped', (d) => {
      source.close();
      this.busy = '';
      this.why = d?.say ?? '';
      this.later = d?.snags ?? [];
      this.counted = this.result = null;
      if (this.view?.snags.length) this.standing = this.stands = null;
    });
  }

  // fetchResult takes the whole result; one of an older revision stays until then.
  private async fetchResult(rev: number): Promise<void> {
    try {
      const told = await api.result<any>(this.id, rev);
      if (rev === this.view?.rev) this.result = told;
    } catch (e) {
      if (rev === this.view?.rev) this.trouble = refusal(e);
    }
  }

  // halt stops what is being worked out; what is found so far stays.
  halt(): void {
    this.answers?.close();
    this.busy = '';
  }

  private heard(e: MessageEvent): void {
    const d = parse(e.data);
    if (!d || d.by === windowId || !this.view || d.rev === this.view.rev) return;
    this.queue = this.queue.then(async () => {
      if (d.rev === this.view?.rev) return;
      this.take(await api.view(this.id));
      this.told = `Another window: ${d.say || 'a change'}.`;
    });
  }
}

function refusal(e: unknown): Refusal {
  if (e instanceof Refusal) return e;
  console.error(e);
  return new Refusal(0, 'This went wrong on our side.', 'Load the page again; the job is kept as it was.');
}

function parse(text: string): any {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
