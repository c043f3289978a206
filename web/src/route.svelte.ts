// Pages are told apart by what stands behind the # of the address:
// #/ for all jobs, #/job/ID/floor and so on for one.

export const pages = ['floor', 'frames', 'boards', 'fixing', 'stand', 'papers', 'job'] as const;
export type Page = (typeof pages)[number];

class Route {
  job = $state('');
  page = $state<Page>('floor');
  at = $state(''); // a place on the page: the path of a field

  constructor() {
    this.read();
    addEventListener('hashchange', () => this.read());
  }

  private read(): void {
    const [, word, id, page, at] = location.hash.slice(1).split('/').map(decodeURIComponent);
    this.job = word === 'job' && id ? id : '';
    this.page = pages.find((p) => p === page) ?? 'floor';
    this.at = at ?? '';
  }
}

export const route = new Route();

export function to(job: string, page: Page = 'floor', at = ''): string {
  return `#/job/${encodeURIComponent(job)}/${page}` + (at ? '/' + encodeURIComponent(at) : '');
}
