import { toNumber } from "../../base/index.js";
import type { Rate } from "../../formats/sound/index.js";
import { midiNumber, PERCUSSION, parsePitch } from "../../pattern/index.js";
import type { Score, ScoreNote, ScorePart } from "../../schema/index.js";
import { clicksOf } from "../clicks.js";
import { programOf } from "../programs.js";
import { beatUnitOf } from "../scoreTime.js";
import { velocityOf } from "../velocity.js";
import { type Manner, mannersOf } from "./voices/manner.js";

/** Silence before the count-in, in seconds: our choice, because wireless speakers and some players cut off the first tenths of a second. */
const LEAD_IN = 0.25;
/** Time after the end of the take for sounds that still ring, in seconds; our choice. */
const TAIL = 1;

/** A note, in samples from the start of the file. */
export interface TimedNote {
  readonly from: number;
  /** Where the note is released. */
  readonly to: number;
  /** Where the sound must fade out: the start of the next silence of its part; `Infinity` without one, and for a part that is let ring. */
  readonly stop: number;
  /** MIDI note number, or the General MIDI percussion key. */
  readonly key: number;
  /** MIDI velocity, 1 to 127. */
  readonly velocity: number;
  readonly manner: Manner;
}

/** A part with its notes in samples. */
export interface Track {
  readonly name: string;
  readonly instrument?: string;
  /** General MIDI program, 1 to 128; `undefined` for percussion. */
  readonly program: number | undefined;
  readonly notes: readonly TimedNote[];
  /** The silences of the part, from (included) to (excluded), in order of time; empty for a part that is let ring. */
  readonly silences: readonly (readonly [from: number, to: number])[];
}

/** A score in samples from the start of the file. */
export interface Timeline {
  readonly rate: Rate;
  readonly length: number;
  /** The sample of the downbeat of bar 1. */
  readonly downbeat: number;
  readonly clicks: readonly { readonly from: number; readonly isDownbeat: boolean }[];
  /** General MIDI key of the percussion voice that counts in; absent for the click. */
  readonly countInKey?: number;
  readonly tracks: readonly Track[];
  /** Samples of the first phrase, which need not be whole. */
  readonly phrase: number;
  /** Hertz of A4; absent at the usual 440. */
  readonly tuning?: number;
}

/**
 * Converts the times of a score to whole samples: the nearest sample, counted from the sample of the downbeat of bar 1.
 *
 * Notes of unknown percussion voices are left out; a score from `scoreOf` has none.
 */
export function timeline(score: Score, rate: Rate): Timeline {
  const earliest = Math.min(0, ...score.parts.map(beginningOf));
  const downbeat = Math.round((LEAD_IN + Math.max(score.countIn, -earliest)) * rate);
  const sample = (at: number): number => downbeat + Math.round(at * rate);
  const perWhole = score.beat / toNumber(beatUnitOf(score));
  const clicks = score.countIn > 0 ? clicksOf(score) : [];
  return {
    rate,
    phrase: (score.phraseSeconds ?? score.duration) * rate,
    length: sample(score.duration + TAIL),
    downbeat,
    clicks: clicks.map(({ position, isDownbeat }) => ({ from: sample(toNumber(position) * perWhole), isDownbeat })),
    ...countInKey(score),
    tracks: score.parts.filter((part) => part.notes.length > 0).map((part) => track(part, score, sample)),
    ...(score.tuningHz === undefined ? {} : { tuning: score.tuningHz }),
  };
}

/** Where a part begins, in seconds from bar 1. */
function beginningOf({ notes, recorded = [] }: ScorePart): number {
  return Math.min(notes[0]?.at ?? 0, recorded[0]?.from ?? 0);
}

/** A click has its own sounds, on the first beat of a bar and elsewhere. */
function countInKey({ countInVoice }: Score): Pick<Timeline, "countInKey"> {
  const key = countInVoice === undefined || countInVoice === "click" ? undefined : PERCUSSION.get(countInVoice);
  return key === undefined ? {} : { countInKey: key };
}

function track(part: ScorePart, score: Score, sample: (at: number) => number): Track {
  const silences = score.dropouts
    .filter((dropout) => part.rings !== true && dropout.parts.includes(part.name))
    .map((dropout) => [sample(dropout.from), sample(dropout.to)] as const);
  const manners = mannersOf(part.notes);
  const isPercussion = part.notes.some((note) => note.voice !== undefined);
  return {
    name: part.name,
    ...(part.instrument === undefined ? {} : { instrument: part.instrument }),
    program: isPercussion ? undefined : programOf(part),
    notes: part.notes.flatMap((note, i) => {
      const key = keyOf(note);
      if (key === undefined) return [];
      const from = sample(note.at);
      const stop = silences.find(([begins]) => begins > from)?.[0] ?? Number.POSITIVE_INFINITY;
      return [{ from, to: sample(note.at + note.seconds), stop, key, velocity: velocityOf(note), manner: manners[i]! }];
    }),
    silences,
  };
}

function keyOf({ voice, pitch }: ScoreNote): number | undefined {
  if (voice !== undefined) return PERCUSSION.get(voice);
  const read = pitch === undefined ? undefined : parsePitch(pitch);
  return read?.ok ? midiNumber(read.value) : undefined;
}
