/** Reads bytes that arrive bit by bit; holds no more of them than was asked for, and a piece. */
export interface ByteReader {
  /** Waits until `count` bytes are there or the source ends; how many are there. */
  readonly fill: (count: number) => Promise<number>;
  /** The next bytes that are there, at most `count`; they stay. */
  readonly peek: (count: number) => Uint8Array;
  /** The next bytes that are there, at most `count`; they are gone then. */
  readonly take: (count: number) => Uint8Array;
  /** Leaves out `count` bytes, waiting for them; how many there were. */
  readonly skip: (count: number) => Promise<number>;
  /** Bytes taken or left out so far. */
  readonly position: () => number;
  /** What the source threw, if it broke off. */
  readonly fault: () => unknown;
  readonly close: () => Promise<void>;
}

/** A reader over bytes, or over pieces of them in order. A source that throws counts as one that ends; `fault` tells. */
export function byteReader(source: Uint8Array | AsyncIterable<Uint8Array>): ByteReader {
  const pieces = source instanceof Uint8Array ? undefined : source[Symbol.asyncIterator]();
  let held = source instanceof Uint8Array ? source : new Uint8Array(0);
  let ended = pieces === undefined;
  let at = 0;
  let fault: unknown;

  const next = async (): Promise<Uint8Array | undefined> => {
    try {
      const step = await pieces!.next();
      if (step.done !== true) return step.value;
    } catch (error) {
      fault = error ?? "unknown";
    }
    ended = true;
    return undefined;
  };
  const fill = async (count: number): Promise<number> => {
    if (held.length >= count || ended) return held.length;
    const parts = [held];
    let length = held.length;
    while (length < count && !ended) {
      const piece = await next();
      if (piece === undefined) break;
      parts.push(piece);
      length += piece.length;
    }
    held = joined(parts, length);
    return length;
  };
  const take = (count: number): Uint8Array => {
    const taken = held.subarray(0, count);
    held = held.subarray(taken.length);
    at += taken.length;
    return taken;
  };
  const skip = async (count: number): Promise<number> => {
    let left = count - take(count).length;
    while (left > 0 && (await fill(1)) > 0) left -= take(left).length;
    return count - left;
  };
  return {
    fill,
    peek: (count) => held.subarray(0, count),
    take,
    skip,
    position: () => at,
    fault: () => fault,
    close: async () => {
      ended = true;
      // A source that cannot be closed either is no longer of interest.
      await pieces?.return?.()?.catch(() => undefined);
    },
  };
}

function joined(parts: readonly Uint8Array[], length: number): Uint8Array {
  if (parts.length === 2 && parts[0]!.length === 0) return parts[1]!;
  const whole = new Uint8Array(length);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
