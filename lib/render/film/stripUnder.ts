import { beatAt } from "../../base/index.js";
import type { Score } from "../../schema/index.js";
import { silencesHeard } from "../phrases.js";
import type { PictureBar } from "../sheet/index.js";
import { barsOfPhrase, type PlacedBar } from "./riffPlaces.js";

/** From the lowest ink of a system to its strip, and the strip's height, in the units of the engraved riff. */
export const STRIP = { below: 8, height: 9 } as const;

/** What stands under one bar of an engraved riff, in its units. */
export interface BarStrip {
  /** Upper edge of the strip. */
  readonly y: number;
  /** Beats, or pieces of them, in which all sounds. */
  readonly sounding: readonly Reach[];
  /** Silences, as far as they lie in the bar. */
  readonly silent: readonly (Reach & { /** Whether the silence begins here. */ readonly begins: boolean })[];
  /** Where the accompaniment returns. */
  readonly landings: readonly number[];
}

interface Reach {
  readonly x: number;
  readonly width: number;
}

/** White space between beats. */
const NOTCH = 1.2;
/** Two times closer than this are equal, seconds. */
const SAME = 1e-6;

/** Under each bar of a phrase of a take, from 1: its beats where the band sounds, where it is silent, and where it returns. */
export function stripUnder(score: Score, bars: readonly PictureBar[], phrase: number): readonly BarStrip[] {
  return barsOfPhrase(score, bars, phrase)
    .filter(({ from }) => from >= 0)
    .map((bar) => barStrip(score, bar));
}

function barStrip(score: Score, { place, from, to, x }: PlacedBar): BarStrip {
  const reach = (left: number, right: number): Reach => ({ x: x(left), width: x(right) - x(left) });
  const length = beatAt(score, from);
  const sounding: Reach[] = [];
  for (let beat = from; beat < to - SAME; beat += length)
    for (const [left, right] of soundingIn(score, beat, Math.min(to, beat + length))) {
      const { x: edge, width } = reach(left, right);
      sounding.push({ x: edge, width: Math.max(1, width - NOTCH) });
    }
  const silent = silencesHeard(score).flatMap((silence) => {
    const [left, right] = [Math.max(silence.from, from), Math.min(silence.to, to)];
    return right - left > SAME ? [{ ...reach(left, right), begins: left === silence.from }] : [];
  });
  const landings = silencesHeard(score).flatMap(({ landing }) =>
    landing !== null && landing > from + SAME && landing <= to + SAME ? [x(landing)] : [],
  );
  return { y: place.bottom + STRIP.below, sounding, silent, landings };
}

/** The pieces of a beat in which the band sounds. */
function soundingIn(score: Score, from: number, to: number): readonly (readonly [number, number])[] {
  const cut = silencesHeard(score).find((each) => each.from < to - SAME && each.to > from + SAME);
  if (cut === undefined) return [[from, to]];
  const before = [from, Math.max(from, cut.from)] as const;
  const after = [Math.min(to, cut.to), to] as const;
  return [before, after].filter(([left, right]) => right - left > SAME);
}
