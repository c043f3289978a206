// On which page a place of the job file stands.

import type { Page } from './route.svelte';

export const groups: Record<Exclude<Page, 'papers'>, string[]> = {
  job: ['name', 'for', 'date', 'venue', 'maker', 'note', 'unit', 'currency', 'show', 'paper', 'mark', 'people', 'prices', 'in hand', 'tax', 'assume'],
  floor: ['layout', 'copies'],
  frames: ['frames', 'families', 'joint tolerance', 'seam gap', 'near miss'],
  boards: ['timber', 'saw', 'cutting', 'test corner'],
  fixing: ['fixing', 'driver', 'making'],
  stand: ['dressing', 'base', 'standing'],
};

export function pageOf(place: string): Page {
  const root = place.split(/[.[]/)[0];
  for (const [page, roots] of Object.entries(groups)) if (roots.includes(root)) return page as Page;
  return 'job';
}
