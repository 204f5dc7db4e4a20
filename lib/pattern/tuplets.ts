import { add, compare, divide, equals, type Fraction, fractionText, multiply, subtract } from "../base/index.js";
import { swungPosition } from "../time/index.js";
import type { Frame } from "./compile/bars.js";
import type { Note } from "./model.js";

/** From where to where a tuplet is written, in whole notes. */
export interface Tuplet {
  readonly from: Fraction;
  readonly to: Fraction;
}

/** When a note of a tuplet sounds, as a `Note` says it. */
export type Heard = Pick<Note, "late" | "endLate">;

/** A note, a rest or a tie, and the tuplets in which it begins and ends; absent outside tuplets. */
interface Written {
  readonly position: Fraction;
  readonly length: Fraction;
  readonly tuplet?: Tuplet | undefined;
  readonly endsIn?: Tuplet | undefined;
}

/**
 * When the notes of one voice sound, by their tuplets: an entry for each, empty outside tuplets and in a straight pattern.
 *
 * Swing makes pairs of eighths or sixteenths uneven, and no note whose duration is not the nominal value of its type (MusicXML 4.0, element `swing`): a tuplet
 * is played as written. Its beginning and its end are where swing places them, and between these its notes are even (common practice, no source). Tuplets
 * that meet off the beat are even across it: two triplets of sixteenths in a beat of swung eighths are six equal notes (our choice).
 */
export function heardInTuplets(voice: readonly Written[], frame: Pick<Frame, "swing" | "bars">): readonly Heard[] {
  if (frame.swing === undefined) return voice.map(() => ({}));
  const swung = (position: Fraction): Fraction => swungPosition(position, frame.swing, frame.bars);
  const evenOver = evenStretches(voice, (position) => !equals(swung(position), position));
  const lateIn = (position: Fraction, tuplet: Tuplet | undefined): Fraction | undefined => {
    if (tuplet === undefined) return undefined;
    const { from, to } = evenOver(tuplet);
    const share = divide(subtract(position, from), subtract(to, from));
    const at = add(swung(from), multiply(share, subtract(swung(to), swung(from))));
    const late = subtract(at, swung(position));
    return late.n === 0 ? undefined : late;
  };
  return voice.map(({ position, length, tuplet, endsIn }) => {
    const late = lateIn(position, tuplet);
    const endLate = lateIn(add(position, length), endsIn);
    return { ...(late && { late }), ...(endLate && { endLate }) };
  });
}

/** The stretch that is even around each tuplet of a voice: the tuplet, with those that meet it where the swing moves a note. */
function evenStretches(
  voice: readonly Written[],
  isMoved: (position: Fraction) => boolean,
): (tuplet: Tuplet) => Tuplet {
  const tuplets = voice.flatMap(({ tuplet, endsIn }) => [tuplet, endsIn].flatMap((each) => each ?? []));
  const stretches = new Map<string, { from: Fraction; to: Fraction }>();
  let last: { from: Fraction; to: Fraction } | undefined;
  for (const { from, to } of tuplets.sort((a, b) => compare(a.from, b.from))) {
    if (stretches.has(fractionText(from))) continue;
    if (last && equals(last.to, from) && isMoved(from)) last.to = to;
    else last = { from, to };
    stretches.set(fractionText(from), last);
  }
  return (tuplet) => stretches.get(fractionText(tuplet.from))!;
}
