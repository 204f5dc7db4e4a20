import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { factsBeside } from "../../lib/cli/input/courseFile.js";
import { type Curriculum, readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { encodeWav } from "../../lib/formats/sound/index.js";
import { readyRecordings } from "../../lib/node/index.js";
import { renderSound, type Sound } from "../../lib/render/sound/index.js";
import type { Score } from "../../lib/schema/index.js";

/** The tempo at which the drums of the fixture are played. */
const RECORDED_TEMPO = 96;
export const RATE = 44100;

/** What the drummer plays: a bar line is a stroke of its own, and no two strokes are nearer than an eighth. */
const DRUMS =
  '{ crash: "-------- | same | -------X | --------", hat: x-x-x-x- | ..., snare: --X---X- | ..., kick: X---X--- | X--xX--- | same | X---X-x- }';

const course = (kit: string, drill = "ladders: [ { tempo: [72, 84, 96, 108, 120] } ]"): string => `
curriculum: quayside-recorded
edition: 1.0.0
title: Drums that were recorded
patterns:
  dockside:
    meter: 4/4
    bars: 4
    key: D dorian
    parts:
      kit: ${kit}
      lead: { notes: "1/4 D4 F4 1/8 G4 F4 1/4 D4 | ..." }
drills:
  gap:
    pattern: dockside
    student: lead
    phrases: 2
    count-in: 1 bar
    dropout: { length: 1 bar }
    ${drill}
    mixes: { play: {}, listen: { kit: plays } }
    tolerance: { drift: 6 %, landing: 90 ms }
`;

/** A recording of drums, and what is known of it from how it was made. */
export interface DrumRecording {
  readonly sound: Sound;
  /** Seconds from its beginning to bar 1. */
  readonly starts: number;
  /** Seconds from bar 1 to each stroke; strokes that fall together are one. */
  readonly strokes: readonly number[];
  readonly wav: Uint8Array;
}

/** Eight bars of drums by the built-in voices, with a count-in: two times the four bars of the pattern, so that a stroke follows on the last bar taken. */
export function drumRecording(
  tempo = RECORDED_TEMPO,
  /** When a drummer who drifts plays what an even one plays at a time, seconds from bar 1. */
  plays: (at: number) => number = (at) => at,
): DrumRecording {
  const read = readCourse(course(`{ voices: ${DRUMS} }`, `tempo: ${tempo}`));
  const score = scoreOf(rungs(read.drills[0]!).at(0), "listen");
  const even = score.parts.filter(({ name }) => name === "kit");
  const kit = even.map((part) => ({ ...part, notes: part.notes.map((note) => ({ ...note, at: plays(note.at) })) }));
  const made = renderSound({ ...score, parts: kit, duration: plays(score.duration) }, { rate: RATE });
  if (!made.ok) throw new Error(made.problems[0]!.message);
  const sound = made.value;
  const strokes = [...new Set(kit[0]!.notes.map(({ at }) => at))].sort((a, b) => a - b);
  return { sound, starts: sound.downbeat / RATE, strokes, wav: encodeWav(sound, { samples: "float" }) };
}

/** A folder with a course whose drums are files, and its curriculum. */
export interface RecordedCourse {
  readonly folder: string;
  readonly course: Curriculum;
  readonly text: string;
  /** The sound of a rung, as `leeway render` makes it. */
  readonly render: (
    tempo: number,
    mix?: string,
    loop?: number,
  ) => Promise<{ readonly sound: Sound; readonly score: Score }>;
  readonly remove: () => void;
}

/** `kit`: the part as the course writes it; `files`: the bytes beside the course. */
export function recordedCourse(
  kit: string,
  files: Readonly<Record<string, Uint8Array>>,
  drill?: string,
): RecordedCourse {
  const folder = mkdtempSync(join(tmpdir(), "leeway-recorded-"));
  for (const [name, bytes] of Object.entries(files)) writeFileSync(join(folder, name), bytes);
  const text = course(kit, drill);
  writeFileSync(join(folder, "course.yaml"), text);
  const read = readCourse(text, join(folder, "course.yaml"));
  const render: RecordedCourse["render"] = async (tempo, mix, loop) => {
    const ladder = rungs(read.drills[0]!);
    const rung = Array.from({ length: ladder.count }, (_, i) => ladder.at(i)).find(
      ({ settings }) => settings.tempo === String(tempo),
    );
    const score = scoreOf(rung!, mix);
    const ready = await readyRecordings(score, { pathOf: (file) => join(folder, file), rate: RATE });
    if (!ready.ok) throw new Error(ready.problems[0]!.message);
    const made = renderSound(score, {
      rate: RATE,
      recordings: ready.value,
      ...(loop === undefined ? {} : { loop: { phrases: loop } }),
    });
    if (!made.ok) throw new Error(made.problems[0]!.message);
    return { sound: made.value, score };
  };
  return { folder, course: read, text, render, remove: () => rmSync(folder, { recursive: true, force: true }) };
}

function readCourse(text: string, file = "course.yaml"): Curriculum {
  const read = readCurriculum(text, { file, readFile: () => undefined, readRecording: factsBeside(file) });
  if (!read.ok) throw new Error(read.problems.map(({ message, where }) => `${where.line}: ${message}`).join("\n"));
  return read.value;
}

/** Largest difference of neighbouring samples from one sample to before another. */
export function largestStep(samples: Float32Array, from: number, to: number): number {
  let largest = 0;
  for (let i = Math.max(1, from); i < to; i++) largest = Math.max(largest, Math.abs(samples[i]! - samples[i - 1]!));
  return largest;
}

/**
 * By how many samples a piece of one sound lies later in another than it was looked for, to a tenth: the peak of the cross-correlation of their differences, in which
 * attacks outweigh what rings.
 */
export function lagOf(
  piece: Float32Array,
  whole: Float32Array,
  { at, reach }: { readonly at: number; readonly reach: number },
): number {
  const energyOf = (from: number): number => {
    let sum = 0;
    for (let i = 1; i < piece.length; i++) sum += ((whole[from + i] ?? 0) - (whole[from + i - 1] ?? 0)) ** 2;
    return sum;
  };
  const correlation = (lag: number): number => {
    let sum = 0;
    for (let i = 1; i < piece.length; i++)
      sum += (piece[i]! - piece[i - 1]!) * ((whole[at + lag + i] ?? 0) - (whole[at + lag + i - 1] ?? 0));
    return sum / Math.sqrt(energyOf(at + lag) + 1e-20);
  };
  let best = -reach;
  const values = new Map<number, number>();
  for (let lag = -reach; lag <= reach; lag++) {
    values.set(lag, correlation(lag));
    if (values.get(lag)! > values.get(best)!) best = lag;
  }
  const [before, peak, after] = [values.get(best - 1), values.get(best)!, values.get(best + 1)];
  if (before === undefined || after === undefined) return best;
  const bend = before - 2 * peak + after;
  return best + (bend === 0 ? 0 : (0.5 * (before - after)) / bend);
}
