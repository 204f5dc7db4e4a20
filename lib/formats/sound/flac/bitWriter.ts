/** Writes numbers of any bit length, the highest bit first, as FLAC has them. */
export interface BitWriter {
  /** Appends the lowest `bits` bits of a whole number; 0 to 32. */
  readonly put: (value: number, bits: number) => void;
  /** Appends signed numbers as Rice codes: `count` of `numbers` from `from`, the low `parameter` bits plain and the rest unary (RFC 9639, section 9.2.7.1). */
  readonly putRice: (numbers: Int32Array, range: { from: number; count: number; parameter: number }) => void;
  /** Fills up the last byte with zeros. */
  readonly align: () => void;
  /** Bytes written; whole ones only. */
  readonly length: () => number;
  /** The bytes from `from` on, not copied: valid until more is written. */
  readonly bytes: (from?: number) => Uint8Array;
}

/** A writer whose room grows as needed from `room` bytes. */
export function bitWriter(room: number): BitWriter {
  let store = new Uint8Array(Math.max(room, 64));
  let length = 0;
  /** Bits that do not fill a byte yet: the lowest `waiting` of `held`. */
  let held = 0;
  let waiting = 0;

  const reserve = (more: number): void => {
    if (length + more <= store.length) return;
    const larger = new Uint8Array(Math.max(2 * store.length, length + more));
    larger.set(store.subarray(0, length));
    store = larger;
  };
  /** At most 24 bits, so that they and a part of a byte fit into 31. */
  const putShort = (value: number, bits: number): void => {
    held = (held << bits) | (value & ((1 << bits) - 1));
    waiting += bits;
    while (waiting >= 8) {
      waiting -= 8;
      store[length++] = held >>> waiting;
    }
    held &= 0xff;
  };
  const put = (value: number, bits: number): void => {
    reserve(4);
    if (bits > 16) putShort(value >>> 16, bits - 16);
    putShort(value, Math.min(bits, 16));
  };
  return {
    put,
    putRice: (numbers, { from, count, parameter }) => {
      const mask = 2 ** parameter - 1;
      for (let i = from; i < from + count; i++) {
        const number = numbers[i]!;
        // Even numbers stand for 0, 1, 2 ..., odd ones for -1, -2 ...
        const folded = (number << 1) ^ (number >> 31);
        let zeros = folded >>> parameter;
        const size = zeros + 1 + parameter;
        if (size <= 24) {
          if (length + 4 > store.length) reserve(4);
          putShort((1 << parameter) | (folded & mask), size);
        } else {
          reserve((zeros >> 3) + 8);
          for (; zeros >= 24; zeros -= 24) putShort(0, 24);
          putShort(1, zeros + 1);
          put(folded, parameter);
        }
      }
    },
    align: () => {
      if (waiting > 0) put(0, 8 - waiting);
    },
    length: () => length,
    bytes: (from = 0) => store.subarray(from, length),
  };
}
