import { heightAt, type LaidSound, laidSounds, type ReadyRecording, readyFor } from "../../recording/index.js";
import type { Score } from "../../schema/index.js";
import { laidStretches } from "./playRecorded.js";
import { madeOnce } from "./voices/scoreVoices.js";

/** A short piece of a part's recording, for a player that puts sounds together itself. */
export interface RecordedPiece {
  /** Samples from the downbeat of bar 1 to its beginning. */
  readonly from: number;
  /** Gain that makes it as loud as the built-in voices. */
  readonly height: number;
  /** Name of its sound: pieces of one name have the same samples. */
  readonly sound: string;
  /** Left and right; made at the first call for any piece of this name. */
  readonly samples: () => readonly [Float32Array, Float32Array];
}

/** Longest piece, seconds: our choice; a player that begins amid a piece is silent for the rest of it. */
const LONGEST = 0.25;
/** Seconds in which a piece gives way to the next: our choice. Where they follow on one another the two add up to the recording; after a jump there is no click. */
const GIVES_WAY = 0.002;

/**
 * What a score plays of recordings, by part, in pieces that add up to what `renderSound` plays of them, in order of time. A part is left out unless all of its recordings were
 * given: its notes may be played instead. `ready` are of one rate, at which the samples count; `RangeError` for two.
 *
 * @example
 * recordedPieces(scoreOf(rungs(drill).at(0)), []).size // 0: a score of notes
 */
export function recordedPieces(
  { parts, bars }: Score,
  ready: readonly ReadyRecording[],
): ReadonlyMap<string, readonly RecordedPiece[]> {
  const rate = ready[0]?.rate ?? 44100;
  if (ready.some((each) => each.rate !== rate)) throw new RangeError("the recordings of a score are of one rate");
  const barLines = bars.map(({ at }) => Math.round(at * rate));
  const made = new Map<string, () => readonly [Float32Array, Float32Array]>();
  const pieces = new Map<string, readonly RecordedPiece[]>();
  for (const { name, recorded = [] } of parts) {
    if (recorded.length === 0 || recorded.some((stretch) => readyFor(stretch, ready) === undefined)) continue;
    const sounds = laidSounds(laidStretches(recorded, ready, rate), { rate });
    pieces.set(
      name,
      sounds.flatMap((sound) => piecesOf(sound, { barLines, rate, made })),
    );
  }
  return pieces;
}

interface Cutting {
  readonly barLines: readonly number[];
  readonly rate: number;
  readonly made: Map<string, () => readonly [Float32Array, Float32Array]>;
}

/** A sound cut at bar lines, and evenly between them. */
function piecesOf(sound: LaidSound, { barLines, rate, made }: Cutting): readonly RecordedPiece[] {
  const { first, end, comesIn, goesOut, start, recording, gain } = sound;
  const over = Math.round(GIVES_WAY * rate);
  const lines = barLines.filter((line) => line > first + Math.max(comesIn, over) && line < end - goesOut - over);
  const whole = [first, ...lines, end];
  const cuts = whole.slice(1).flatMap((to, i) => {
    const from = whole[i]!;
    const count = Math.max(1, Math.ceil((to - from) / (LONGEST * rate)));
    return Array.from({ length: count }, (_, k) => Math.round(from + (k * (to - from)) / count));
  });
  return cuts.map((from, i): RecordedPiece => {
    const next = cuts[i + 1];
    const to = next === undefined ? end : Math.min(end, next + over);
    const heights = (at: number): number =>
      heightAt(at, sound) *
      (i === 0 ? 1 : Math.min(1, (at - from + 0.5) / over)) *
      (next === undefined ? 1 : Math.min(1, Math.max(0, (next + over - at - 0.5) / over)));
    const place = start + from - first;
    const { sha256, speed, semitones, from: begins } = recording;
    const ends = `${i === 0 ? comesIn : ""}/${end - goesOut < to ? end - from : ""}/${next === undefined ? "" : next - from}`;
    const name = `${sha256}/${speed}/${semitones}/${begins}/${place}/${to - from}/${ends}`;
    const samples =
      made.get(name) ??
      madeOnce(() => {
        const [left, right] = recording.channels.map((channel) =>
          Float32Array.from({ length: to - from }, (_, k) => (channel[place + k] ?? 0) * heights(from + k)),
        );
        return [left!, right!] as const;
      });
    made.set(name, samples);
    return { from, height: gain, sound: name, samples };
  });
}
