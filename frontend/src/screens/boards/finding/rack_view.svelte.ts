import { EVERYTHING, type Narrowing, type Order } from './narrowing';

/** How the rack is looked at; it stays so while one looks at a board and comes back. */
class RackView {
  by = $state.raw<Narrowing>(EVERYTHING);
  order = $state<Order>('tag');

  search(words: string): void {
    this.by = { ...this.by, search: words };
  }
}

export const rackView = new RackView();
