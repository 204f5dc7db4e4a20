/** An event of a track: its message as it stands in the file, and when. */
export interface TimedMessage {
  readonly ticks: number;
  readonly bytes: readonly number[];
}

/** A text of a meta event is written in UTF-8, as most programs read it; Standard MIDI Files 1.0 promises plain ASCII only. */
export function trackName(text: string): readonly number[] {
  return meta(0x03, utf8(text));
}

export function marker(text: string): readonly number[] {
  return meta(0x06, utf8(text));
}

/** Microseconds to a quarter note, 1 to 2^24 - 1. */
export function setTempo(microseconds: number): readonly number[] {
  const whole = within(microseconds, 1, SLOWEST_TEMPO);
  return meta(0x51, [whole >> 16, (whole >> 8) & 255, whole & 255]);
}

/** The most microseconds to a quarter note that a tempo event holds. */
export const SLOWEST_TEMPO: number = 2 ** 24 - 1;

/** `denominator` is a note value (4, 8); `clocks` MIDI clocks, of which 24 make a quarter note, lie between clicks of a metronome. */
export function timeSignature(numerator: number, denominator: number, clocks: number): readonly number[] {
  const power = Math.log2(within(denominator, 1, 128));
  return meta(0x58, [within(numerator, 1, 255), within(power, 0, 7), within(clocks, 1, 255), THIRTY_SECONDS]);
}

/** Thirty-second notes to 24 MIDI clocks: a quarter note has eight, as nearly everywhere. */
const THIRTY_SECONDS = 8;

/** `fifths` sharps (negative: flats), -7 to 7. */
export function keySignature(fifths: number, mode: "major" | "minor"): readonly number[] {
  return meta(0x59, [within(fifths, -7, 7) & 255, mode === "minor" ? 1 : 0]);
}

/** `program` from 1 to 128, as the General MIDI sound set counts. */
export function programChange(channel: number, program: number): readonly number[] {
  return [0xc0 | within(channel, 0, 15), within(program, 1, 128) - 1];
}

export function noteOn(channel: number, key: number, velocity: number): readonly number[] {
  return [0x90 | within(channel, 0, 15), within(key, 0, 127), within(velocity, 1, 127)];
}

/** Note off with the velocity 64 that stands for none (MIDI 1.0). */
export function noteOff(channel: number, key: number): readonly number[] {
  return [0x80 | within(channel, 0, 15), within(key, 0, 127), 64];
}

/** A variable-length number: seven bits to a byte, all but the last with the top bit set; 0 to 2^28 - 1 (Standard MIDI Files 1.0). */
export function variableLength(value: number): readonly number[] {
  let rest = within(value, 0, 2 ** 28 - 1);
  const bytes = [rest & 127];
  while (rest > 127) {
    rest >>>= 7;
    bytes.unshift((rest & 127) | 128);
  }
  return bytes;
}

function meta(kind: number, content: readonly number[]): readonly number[] {
  return [0xff, kind, ...variableLength(content.length), ...content];
}

function utf8(text: string): readonly number[] {
  return [...new TextEncoder().encode(text)];
}

function within(value: number, least: number, most: number): number {
  if (Number.isInteger(value) && value >= least && value <= most) return value;
  throw new RangeError(`a MIDI file holds a whole number from ${least} to ${most} here, got ${value}`);
}
