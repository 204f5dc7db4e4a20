/** Reads bytes that arrive in pieces. It holds at most the bytes asked for, and one piece. */
export interface ByteReader {
  /** Waits until `count` bytes are there or the source ends. Returns how many are there. */
  readonly fill: (count: number) => Promise<number>;
  /** Returns the next bytes that are there, at most `count`, without consuming them. */
  readonly peek: (count: number) => Uint8Array;
  /** Returns and consumes the next bytes that are there, at most `count`. */
  readonly take: (count: number) => Uint8Array;
  /** Skips `count` bytes and waits for them. Returns how many were skipped. */
  readonly skip: (count: number) => Promise<number>;
  /** Bytes consumed or skipped so far. */
  readonly position: () => number;
  /** The error that the source threw; `undefined` without one. */
  readonly fault: () => unknown;
  readonly close: () => Promise<void>;
}

/** Makes a reader of bytes, or of pieces in order. A source that throws counts as ended; `fault` has the error. */
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
      // An error while closing the source changes nothing.
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
