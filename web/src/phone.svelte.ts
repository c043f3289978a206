// Whether the page is as narrow as a phone, where things stand in another order.

class Phone {
  narrow = $state(false);

  constructor() {
    const query = matchMedia('(max-width: 699px)');
    this.narrow = query.matches;
    query.addEventListener('change', (e) => (this.narrow = e.matches));
  }
}

export const phone = new Phone();
