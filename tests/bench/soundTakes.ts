/** Takes whose truth is known, played by the instruments of a sound bank. */
import { readFileSync } from "node:fs";
import { type BasicSoundBank, SoundBankLoader, SpessaLog, SpessaSynthProcessor } from "spessasynth_core";
import { type Random, random } from "../../lib/base/index.js";
import type { InstrumentFamily } from "../../lib/listen/families.js";
import { midiNumber, parsePitch } from "../../lib/pattern/index.js";
import { PLAYERS, type PlayedTake, playTake } from "../../lib/rehearsal/player.js";
import type { Score } from "../../lib/schema/index.js";

export interface BenchInstrument {
  readonly name: string;
  readonly family: InstrumentFamily;
  /** General MIDI program, 1 to 128; left out for the drum kit. */
  readonly program?: number;
  /** Keys it plays: a range of D dorian, or the one drum. */
  readonly keys: readonly [number, number];
  /** Whether it plays every key between; only those of D dorian when left out. */
  readonly every?: boolean;
}

export const BENCH_INSTRUMENTS: readonly BenchInstrument[] = [
  { name: "snare", family: "percussive", keys: [38, 38] },
  { name: "hand claps", family: "percussive", keys: [39, 39] },
  { name: "piano", family: "plucked", program: 1, keys: [55, 79] },
  { name: "guitar", family: "plucked", program: 26, keys: [45, 69] },
  { name: "bass", family: "plucked", program: 34, keys: [28, 48] },
  { name: "clarinet", family: "blown", program: 72, keys: [52, 76] },
  { name: "trumpet", family: "blown", program: 57, keys: [55, 77] },
  { name: "alto sax", family: "blown", program: 66, keys: [50, 74] },
];

/** Bowed strings: measured as well, apart, because they are the family that is heard worst. */
export const BENCH_STRINGS: readonly BenchInstrument[] = [
  { name: "violin", family: "bowed", program: 41, keys: [57, 81] },
  { name: "cello", family: "bowed", program: 43, keys: [40, 64] },
];

export interface Strike {
  /** When the note is to sound. */
  readonly sample: number;
  /** Samples by which the bank has to be told before. */
  readonly lead: number;
  readonly end: number;
  readonly key: number;
  readonly velocity: number;
}

export interface SoundedTake {
  readonly played: PlayedTake;
  /** Seconds from the first sample to the downbeat of bar 1. */
  readonly zero: number;
  /** When notes sound, seconds from the first sample: whole samples. */
  readonly truth: readonly number[];
  /** When the synthesiser was told to begin them: earlier by the bank's lead-in. */
  readonly driven: readonly number[];
  readonly samples: Float32Array;
}

export const RATE = 44100;
const LEAD_IN = 1;
const TAIL = 1;
/** One player of one instrument cannot begin two notes nearer than this; our choice. */
const NEAREST = 0.07;
const BLOCK = 128;

/** A bank that can be played at once. */
export async function bankAt(file: string): Promise<BasicSoundBank> {
  SpessaLog.setLogLevel(false, false, false);
  const bank = SoundBankLoader.fromArrayBuffer(new Uint8Array(readFileSync(file)).buffer);
  // Compressed banks need their decoder, which starts up with the first processor.
  await new SpessaSynthProcessor(RATE, { effectsEnabled: false, eventsEnabled: false }).processorInitialized;
  return bank;
}

/** A take of `score` by a player of the grade, without added notes too near another to be played, as strikes and as sound. */
export function soundTake(
  bank: BasicSoundBank,
  instrument: BenchInstrument,
  { score, grade, seed }: { score: Score; grade: keyof typeof PLAYERS; seed: string },
): SoundedTake {
  const played = playable(playTake(score, PLAYERS[grade], seed));
  const chance = random(`${seed}/notes`);
  const keys = keysOf(instrument);
  let place = keys.length >> 1;
  // A melody by steps and small leaps.
  const keyAt = (): number => {
    place = Math.min(keys.length - 1, Math.max(0, place + chance.below(7) - 3));
    return keys[place]!;
  };
  return struckTake(bank, instrument, { score, played, chance, keyAt, pitched: false });
}

/** A take of a riff with pitches: each note of the riff at its own pitch, added ones at that of a neighbour. Otherwise as `soundTake`. */
export function riffTake(
  bank: BasicSoundBank,
  program: number,
  { score, grade, seed }: { score: Score; grade: keyof typeof PLAYERS; seed: string },
): SoundedTake {
  const keys = score.expected.map(({ pitch }) => keyOf(pitch!));
  const instrument: BenchInstrument = {
    name: `program ${program}`,
    family: "blown",
    program,
    keys: [Math.min(...keys), Math.max(...keys)],
    every: true,
  };
  const played = playable(playTake(score, PLAYERS[grade], seed));
  const notes = new Map(played.truth.pairs.map(([note, onset]) => [onset, note]));
  let last = keys[0]!;
  const keyAt = (onset: number): number => {
    const note = notes.get(onset);
    if (note !== undefined) last = keys[note]!;
    return last;
  };
  return struckTake(bank, instrument, { score, played, chance: random(`${seed}/notes`), keyAt, pitched: true });
}

/** The take of a player as strikes of these keys, with their pitches or without, and as sound. */
function struckTake(
  bank: BasicSoundBank,
  instrument: BenchInstrument,
  {
    score,
    played,
    chance,
    keyAt,
    pitched,
  }: { score: Score; played: PlayedTake; chance: Random; keyAt: (onset: number) => number; pitched: boolean },
): SoundedTake {
  const at = played.take.onsets.map((onset) => (onset as { at: number }).at);
  const zero = LEAD_IN + score.countIn;
  const leads = leadIns(bank, instrument);
  const strikes = strikesOf(at, { zero, beat: score.beat, leads, chance, keyAt });
  const samples = sounded(bank, instrument, { strikes, length: Math.ceil((zero + score.duration + TAIL) * RATE) });
  // The take is what was struck: on whole samples.
  const onsets = strikes.map(({ sample, key }) => ({ at: sample / RATE - zero, ...(pitched && { pitch: key }) }));
  return {
    played: { ...played, take: { ...played.take, onsets } },
    zero,
    truth: strikes.map(({ sample }) => sample / RATE),
    driven: strikes.map(({ sample, lead }) => (sample - lead) / RATE),
    samples,
  };
}

function keyOf(pitch: string): number {
  const parsed = parsePitch(pitch);
  if (!parsed.ok) throw new Error(`no pitch: ${pitch}`);
  return midiNumber(parsed.value);
}

function playable({ take, truth }: PlayedTake): PlayedTake {
  const owners = new Map(truth.pairs.map(([note, onset]) => [onset, note]));
  const kept: { at: number; note: number | undefined }[] = [];
  for (const [index, onset] of take.onsets.entries()) {
    const next = { at: (onset as { at: number }).at, note: owners.get(index) };
    const last = kept.at(-1);
    if (last !== undefined && next.at - last.at < NEAREST) {
      if (last.note === undefined && next.note !== undefined) kept[kept.length - 1] = next;
      continue;
    }
    kept.push(next);
  }
  const pairs = kept.flatMap(({ note }, index) => (note === undefined ? [] : [[note, index] as const]));
  return {
    take: { ...take, onsets: kept.map(({ at }) => ({ at })) },
    truth: { ...truth, pairs: pairs.sort((a, b) => a[0] - b[0]) },
  };
}

const DORIAN = new Set([2, 4, 5, 7, 9, 11, 0]);

function keysOf({ keys: [low, high], every = false }: BenchInstrument): readonly number[] {
  return Array.from({ length: high - low + 1 }, (_, i) => low + i).filter(
    (key) => every || low === high || DORIAN.has(key % 12),
  );
}

/**
 * A recorded sample may begin before its note is heard: with a finger on the string, with breath, with silence. The perceptual onset of a
 * tone is where its envelope passes a level 6 to 15 dB below its maximum (Vos & Rasch 1981, Perception & Psychophysics 29, 323-335, from
 * memory); 20 dB below, our choice, is the start of the note rather than of the impression.
 */
const SOUNDS_AT = 0.1;
const LOOKED_AT = 0.3;

/** Samples from the beginning of a key's sound to where it first reaches a tenth of its peak: what a player makes up for by ear. */
export function leadIns(bank: BasicSoundBank, instrument: BenchInstrument): ReadonlyMap<number, number> {
  const length = Math.round(LOOKED_AT * RATE);
  return new Map(
    keysOf(instrument).map((key) => {
      const strike = { sample: 0, lead: 0, end: length, key, velocity: 90 };
      const sound = sounded(bank, instrument, { strikes: [strike], length });
      const peak = sound.reduce((most, sample) => Math.max(most, Math.abs(sample)), 0);
      return [key, sound.findIndex((sample) => Math.abs(sample) >= SOUNDS_AT * peak)];
    }),
  );
}

/** Notes of changing length and strength. */
function strikesOf(
  at: readonly number[],
  {
    zero,
    beat,
    leads,
    chance,
    keyAt,
  }: {
    zero: number;
    beat: number;
    leads: ReadonlyMap<number, number>;
    chance: Random;
    keyAt: (onset: number) => number;
  },
): readonly Strike[] {
  return at.map((seconds, index) => {
    const next = at[index + 1] ?? seconds + beat;
    const key = keyAt(index);
    // Tongued or plucked short, ordinary, and up to the next note.
    const share = [0.5, 0.85, 1][chance.below(3)]!;
    const length = Math.min(share * (next - seconds), 2 * beat);
    const sample = Math.round((zero + seconds) * RATE);
    const lead = leads.get(key) ?? 0;
    return { sample, lead, end: sample + Math.round(length * RATE), key, velocity: 56 + chance.below(64) };
  });
}

/** The strikes as one channel, each note on its own sample. */
export function sounded(
  bank: BasicSoundBank,
  instrument: BenchInstrument,
  { strikes, length }: { strikes: readonly Strike[]; length: number },
): Float32Array {
  const synth = new SpessaSynthProcessor(RATE, {
    effectsEnabled: false,
    eventsEnabled: false,
    maxBufferSize: BLOCK,
  });
  synth.soundBankManager.addSoundBank(bank, "bank");
  const channel = instrument.program === undefined ? 9 : 0;
  if (instrument.program !== undefined) synth.programChange(channel, instrument.program - 1);
  const events = strikes
    .flatMap(({ sample, lead, end, key, velocity }) => [
      { at: end - lead, order: 0, does: () => synth.noteOff(channel, key) },
      { at: sample - lead, order: 1, does: () => synth.noteOn(channel, key, velocity) },
    ])
    .sort((a, b) => a.at - b.at || a.order - b.order);
  const [left, right] = [new Float32Array(length), new Float32Array(length)];
  let now = 0;
  const soundUntil = (end: number): void => {
    while (now < end) {
      const count = Math.min(BLOCK, end - now);
      synth.process(left, right, now, count);
      now += count;
    }
  };
  for (const event of events) {
    soundUntil(Math.min(event.at, length));
    event.does();
  }
  soundUntil(length);
  let peak = 0;
  for (let i = 0; i < length; i++) {
    left[i] = left[i]! + right[i]!;
    peak = Math.max(peak, Math.abs(left[i]!));
  }
  for (let i = 0; i < length; i++) left[i] = (0.5 * left[i]!) / Math.max(peak, 1e-9);
  return left;
}

const KIT: BenchInstrument = { name: "kit", family: "percussive", keys: [36, 36] };
const CHORDS: BenchInstrument = { name: "piano", family: "plucked", program: 1, keys: [50, 62] };

/** What is played to: a kit and chords on the beats that sound, as the loudspeaker gets it. */
export function backingOf(
  bank: BasicSoundBank,
  score: Score,
  { zero, length }: { zero: number; length: number },
): Float32Array {
  const drums: Strike[] = [];
  const chords: Strike[] = [];
  const strike = (seconds: number, lasts: number, key: number): Strike => {
    const sample = Math.round((zero + seconds) * RATE);
    return { sample, lead: 0, end: sample + Math.round(lasts * RATE), key, velocity: 90 };
  };
  for (const { from, to } of score.audible) {
    for (let n = Math.ceil(from / score.beat - 1e-6); n * score.beat < to - 1e-6; n++) {
      const at = n * score.beat;
      drums.push(strike(at, 0.1, n % 2 === 0 ? 36 : 38), strike(at, 0.1, 42), strike(at + score.beat / 2, 0.1, 42));
      if (n % 2 === 0)
        for (const key of [50, 57, 62]) chords.push(strike(at, Math.min(1.8 * score.beat, to - at), key));
    }
  }
  const inOrder = (strikes: Strike[]): Strike[] => strikes.filter(({ sample }) => sample >= 0);
  const kit = sounded(bank, KIT, { strikes: inOrder(drums), length });
  const piano = sounded(bank, CHORDS, { strikes: inOrder(chords), length });
  return kit.map((sample, i) => 0.5 * (sample + piano[i]!));
}
