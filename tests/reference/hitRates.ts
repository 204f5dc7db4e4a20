/** How many of the notes that should be there are, and how many of those that are there should be. Each from 0 to 1. */
export interface HitRates {
  readonly precision: number;
  readonly recall: number;
  /** Harmonic mean of precision and recall. */
  readonly f: number;
}

/**
 * Pairs each reference time with an estimated one at most `window` away, as many pairs as there can be, each time in one pair at most.
 *
 * Times and window share a unit; lists may be in any order. The pairs are indices [reference, estimated], in order of time. Walking both
 * lists in order and pairing the two foremost times whenever they lie within the window gives a maximum matching: of two times that are
 * foremost and further apart than the window, the earlier one can meet nothing that is still to come, so dropping it costs nothing; and if
 * they are near enough, a best matching that pairs them with others (r with e', r' with e) can pair r with e and r' with e' instead, because
 * both of those lie between the two distances given up. Throws `RangeError` when a time is not finite or the window is negative.
 *
 * @example matchHits([1, 2], [1.04, 3], 0.05) // [[0, 0]]
 */
export function matchHits(
  reference: readonly number[],
  estimated: readonly number[],
  window: number,
): readonly (readonly [reference: number, estimated: number])[] {
  if (!(window >= 0)) throw new RangeError(`a window is 0 or more, got ${window}`);
  const first = inOrder(reference);
  const second = inOrder(estimated);
  const pairs: [number, number][] = [];
  let i = 0;
  let j = 0;
  while (i < first.length && j < second.length) {
    const apart = estimated[second[j]!]! - reference[first[i]!]!;
    if (Math.abs(apart) <= window) pairs.push([first[i++]!, second[j++]!]);
    else if (apart > 0) i++;
    else j++;
  }
  return pairs;
}

/**
 * Precision, recall and their harmonic mean, from the number of hits and of times on either side; 0 when a side is empty, as in mir_eval.
 *
 * Throws `RangeError` when there are more hits than times.
 *
 * @example hitRates(13, { reference: 22, estimated: 27 }).recall // 13 / 22
 */
export function hitRates(hits: number, of: { readonly reference: number; readonly estimated: number }): HitRates {
  if (!(hits >= 0 && hits <= Math.min(of.reference, of.estimated)))
    throw new RangeError(`${hits} hits among ${of.reference} and ${of.estimated} times`);
  if (hits === 0) return { precision: 0, recall: 0, f: 0 };
  const precision = hits / of.estimated;
  const recall = hits / of.reference;
  return { precision, recall, f: (2 * precision * recall) / (precision + recall) };
}

/** Indices of the times from the earliest to the latest. */
function inOrder(times: readonly number[]): number[] {
  const strange = times.findIndex((time) => !Number.isFinite(time));
  if (strange >= 0) throw new RangeError(`time ${strange} is not a finite number`);
  return times.map((_, index) => index).sort((a, b) => times[a]! - times[b]! || a - b);
}
