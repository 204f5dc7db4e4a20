import type { Score } from "../../schema/index.js";
import type { PlayedOnsets } from "../onsets.js";
import { firstAtOrAfter } from "./guide.js";

/** Seconds from the downbeat of bar 1; what lies at `to` is not in it. */
export interface Window {
  readonly from: number;
  readonly to: number;
}

/** A score as if only this stretch of it were played: notes and open bars in it, silences and sounding stretches cut to it. */
export function scoreWithin(score: Score, { from, to }: Window): Score {
  const cut = <S extends Window>(stretches: readonly S[]): S[] =>
    stretches
      .filter((stretch) => stretch.from < to && stretch.to > from)
      .map((stretch) => ({ ...stretch, from: Math.max(from, stretch.from), to: Math.min(to, stretch.to) }));
  return {
    ...score,
    expected: score.expected.filter(({ at }) => at >= from && at < to),
    dropouts: cut(score.dropouts),
    audible: cut(score.audible),
    open: score.open.filter((bar) => bar.from >= from && bar.to <= to),
  };
}

/** The onsets of a stretch, as views of the whole; `first` is the index of the first of them. */
export function playedWithin(
  { at, given, pitch, velocity }: PlayedOnsets,
  { from, to }: Window,
): PlayedOnsets & { readonly first: number } {
  const first = firstAtOrAfter(at, from * 1000);
  const end = firstAtOrAfter(at, to * 1000);
  return {
    first,
    at: at.subarray(first, end),
    given: given.subarray(first, end),
    pitch: pitch.subarray(first, end),
    velocity: velocity.subarray(first, end),
  };
}
