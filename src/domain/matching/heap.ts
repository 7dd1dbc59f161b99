/**
 * A binary heap of numbered items by their distance; of equals, the lower number first.
 */

/** An item may be put in again with a lesser distance; it then comes out twice, the lesser first. */
export class Heap {
  private items: number[] = [];
  private keys: number[] = [];

  clear(): void {
    this.items.length = 0;
    this.keys.length = 0;
  }

  put(item: number, key: number): void {
    let at = this.items.length;
    this.items.push(item);
    this.keys.push(key);
    while (at > 0) {
      const above = (at - 1) >> 1;
      if (!this.isBefore(at, above)) return;
      this.swap(at, above);
      at = above;
    }
  }

  /** The nearest item, taken out; undefined where none is left. */
  take(): number | undefined {
    const first = this.items[0];
    const last = this.items.length - 1;
    if (first === undefined) return undefined;
    this.swap(0, last);
    this.items.pop();
    this.keys.pop();
    let at = 0;
    for (;;) {
      let least = at;
      for (const below of [2 * at + 1, 2 * at + 2]) {
        if (below < last && this.isBefore(below, least)) least = below;
      }
      if (least === at) return first;
      this.swap(at, least);
      at = least;
    }
  }

  private isBefore(a: number, b: number): boolean {
    const difference = (this.keys[a] ?? 0) - (this.keys[b] ?? 0);
    return difference < 0 || (difference === 0 && (this.items[a] ?? 0) < (this.items[b] ?? 0));
  }

  private swap(a: number, b: number): void {
    const { items, keys } = this;
    [items[a], items[b]] = [items[b] ?? 0, items[a] ?? 0];
    [keys[a], keys[b]] = [keys[b] ?? 0, keys[a] ?? 0];
  }
}
