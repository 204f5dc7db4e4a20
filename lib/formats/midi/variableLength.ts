/** A variable-length quantity has at most four bytes, so it is at most 2^28 - 1 (Standard MIDI Files 1.0, RP-001). */
export const MOST_QUANTITY_BYTES = 4;
const LARGEST_QUANTITY = 2 ** 28 - 1;

/** What is wrong with a variable-length quantity: its track ends inside it, or it has more than four bytes. */
export type QuantityProblem = "MIDI_EVENT_TRUNCATED" | "MIDI_NUMBER_TOO_LONG";

/** Reads a variable-length quantity at `at`, before `to`: seven bits to a byte, the highest bit set on all but the last (RP-001). */
export function readVariableLength(
  bytes: Uint8Array,
  at: number,
  to: number,
): { readonly value: number; readonly next: number } | QuantityProblem {
  let value = 0;
  for (let i = 0; i < MOST_QUANTITY_BYTES; i++) {
    const byte = at + i < to ? bytes[at + i] : undefined;
    if (byte === undefined) return "MIDI_EVENT_TRUNCATED";
    value = value * 128 + (byte & 0x7f);
    if (byte < 0x80) return { value, next: at + i + 1 };
  }
  return "MIDI_NUMBER_TOO_LONG";
}

/** Writes a variable-length quantity, 0 to 2^28 - 1. Throws `RangeError` for any other number. */
export function variableLength(value: number): readonly number[] {
  let rest = requireWhole(value, 0, LARGEST_QUANTITY);
  const bytes = [rest & 127];
  while (rest > 127) {
    rest >>>= 7;
    bytes.unshift((rest & 127) | 128);
  }
  return bytes;
}

/** The value, when it is a whole number from `least` to `most`; throws `RangeError` otherwise. */
export function requireWhole(value: number, least: number, most: number): number {
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new RangeError(`a MIDI file holds a whole number from ${least} to ${most} here, got ${value}`);
}
