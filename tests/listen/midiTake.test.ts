import { describe, expect, test } from "vitest";
import { problemsIn, type Result } from "../../lib/base/index.js";
import { readMidiTake } from "../../lib/listen/index.js";
import type { Take } from "../../lib/schema/index.js";

/** A Standard MIDI File (RP-001): header with format, division as two bytes, and tracks of event bytes. */
function midi(
  format: number,
  division: readonly [number, number],
  ...tracks: readonly (readonly number[])[]
): Uint8Array {
  const chunk = (id: string, body: readonly number[]): readonly number[] => [
    ...[...id].map((letter) => letter.charCodeAt(0)),
    0,
    0,
    body.length >> 8,
    body.length & 255,
    ...body,
  ];
  const end = [0, 0xff, 0x2f, 0];
  return Uint8Array.from([
    ...chunk("MThd", [0, format, 0, tracks.length, ...division]),
    ...tracks.flatMap((track) => chunk("MTrk", [...track, ...end])),
  ]);
}

/** Microseconds per quarter note, after `delta` ticks. */
const tempo = (delta: number, microseconds: number): readonly number[] => [
  delta,
  0xff,
  0x51,
  3,
  microseconds >> 16,
  (microseconds >> 8) & 255,
  microseconds & 255,
];
const on = (delta: number, key: number, velocity = 64, channel = 0): readonly number[] => [
  delta,
  0x90 + channel,
  key,
  velocity,
];
const off = (delta: number, key: number, channel = 0): readonly number[] => [delta, 0x80 + channel, key, 0];
const QUARTER_96: readonly [number, number] = [0, 96];

const onsets = (result: Result<Take>): Take["onsets"] | undefined => (result.ok ? result.value.onsets : undefined);
const codes = (result: Result<Take>): readonly string[] => problemsIn(result).map((problem) => problem.code);

describe("readMidiTake()", () => {
  test("gives onsets in seconds with pitch and velocity, 120 beats per minute where no tempo is stated", () => {
    const result = readMidiTake(
      midi(0, QUARTER_96, [...on(96, 62, 80), ...off(48, 62), ...on(48, 65, 90), ...off(10, 65)]),
    );
    expect(onsets(result)).toEqual([
      { at: 0.5, pitch: 62, velocity: 80 },
      { at: 1, pitch: 65, velocity: 90 },
    ]);
    expect(result).toMatchObject({ ok: true, value: { zero: "count-in" }, advice: [] });
  });

  test("follows the tempo map, also of another track", () => {
    const conductor = [...tempo(0, 500_000), ...tempo(96, 1_000_000)];
    const player = [...on(96, 60), ...off(48, 60), ...on(48, 60), ...off(1, 60)];
    expect(onsets(readMidiTake(midi(1, QUARTER_96, conductor, player)))).toMatchObject([{ at: 0.5 }, { at: 1.5 }]);
  });

  test("counts SMPTE frames: 25 frames of 40 ticks are a second (RP-001), whatever the tempo", () => {
    const track = [...tempo(0, 250_000), ...on(100, 60), ...off(10, 60)];
    expect(onsets(readMidiTake(midi(0, [0xe7, 40], track)))).toMatchObject([{ at: 0.1 }]);
    // 29 stands for 30000/1001 frames a second.
    expect(onsets(readMidiTake(midi(0, [0xe3, 100], [...on(100, 60), ...off(1, 60)])))).toMatchObject([
      { at: 1001 / 30_000 },
    ]);
  });

  test("reads running status, and a note ended by velocity 0", () => {
    const track = [...on(0, 60), 48, 60, 0, 48, 62, 70, 48, 62, 0];
    expect(onsets(readMidiTake(midi(0, QUARTER_96, track)))).toEqual([
      { at: 0, pitch: 60, velocity: 64 },
      { at: 0.5, pitch: 62, velocity: 70 },
    ]);
  });

  test("leaves the pitch out on the percussion channel, where keys are drums", () => {
    expect(onsets(readMidiTake(midi(0, QUARTER_96, [...on(0, 38, 100, 9), ...off(1, 38, 9)])))).toEqual([
      { at: 0, velocity: 100 },
    ]);
  });

  test("reads one track or one channel when asked", () => {
    const file = midi(
      1,
      QUARTER_96,
      [...on(0, 60, 1, 0), ...off(1, 60, 0)],
      [...on(0, 62, 2, 3), ...off(1, 62, 3), ...on(0, 64, 3, 4), ...off(1, 64, 4)],
    );
    const pitches = (options: object): unknown =>
      onsets(readMidiTake(file, options))?.map((onset) => typeof onset === "object" && onset.pitch);
    expect(pitches({})).toEqual([60, 62, 64]);
    expect(codes(readMidiTake(file))).toEqual(["TAKE_SEVERAL_TRACKS"]);
    expect(pitches({ track: 2 })).toEqual([62, 64]);
    expect(pitches({ channel: 5 })).toEqual([64]);
    expect(pitches({ track: 1, channel: 5 })).toEqual([]);
    expect(codes(readMidiTake(file, { track: 1, channel: 5 }))).toEqual(["TAKE_WITHOUT_NOTES"]);
    expect(codes(readMidiTake(file, { track: 3 }))).toEqual(["TAKE_TRACK_MISSING"]);
  });

  test("asks which sequence of format 2 is meant when several have notes", () => {
    const first = [...on(0, 60), ...off(1, 60)];
    const file = midi(2, QUARTER_96, first, [...tempo(0, 1_000_000), ...on(96, 62), ...off(1, 62)]);
    expect(codes(readMidiTake(file))).toEqual(["TAKE_TRACK_UNCLEAR"]);
    expect(onsets(readMidiTake(file, { track: 2 }))).toMatchObject([{ at: 1, pitch: 62 }]);
    expect(onsets(readMidiTake(midi(2, QUARTER_96, [], first)))).toMatchObject([{ at: 0 }]);
  });

  test("refuses a note later than a take may last", () => {
    // A quarter of 16.7 s and 2^21 ticks of which 96 make a quarter: more than four days.
    const late = [...tempo(0, 0xffffff), 0x81, 0x80, 0x80, 0x00, 0x90, 60, 64, ...off(1, 60)];
    expect(codes(readMidiTake(midi(0, QUARTER_96, late)))).toEqual(["TAKE_TOO_LONG"]);
  });

  test("hands on what is wrong with the file", () => {
    expect(codes(readMidiTake(new Uint8Array()))).toEqual(["MIDI_HEADER_MISSING"]);
    expect(codes(readMidiTake(midi(0, QUARTER_96, on(0, 60)).subarray(0, -6)))).toEqual(["MIDI_CHUNK_TRUNCATED"]);
  });

  test.each([{ track: 0 }, { track: 1.5 }, { channel: 0 }, { channel: 17 }, { channel: Number.NaN }])(
    "throws for %j",
    (options) => {
      expect(() => readMidiTake(new Uint8Array(), options)).toThrow(RangeError);
    },
  );
});
