/** A sliding buffer: the latest samples of a recording, by their place in it. */
export interface SlidingBuffer {
  /** Samples there have been in all. */
  readonly length: () => number;
  readonly push: (samples: Float32Array) => void;
  /** Samples from `from` on for reading, as many as asked for at least: silence before the first and after the last. Good until the next push. */
  readonly at: (from: number, count: number) => Float32Array;
}

/** Keeps the last `kept` samples at least. */
export function slidingBuffer(kept: number): SlidingBuffer {
  let held = new Float32Array(4 * kept);
  let first = 0;
  let length = 0;
  const room = (count: number): void => {
    if (length - first + count <= held.length) return;
    const from = Math.max(first, length - kept);
    const rest = held.subarray(from - first, length - first);
    if (rest.length + count > held.length) {
      const larger = new Float32Array(2 * (rest.length + count));
      larger.set(rest);
      held = larger;
    } else held.copyWithin(0, from - first, length - first);
    first = from;
  };
  return {
    length: () => length,
    push: (samples) => {
      room(samples.length);
      held.set(samples, length - first);
      length += samples.length;
    },
    at: (from, count) => {
      if (from >= first && from + count <= length) return held.subarray(from - first, from - first + count);
      const padded = new Float32Array(count);
      const begin = Math.max(from, first);
      const end = Math.min(from + count, length);
      if (end > begin) padded.set(held.subarray(begin - first, end - first), begin - from);
      return padded;
    },
  };
}
