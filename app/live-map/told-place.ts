/** A place as the picture's own title tells it. */
export interface ReadPlace {
  place: string;
  name: string;
  words: string;
}

/** What is told beside the map, and on which side of it: that where the pointer is not. */
export interface Told {
  read: ReadPlace | null;
  side: 'left' | 'right';
}

/**
 * Keeps what is told beside the map. It changes with every place that is pointed at, so it is no state of the map's own
 * component, of which everything would be drawn anew before the place is told.
 */
export function createTold() {
  let told: Told = { read: null, side: 'right' };
  const listeners = new Set<() => void>();
  return {
    get: () => told,
    subscribe(listener: () => void): () => void {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    tell(change: Partial<Told>): void {
      const next = { ...told, ...change };
      if (next.read === told.read && next.side === told.side) return;
      told = next;
      for (const listener of listeners) listener();
    },
  };
}
