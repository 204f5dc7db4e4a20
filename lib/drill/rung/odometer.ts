/** The number of values of a wheel, and how many of them, counted from its top, it shows in each round after the first. */
export interface Wheel {
  readonly count: number;
  /** From 1 to `count`: `count` when it starts again at its bottom, k + 1 when it starts again k steps below its top. */
  readonly revisited: number;
}

/** The positions of ladders, counted like the wheels of an odometer: the first wheel turns first (mixed radix, with restarts). */
export interface Odometer {
  /** Number of positions; 1 when there are no wheels. */
  readonly count: number;
  /** The wheels' values (from 0) at an index from 0 to `count - 1`. */
  at(index: number): readonly number[];
  /** The index of the position with these values; `undefined` when there is none. */
  indexOf(digits: readonly number[]): number | undefined;
}

/**
 * An odometer whose wheels start again where `revisited` says. Positions are computed: time and memory grow only with the number of wheels.
 *
 * Wheel i has n_i values, of which m_i are revisited. A later round of the wheels below j has M_j = m_0 m_1 ... m_{j-1} positions (M_0 = 1).
 * The first round, in which each wheel starts at its bottom, has L_j = L_{j-1} + (n_{j-1} - 1) M_{j-1} positions (L_0 = 1): at the first
 * value of wheel j - 1 the wheels below make their first round, at each other value a later round. Derived here; tested against an
 * enumeration.
 *
 * Throws `RangeError` when a wheel has no values, or when the positions cannot be counted exactly (2^53 or more).
 *
 * @example
 * odometer([{ count: 3, revisited: 2 }, { count: 2, revisited: 2 }]).at(3); // [1, 1]: after [2, 0] the first wheel is one below its top
 */
export function odometer(wheels: readonly Wheel[]): Odometer {
  const further: number[] = [1];
  const first: number[] = [1];
  for (const { count, revisited } of wheels) {
    if (
      !(
        Number.isSafeInteger(count) &&
        count >= 1 &&
        Number.isInteger(revisited) &&
        revisited >= 1 &&
        revisited <= count
      )
    )
      throw new RangeError(`a wheel needs 1 <= revisited <= count, got revisited ${revisited}, count ${count}`);
    const [m, l] = [further.at(-1)!, first.at(-1)!];
    // A later round is never longer than the first, so it is exact when the first is.
    further.push(revisited * m);
    first.push(l + (count - 1) * m);
  }
  const count = first.at(-1)!;
  if (!(count < Number.MAX_SAFE_INTEGER)) throw new RangeError(`an odometer cannot count ${count} positions exactly`);
  return {
    count,
    at(index) {
      if (!(Number.isInteger(index) && index >= 0 && index < count))
        throw new RangeError(`an index must be a whole number from 0 to ${count - 1}, got ${index}`);
      const digits = wheels.map(() => 0);
      let climbing = wheels.length - 1;
      while (climbing >= 0 && index < first[climbing]!) climbing--;
      if (climbing < 0) return digits;
      const since = index - first[climbing]!;
      digits[climbing] = 1 + Math.floor(since / further[climbing]!);
      let rest = since % further[climbing]!;
      for (let i = climbing - 1; i >= 0; i--) {
        digits[i] = restartOf(wheels[i]!) + Math.floor(rest / further[i]!);
        rest %= further[i]!;
      }
      return digits;
    },
    indexOf(digits) {
      if (digits.length !== wheels.length) return undefined;
      if (digits.some((digit, i) => !(Number.isInteger(digit) && digit >= 0 && digit < wheels[i]!.count)))
        return undefined;
      let climbing = wheels.length - 1;
      while (climbing >= 0 && digits[climbing] === 0) climbing--;
      if (climbing < 0) return 0;
      let index = first[climbing]! + (digits[climbing]! - 1) * further[climbing]!;
      for (let i = 0; i < climbing; i++) {
        const turned = digits[i]! - restartOf(wheels[i]!);
        if (turned < 0) return undefined;
        index += turned * further[i]!;
      }
      return index;
    },
  };
}

/** The value at which a wheel starts again. */
export function restartOf(wheel: Wheel): number {
  return wheel.count - wheel.revisited;
}
