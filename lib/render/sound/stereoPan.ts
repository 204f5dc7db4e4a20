import type { Track } from "./timeline.js";

/** Where a percussion key stands, -1 left to 1 right, as a drummer's audience sees it; our choice, kept modest. What is not named is in the middle. */
const KIT_PANS: ReadonlyMap<number, number> = new Map([
  [42, 0.25],
  [44, 0.25],
  [46, 0.25],
  [49, 0.3],
  [57, -0.35],
  [55, 0.15],
  [52, -0.3],
  [51, -0.3],
  [53, -0.3],
  [59, -0.35],
  [50, 0.2],
  [48, 0.15],
  [47, 0.05],
  [45, -0.1],
  [43, -0.2],
  [41, -0.25],
]);
/** Places of the pitched parts in their order, basses left out: those stand in the middle. */
const PITCHED_PANS: readonly number[] = [0.15, -0.3, 0.3, -0.15];
/** General MIDI programs of basses. */
const isBass = (program: number): boolean => program >= 33 && program <= 40;

/** Where a percussion key stands, -1 left to 1 right. */
export function panInKit(key: number): number {
  return KIT_PANS.get(key) ?? 0;
}

/** Where a pitched part stands among the tracks, -1 left to 1 right. */
export function panOf(track: Track, tracks: readonly Track[]): number {
  if (track.program === undefined || isBass(track.program)) return 0;
  const others = tracks.filter(({ program }) => program !== undefined && !isBass(program));
  return PITCHED_PANS[others.indexOf(track) % PITCHED_PANS.length] ?? 0;
}

/** Left and right share of a place, of equal power: their squares add up to 1 (sine law, common practice). */
export function panGains(pan: number): readonly [left: number, right: number] {
  const angle = ((pan + 1) * Math.PI) / 4;
  return [Math.cos(angle), Math.sin(angle)];
}
