import type { Result } from "../base/index.js";
import type { SoundBlock } from "../formats/sound/index.js";
import type { PlayedOnset, Score } from "../schema/index.js";
import {
  type BackingFound,
  cancelBacking,
  type HeardBeside,
  hearCancelled,
  measureRoom,
  type OpenSound,
  placeOf,
  survey,
} from "./backing/index.js";
import type { InstrumentFamily } from "./families.js";
import { type HeardNote, noteHearer } from "./noteHearer.js";
import { growingSound } from "./signal/growingReader.js";
import { type MonoSignal, monoSignal } from "./signal/monoSignal.js";
import { sincDecimator } from "./signal/sincDecimator.js";
import type { SoundTake } from "./soundTake.js";
import { soundTakeOf } from "./soundTakeOf.js";
import { takeClock } from "./takeClock.js";

/**
 * Seconds of the band after which the room is measured, and after which it is tried once more when it was not found; our choice: a count-in and some
 * bars, and twice as much. Who plays alone from the start is heard without.
 */
const MEASURED_AFTER: readonly number[] = [9, 18];

/**
 * Seconds about the start that the player knows in which the backing can arrive; elsewhere it is a likeness of the riff to itself. Our choice: outputs and
 * inputs are late by less than a second, wireless ones included, and clocks of browsers tell starts to some milliseconds.
 */
const WITHIN = { before: 0.1, after: 0.9 } as const;

export interface LiveTakeOptions {
  /** How the instrument's notes begin. */
  readonly family: InstrumentFamily;
  /** Seconds of the recording at which the count-in is heard, as far as the player knows. */
  readonly start: number;
  /** What is played aloud while the recording goes on, by the same clock; left out with headphones. */
  readonly backing?: OpenSound;
  /** Seconds of the backing at which its count-in begins; 0 when left out. */
  readonly backingZero?: number;
  readonly score?: Score;
  /** What was measured of the device; not used when the backing is found in the recording, which tells more. */
  readonly latencyMs?: number;
  readonly latencyStandardErrorMs?: number;
  readonly id?: string;
  /** Called with each note once it has settled, about a second after it sounded, on the clock of the take. */
  readonly onNote?: (note: PlayedOnset) => void;
}

/** A take that is heard while it is played. */
export interface LiveTake {
  push(block: SoundBlock): void;
  /** What was heard; as `takeFromSound` says it. */
  finish(): Promise<Result<SoundTake>>;
}

/**
 * Hears a take while it is played, so that little is left to do at its end. With a backing the room is measured on its first seconds, and the backing
 * taken out of the rest as it comes in, by the clock they share; a backing that is not found there counts as not heard (BACKING_NOT_HEARD).
 *
 * Blocks are of one form. Throws as `listenFor` does.
 *
 * @example
 * const live = liveTake({ family: "blown", start: 0.4, score });
 * live.push({ rate: 48000, channels: [new Float32Array(4800)] });
 * const heard = await live.finish();
 */
export function liveTake(options: LiveTakeOptions): LiveTake {
  const { family, backing, onNote } = options;
  const [first, ...later] = MEASURED_AFTER.map((seconds) => options.start + seconds);
  let source:
    | { mono: MonoSignal; alone: ReturnType<typeof noteHearer>; sound: ReturnType<typeof growingSound> }
    | undefined;
  let recorded: SoundBlock[] = [];
  let seconds = 0;
  let tries = backing === undefined ? [] : [first!, ...later];
  let searching: Promise<Beside | undefined> | undefined;
  let beside: Beside | undefined;
  const known = backing === undefined ? undefined : survey(backing);
  /** Notes heard before it was clear whether the band is in the recording. */
  const early: HeardNote[] = [];
  const tell = (note: HeardNote, place?: BackingFound): void => {
    const clock = takeClock(place, clockOf(options));
    const pitch = note.pitch === undefined ? {} : { pitch: note.pitch };
    onNote?.({ at: clock.toTake(note.at), ...pitch, velocity: note.velocity });
  };
  const search = async (blocks: readonly SoundBlock[]): Promise<Beside | undefined> => {
    const [heard, other] = [await survey(() => streamed(blocks)), await known];
    if (heard === undefined || other === undefined) return undefined;
    const due = options.start - (options.backingZero ?? 0);
    const found = placeOf(heard, other, { from: due - WITHIN.before, to: due + WITHIN.after });
    if (!found.found) return undefined;
    const room = await measureRoom(heard.open, other.open, found);
    const reader = await other.open();
    if (room === undefined || reader === undefined) return undefined;
    const place = { ...found, ...onOneClock({ ...found, ...room.path.alignment }, heard.seconds) };
    const path = { ...room.path, alignment: place };
    const pieces = cancelBacking(source!.sound.reader, reader, path);
    const { rate } = source!.sound.reader;
    return { heard: hearCancelled(pieces, { ...room, path, rate, place, family, tell: (note) => tell(note, place) }) };
  };
  return {
    push: (block) => {
      source ??= opened(block, family);
      const samples = source.mono.push(block.channels).samples;
      seconds += block.channels[0]!.length / block.rate;
      if (beside === undefined)
        for (const note of source.alone.push(samples)) tries.length > 0 || searching ? early.push(note) : tell(note);
      if (backing !== undefined) source.sound.push(samples);
      if (tries.length === 0 && searching === undefined) return;
      recorded.push(block);
      if (searching !== undefined || seconds < tries[0]!) return;
      tries = tries.slice(1);
      searching = search([...recorded]).then((found) => {
        beside = found;
        searching = undefined;
        if (found !== undefined) tries = [];
        if (tries.length > 0) return found;
        recorded = [];
        if (found === undefined) for (const note of early.splice(0)) tell(note);
        return found;
      });
    },
    finish: async () => {
      if (source === undefined) return soundTakeOf(nothing(), { ...clockOf(options), place: undefined });
      const rest = source.mono.finish().samples;
      source.sound.push(rest);
      source.sound.end();
      if (searching === undefined && beside === undefined && tries.length > 0) searching = search(recorded);
      beside = (await searching) ?? beside;
      if (beside !== undefined) {
        const heard = await beside.heard;
        return soundTakeOf(heard, { ...clockOf(options), place: heard.place });
      }
      source.alone.push(rest);
      const { heard, pitchOf } = source.alone.finish();
      const pitches = heard.onsets.map(pitchOf);
      const alone = { heard, pitches, undecidable: [], place: undefined, bleedDb: undefined };
      return soundTakeOf(alone, { ...clockOf(options), place: backing === undefined ? undefined : { found: false } });
    },
  };
}

interface Beside {
  readonly heard: Promise<HeardBeside>;
}

function opened(block: SoundBlock, family: InstrumentFamily) {
  const mono = monoSignal({ rate: block.rate, count: block.channels.length }, sincDecimator);
  return { mono, alone: noteHearer({ rate: mono.rate, family }), sound: growingSound(mono.rate) };
}

function clockOf({ score, start, backingZero = 0, latencyMs, latencyStandardErrorMs, id }: LiveTakeOptions) {
  return {
    start,
    backingZero,
    ...(score === undefined ? {} : { score }),
    ...(latencyMs === undefined ? {} : { latencyMs }),
    ...(latencyStandardErrorMs === undefined ? {} : { latencyStandardErrorMs }),
    ...(id === undefined ? {} : { id }),
  };
}

/** The place by which both clocks are one, through the middle of what it was found in. */
function onOneClock({ start, skewPpm }: BackingFound, seconds: number): { start: number; skewPpm: number } {
  return { start: start + ((skewPpm * 1e-6) / 2) * Math.max(0, seconds - start), skewPpm: 0 };
}

async function* streamed(blocks: readonly SoundBlock[]): AsyncGenerator<SoundBlock> {
  yield* blocks;
}

function nothing(): HeardBeside {
  const heard = { onsets: [], noiseMs: 0, seconds: 0 };
  return { heard, pitches: [], undecidable: [], place: undefined, bleedDb: undefined };
}
