import { requireWhole } from "./variableLength.js";

/** A note that starts or ends on a channel (0 to 15); `key` is the MIDI note number, 0 to 127. */
export type NoteEvent =
  | { readonly kind: "noteOn"; readonly channel: number; readonly key: number; readonly velocity: number }
  | { readonly kind: "noteOff"; readonly channel: number; readonly key: number };

const NOTE_OFF = 0x80;
const NOTE_ON = 0x90;
const CONTROL_CHANGE = 0xb0;
const PROGRAM_CHANGE = 0xc0;
const CHANNEL_PRESSURE = 0xd0;
const PITCH_BEND = 0xe0;

/** Data bytes that follow a status byte below F0 (MIDI 1.0). */
export function dataBytes(status: number): 1 | 2 {
  const message = status & 0xf0;
  return message === PROGRAM_CHANGE || message === CHANNEL_PRESSURE ? 1 : 2;
}

/** Reads a note on or note off; `undefined` for other messages. A note on of velocity 0 ends the note (MIDI 1.0). */
export function readNote(status: number, key: number, velocity: number): NoteEvent | undefined {
  const [message, channel] = [status & 0xf0, status & 0x0f];
  if (message === NOTE_ON && velocity > 0) return { kind: "noteOn", channel, key, velocity };
  return message === NOTE_ON || message === NOTE_OFF ? { kind: "noteOff", channel, key } : undefined;
}

/** Bytes of a program change: `program` from 1 to 128, as the General MIDI sound set counts. */
export function programChange(channel: number, program: number): readonly number[] {
  return [PROGRAM_CHANGE | requireWhole(channel, 0, 15), requireWhole(program, 1, 128) - 1];
}

/** Bytes of a note on: channel 0 to 15, key 0 to 127, velocity 1 to 127. */
export function noteOn(channel: number, key: number, velocity: number): readonly number[] {
  return [NOTE_ON | requireWhole(channel, 0, 15), requireWhole(key, 0, 127), requireWhole(velocity, 1, 127)];
}

/** Bytes of a note off, with the velocity 64 that stands for none (MIDI 1.0). */
export function noteOff(channel: number, key: number): readonly number[] {
  return [NOTE_OFF | requireWhole(channel, 0, 15), requireWhole(key, 0, 127), 64];
}

/** Bytes of a pitch bend: -8192 to 8191, of two semitones either way unless a channel is set otherwise (General MIDI level 1); 0 is none. */
export function pitchBend(channel: number, bend: number): readonly number[] {
  const value = requireWhole(bend + 8192, 0, 16383);
  return [PITCH_BEND | requireWhole(channel, 0, 15), value & 127, value >> 7];
}

/** Registered parameters (MIDI 1.0, table of registered parameter numbers; from memory): of tuning, and the one that stands for none. */
const FINE_TUNING = [0, 1] as const;
const COARSE_TUNING = [0, 2] as const;
const NO_PARAMETER = [127, 127] as const;
/** The value of a fine tuning in the middle; as far from it to either end is a semitone (MIDI 1.0). */
const MIDDLE = 8192;

/** Messages that tune a channel so many cents higher (negative: lower), up to 64 semitones either way: coarse and fine tuning. */
export function channelTuning(channel: number, cents: number): readonly (readonly number[])[] {
  const semitones = Math.round(cents / 100);
  const fine = Math.min(2 * MIDDLE - 1, Math.round(MIDDLE + (MIDDLE * (cents - 100 * semitones)) / 100));
  const control = (controller: number, value: number): readonly number[] => [
    CONTROL_CHANGE | requireWhole(channel, 0, 15),
    controller,
    requireWhole(value, 0, 127),
  ];
  const parameter = ([high, low]: readonly [number, number]): readonly (readonly number[])[] => [
    control(101, high),
    control(100, low),
  ];
  return [
    ...parameter(COARSE_TUNING),
    control(6, 64 + semitones),
    ...parameter(FINE_TUNING),
    control(6, fine >> 7),
    control(38, fine & 127),
    ...parameter(NO_PARAMETER),
  ];
}
