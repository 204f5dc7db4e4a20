/** Listeners to one thing, told in the order in which they came. */
export interface Telling<Told> {
  readonly tell: (told: Told) => void;
  /** Adds a listener; gives a function that takes it away. */
  readonly on: (listener: (told: Told) => void) => () => void;
}

export function telling<Told>(): Telling<Told> {
  const listeners = new Set<(told: Told) => void>();
  return {
    tell: (told) => {
      for (const listener of [...listeners]) listener(told);
    },
    on: (listener) => {
      listeners.add(listener);
      return () => void listeners.delete(listener);
    },
  };
}
