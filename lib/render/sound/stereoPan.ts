import type { Track } from "./timeline.js";

/** Pan of each General MIDI percussion key, -1 left to 1 right, as the audience sees the kit; our choice, kept small. Other keys are in the middle. */
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
/** Pans of the pitched parts in their order; basses are not counted and stay in the middle. Our choice. */
const PITCHED_PANS: readonly number[] = [0.15, -0.3, 0.3, -0.15];
/** General MIDI programs of basses. */
const isBass = (program: number): boolean => program >= 33 && program <= 40;

/** Pan of a General MIDI percussion key, -1 left to 1 right. */
export function panInKit(key: number): number {
  return KIT_PANS.get(key) ?? 0;
}

/** Pan of a pitched part among the tracks, -1 left to 1 right; 0 for a percussion part. */
export function panOf(track: Track, tracks: readonly Track[]): number {
  if (track.program === undefined || isBass(track.program)) return 0;
  const others = tracks.filter(({ program }) => program !== undefined && !isBass(program));
  return PITCHED_PANS[others.indexOf(track) % PITCHED_PANS.length] ?? 0;
}

/** Gains of the left and right channel for a pan, of constant power: their squares add up to 1 (sine law, common practice). */
export function panGains(pan: number): readonly [left: number, right: number] {
  const angle = ((pan + 1) * Math.PI) / 4;
  return [Math.cos(angle), Math.sin(angle)];
}
