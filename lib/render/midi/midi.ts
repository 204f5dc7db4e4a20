import { compare, type Fraction, fractionText, resultOf, subtract } from "../../base/index.js";
import {
  channelTuning,
  noteOff,
  noteOn,
  programChange,
  SLOWEST_TEMPO,
  type TimedMessage,
  type TrackMessages,
  trackName,
  writeMidi,
} from "../../formats/midi/index.js";
import { centsAboveUsual, LEVEL_ONE_KEYS, PERCUSSION } from "../../pattern/index.js";
import type { Score, ScoreNote, ScorePart } from "../../schema/index.js";
import { clicksOf } from "../clicks.js";
import { renderProblem } from "../codes.js";
import { ENGLISH, type FileWords } from "../fileWords.js";
import type { Problem, Result } from "../problem.js";
import { programOf } from "../programs.js";
import { sayProblem } from "../say.js";
import { beatUnitOf, exactly, lengthOf } from "../scoreTime.js";
import { type TickMap, tickMap } from "../tickMap.js";
import { ACCENT_VELOCITY, PLAIN_VELOCITY } from "../velocity.js";
import { bendsOf } from "./bends.js";
import { conductorTrack, microsecondsPerQuarter } from "./conductor.js";
import { type KeyedNote, keyedNotes } from "./keyedNotes.js";

/** Channel 10 as musicians count: percussion (General MIDI level 1). */
const PERCUSSION_CHANNEL = 9;
/** High and low wood block, keys 76 and 77 of the General MIDI percussion map (MMA0007/RP003), for a click: the first of a bar, and the other beats. */
const CLICK_KEYS = { downbeat: 76, beat: 77 } as const;
/** A click lasts a quarter note divided by this, a 32nd note: our choice. Percussion sounds ignore the length, notation programs do not. */
const CLICK_SHARE = 8;

export interface MidiOptions {
  /** The language of names and markers in the file; English when left out. */
  readonly words?: FileWords | undefined;
}

/**
 * A score as a Standard MIDI File of format 1. The first track has the name, tempo, meters, key and markers, the second the clicks of the
 * count-in; then each part has a track. A part that is off has a track without notes, in which a student can record. A part has no notes in its silences.
 *
 * Tick 0 is the start of the count-in. The tempo is rounded to whole microseconds per quarter note, as the format states it.
 * Problems: MIDI_TEMPO_UNWRITABLE; PITCH_OUT_OF_RANGE and VOICE_WITHOUT_KEY with part and position.
 * @example midiOf(score).ok // true
 */
export function midiOf(score: Score, { words = ENGLISH }: MidiOptions = {}): Result<Uint8Array> {
  return fileOf(score, score.parts, words);
}

/**
 * The part expected of the student alone, with the count-in, in the format of `midiOf`. When the student's part plays in this mix, its notes are
 * written. When the mix leaves it out, the score has its onsets only; each then lasts until the next one, a beat at most.
 *
 * @example
 * studentMidiOf(score).ok // true
 */
export function studentMidiOf(score: Score, { words = ENGLISH }: MidiOptions = {}): Result<Uint8Array> {
  const own = score.parts.find((part) => part.student);
  const notes = studentNotes(score);
  return fileOf(score, [{ name: words.say("sound.student"), does: "plays", student: true, ...own, notes }], words);
}

function fileOf(score: Score, parts: readonly ScorePart[], words: FileWords): Result<Uint8Array> {
  const ticks = tickMap(score);
  const problems: Problem[] = [];
  const slowest = Math.max(...ticks.tempi.map(({ quarters }) => microsecondsPerQuarter(quarters)));
  if (slowest > SLOWEST_TEMPO) {
    const found = String(slowest);
    const message = sayProblem("render-problem.midi-tempo-unwritable", { most: String(SLOWEST_TEMPO), found });
    return { ok: false, problems: [renderProblem("MIDI_TEMPO_UNWRITABLE", message)] };
  }
  const tracks: TrackMessages[] = [conductorTrack(score, ticks, words), clickTrack(score, ticks, words)];
  let pitched = 0;
  for (const part of parts) {
    const { notes, problems: found } = keyedNotes(part, ticks);
    problems.push(...found);
    const endTicks = ticks.straight(lengthOf(score));
    // A part without notes has a track with its name only, and takes no channel.
    if (notes.length === 0) tracks.push({ messages: [{ ticks: 0, bytes: trackName(part.name) }], endTicks });
    else {
      const isPercussion = part.notes[0]!.voice !== undefined;
      const channel = isPercussion ? PERCUSSION_CHANNEL : channelAt(pitched++);
      tracks.push(
        trackOf(part.name, {
          channel,
          program: isPercussion ? 1 : programOf(part),
          tuning: isPercussion ? undefined : score.tuningHz,
          notes,
          endTicks,
        }),
      );
    }
  }
  if (problems.length > 0) return { ok: false, problems };
  return resultOf(writeMidi(ticks.perQuarter, tracks), parts.flatMap(withoutRecording));
}

/** Advice on a part whose recording is not in the file. */
function withoutRecording({ name, does, notes, recorded }: ScorePart): readonly Problem[] {
  if (recorded === undefined || does === "off") return [];
  const has = notes.length > 0 ? ("notes" as const) : ("nothing" as const);
  const message = sayProblem("render-problem.midi-without-recording", { part: name, has });
  return [renderProblem("MIDI_WITHOUT_RECORDING", message)];
}

function clickTrack(score: Score, ticks: TickMap, { say }: FileWords): TrackMessages {
  const length = Math.max(1, Math.floor(ticks.perQuarter / CLICK_SHARE));
  const counting = countingKey(score);
  const notes = clicksOf(score).map(({ position, isDownbeat }) => {
    const start = ticks.straight(position);
    const key = counting ?? (isDownbeat ? CLICK_KEYS.downbeat : CLICK_KEYS.beat);
    return { ticks: start, endTicks: start + length, key, velocity: isDownbeat ? ACCENT_VELOCITY : PLAIN_VELOCITY };
  });
  const endTicks = ticks.straight(lengthOf(score));
  return trackOf(say("sound.count-in"), { channel: PERCUSSION_CHANNEL, program: 1, notes, endTicks });
}

/** The key of the voice that counts in; `undefined` for a click. */
function countingKey({ countInVoice }: Score): number | undefined {
  const key = countInVoice === undefined || countInVoice === "click" ? undefined : PERCUSSION.get(countInVoice);
  return key === undefined ? undefined : (LEVEL_ONE_KEYS.get(key) ?? key);
}

interface Playing {
  readonly channel: number;
  readonly program: number;
  /** Hertz of A4; absent at the usual 440, and for percussion. */
  readonly tuning?: number | undefined;
  readonly notes: readonly KeyedNote[];
  readonly endTicks: number;
}

function trackOf(name: string, { channel, program, tuning, notes, endTicks }: Playing): TrackMessages {
  const messages: TimedMessage[] = [
    { ticks: 0, bytes: trackName(name) },
    { ticks: 0, bytes: programChange(channel, program) },
    ...(tuning === undefined
      ? []
      : channelTuning(channel, centsAboveUsual(tuning)).map((bytes) => ({ ticks: 0, bytes }))),
    // Note-offs come before note-ons, so that a key struck again at the same tick goes on sounding.
    ...notes.map((note) => ({ ticks: note.endTicks, bytes: noteOff(channel, note.key) })),
    ...bendsOf(channel, notes),
    ...notes.map((note) => ({
      ticks: note.ticks,
      bytes: noteOn(channel, note.key, note.velocity),
    })),
  ];
  return { messages, endTicks };
}

/** The channel of a pitched part, 0 to 15 without percussion. With more than fifteen pitched parts, some share a channel. */
function channelAt(index: number): number {
  const channel = index % 15;
  return channel < PERCUSSION_CHANNEL ? channel : channel + 1;
}

/** The notes expected of the student: those of the student's part when it plays, else one for each expected onset. */
function studentNotes(score: Score): readonly ScoreNote[] {
  const own = score.parts.find((part) => part.student);
  if (own?.does === "plays") return own.notes;
  const beat = beatUnitOf(score);
  return score.expected.map((onset, i) => {
    const from = exactly(onset.position);
    const next = score.expected[i + 1];
    const room = subtract(next === undefined ? lengthOf(score) : exactly(next.position), from);
    const length = shorter(room, shorter(beat, beforeOpen(score, from) ?? beat));
    const { late } = onset;
    const endLate = compare(length, room) === 0 ? next?.late : undefined;
    return {
      position: onset.position,
      length: fractionText(length),
      at: onset.at,
      seconds: 0,
      ...(late && { late }),
      ...(endLate && { endLate }),
      ...(onset.pitch === undefined ? { voice: "snare" } : { pitch: onset.pitch }),
      ...(onset.accent ? { accent: true } : {}),
    };
  });
}

/** Time from a position to the next open bars, in whole notes; `undefined` when none follow. */
function beforeOpen(score: Score, from: Fraction): Fraction | undefined {
  for (const { bars } of score.open) {
    const bar = score.bars.find((each) => each.bar === bars[0]);
    if (bar && compare(exactly(bar.position), from) > 0) return subtract(exactly(bar.position), from);
  }
  return undefined;
}

function shorter(a: Fraction, b: Fraction): Fraction {
  return compare(a, b) <= 0 ? a : b;
}
