// How wide the window is: as narrow as a phone, where things stand in another
// order, or too narrow for figures beside the drawing.

class Phone {
  narrow = $state(false);
  stacked = $state(false);

  constructor() {
    this.follow('(max-width: 699px)', (on) => (this.narrow = on));
    this.follow('(max-width: 999px)', (on) => (this.stacked = on));
  }

  private follow(query: string, set: (on: boolean) => void): void {
    const q = matchMedia(query);
    set(q.matches);
    q.addEventListener('change', (e) => set(e.matches));
  }
}

export const phone = new Phone();
