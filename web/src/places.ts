// On which page a place of the job file stands.

import type { Page } from './route.svelte';

// What no page has of its own stands on the job's.
export const groups: Record<Exclude<Page, 'papers' | 'floor'>, string[]> = {
  job: ['name', 'for', 'date', 'venue', 'maker', 'note', 'unit', 'currency', 'show', 'paper', 'mark', 'people', 'prices', 'in hand', 'tax', 'assume'],
  frames: ['frames', 'families', 'layout', 'copies', 'joint tolerance', 'seam gap', 'near miss'],
  boards: ['timber', 'saw', 'cutting', 'test corner'],
  fixing: ['fixing', 'driver', 'making'],
  stand: ['dressing', 'base', 'standing'],
};

export function pageOf(place: string): Page {
  const root = place.split(/[.[]/)[0];
  for (const [page, roots] of Object.entries(groups)) if (roots.includes(root)) return page as Page;
  return 'job';
}
