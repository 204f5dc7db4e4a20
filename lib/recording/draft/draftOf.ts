import { pitchText, spelledIn } from "../../pattern/index.js";
import { draftLine } from "./draftLine.js";
import { gridThrough } from "./gridThrough.js";
import type { Draft, DraftNote, DraftOptions, HeardNote } from "./model.js";

/** Two notes nearer than this are one chord, seconds: our choice, shorter than any note that is meant. */
const TOGETHER = 0.03;
/** Least scatter that is reckoned with, seconds: our choice, that of the steadiest players. */
const STEADIEST = 0.005;
/** How well the end of a note tells how long it was meant, as a part of a place of the grid: our choice, players differ in how short they play. */
const END_SCATTER = 0.35;
/** How well a pitch is known, cents: our choice, that of a steady tone. */
const PITCH_SCATTER = 15;
/** A normal deviate beyond which lie half as many as within: for medians of deviations. */
const HALF = 1.4826;

/**
 * The first draft of a riff: each note at the nearest place of a grid that goes through all of them, as long as the nearest length, its pitch in the spelling of the key, and how sure each is. `undefined`
 * without notes.
 *
 * @example
 * draftOf([], options) // undefined: nothing was played
 */
export function draftOf(heard: readonly HeardNote[], options: DraftOptions): Draft | undefined {
  const chords = chordsIn(heard);
  if (chords.length === 0) return undefined;
  const { perWhole, perBeat, perBar, key } = options;
  const times = chords.map(({ at }) => at);
  const grid = gridThrough(times, 60 / options.tempo / perBeat);
  const { step } = grid;
  const zero = Math.round(((options.starts ?? times[0]!) - grid.start) / step);
  const start = grid.start + zero * step;
  const places = times.map((at) => Math.round((at - start) / step));
  const off = times.map((at, i) => at - start - places[i]! * step);
  const scatter = Math.max(STEADIEST, HALF * median(off.map(Math.abs)));
  const cents = tuningOf(chords.flatMap(({ pitches }) => pitches));
  const notes: DraftNote[] = [];
  for (const [i, { at, noiseMs, end, pitches }] of chords.entries()) {
    const place = places[i]!;
    // Two notes at one place: the first stays, as the second may be how it speaks.
    if (place === notes.at(-1)?.place) continue;
    const next = places.find((each) => each > place);
    const { length, sure } = lengthOf(end === undefined ? undefined : (end - start) / step - place, {
      most: next === undefined ? undefined : next - place,
      beat: perBeat,
    });
    const numbers = pitches.map((pitch) => pitch - (cents ?? 0) / 100);
    notes.push({
      place,
      length,
      pitches: [...new Set(numbers.map((number) => pitchText(spelledIn(key, Math.round(number)))))],
      at,
      sure: {
        place: shareOf(off[i]!, step, Math.hypot(scatter, noiseMs / 1000)),
        length: sure,
        pitch:
          numbers.length === 0
            ? undefined
            : Math.min(...numbers.map((number) => shareOf(100 * (number - Math.round(number)), 100, PITCH_SCATTER))),
      },
    });
  }
  const last = notes.at(-1)!;
  const bars = Math.max(1, Math.ceil((last.place + last.length) / perBar));
  const inBars = notes.filter(({ place }) => place >= 0);
  return {
    notes,
    bars,
    line: draftLine(inBars, { perWhole, perBar, bars }),
    tempo: 60 / (step * perBeat),
    starts: start,
    scatterMs: 1000 * scatter,
    cents,
    agreement: grid.agreement,
  };
}

/** Notes that begin together are one with several pitches. */
function chordsIn(heard: readonly HeardNote[]): readonly HeardNote[] {
  const chords: HeardNote[] = [];
  for (const note of [...heard].sort((a, b) => a.at - b.at)) {
    const last = chords.at(-1);
    if (last === undefined || note.at - last.at > TOGETHER) chords.push(note);
    else chords[chords.length - 1] = { ...last, pitches: [...last.pitches, ...note.pitches].sort((a, b) => a - b) };
  }
  return chords;
}

/** Places that a note lasts, to the next one at most; to it, or a beat, where its end is not known. */
function lengthOf(
  lasts: number | undefined,
  { most, beat }: { readonly most: number | undefined; readonly beat: number },
): { readonly length: number; readonly sure: number | undefined } {
  if (lasts === undefined) return { length: most ?? beat, sure: undefined };
  const capped = Math.min(lasts, most ?? lasts);
  const length = Math.max(1, Math.round(capped));
  // What is held up to the next note is as long as that says, and could only be shorter.
  const off = length === most ? Math.min(0, lasts - length) : capped - length;
  return { length, sure: shareOf(length === 1 ? Math.max(0, off) : off, 1, END_SCATTER) };
}

/** The chance that a value belongs to the place it is `off` from and to none beside it, `step` apart, when it scatters by `scatter`. */
function shareOf(off: number, step: number, scatter: number): number {
  const height = (from: number): number => Math.exp(-0.5 * (from / scatter) ** 2);
  const heights = [-2, -1, 0, 1, 2].map((k) => height(off - k * step));
  const all = heights.reduce((sum, each) => sum + each, 0);
  return all === 0 ? 0.5 : heights[2]! / all;
}

/** How many cents pitches lie above those of A4 = 440 Hz, as the middle of them says. */
function tuningOf(pitches: readonly number[]): number | undefined {
  if (pitches.length === 0) return undefined;
  let [cos, sin] = [0, 0];
  for (const pitch of pitches) {
    cos += Math.cos(2 * Math.PI * pitch);
    sin += Math.sin(2 * Math.PI * pitch);
  }
  return (100 * Math.atan2(sin, cos)) / (2 * Math.PI);
}

function median(values: readonly number[]): number {
  const ordered = [...values].sort((a, b) => a - b);
  return ordered[Math.floor(ordered.length / 2)]!;
}
