import { add, type Fraction, fraction } from "../../../base/index.js";
import type { Pattern } from "../../../pattern/index.js";
import type { Meter } from "../../../time/index.js";

/** The beats of a bar, each so many notes of the meter's lower number: its groups where it has several, else that note itself. */
export function beatSizes({ groups }: Meter): readonly number[] {
  return groups.length > 1 ? groups : new Array<number>(groups[0]!).fill(1);
}

/** The beats of a riff, in whole notes from the downbeat of bar 1; a pick-up has none. */
export function beatsIn({ bars }: Pattern): readonly { readonly from: Fraction; readonly to: Fraction }[] {
  return bars.flatMap(({ position, meter }) => {
    let at = position;
    return beatSizes(meter).map((size) => {
      const from = at;
      at = add(at, fraction(size, meter.lower));
      return { from, to: at };
    });
  });
}
