import { describe, expect, test } from "vitest";
import { fraction, problemsIn } from "../../../lib/base/index.js";
import { readMidiFile } from "../../../lib/formats/index.js";
import { must } from "../../time/shorthand.js";
import { worded } from "../../words/worded.js";
import { ascii, chunk, END, file, header, meta, name, off, on, quantity, tempo, uint32 } from "./midiBytes.js";

const bytes = (...parts: readonly (readonly number[])[]): Uint8Array => Uint8Array.from(parts.flat());
const codes = (data: Uint8Array): string[] => worded(readMidiFile(data)).map((p) => `${p.code}@${p.where.offset}`);

describe("readMidiFile() reads", () => {
  test("notes with exact positions and seconds, at 120 to the minute where no tempo is given", () => {
    const { tracks } = must(readMidiFile(file([...name("lead"), ...on(480, 62, 80), ...off(240, 62)])));
    expect(tracks).toHaveLength(1);
    expect(tracks[0]).toMatchObject({ index: 0, name: "lead", endTicks: 720 });
    expect(tracks[0]!.notes).toEqual([
      {
        ...{ track: 0, channel: 0, key: 62, velocity: 80, ticks: 480, endTicks: 720, seconds: 0.5, endSeconds: 0.75 },
        ...{ position: fraction(1, 4), length: fraction(1, 8) },
      },
    ]);
  });

  test("tempo changes of one track in all tracks of format 1", () => {
    const data = file([...tempo(0, 500_000), ...tempo(480, 1_000_000)], [...on(960, 60), ...off(480, 60)]);
    const [, second] = must(readMidiFile(data)).tracks;
    expect(second!.notes[0]).toMatchObject({ seconds: 1.5, endSeconds: 2.5 });
  });

  test("each track of format 2 with its own tempo", () => {
    const track = (microseconds: number) =>
      chunk("MTrk", [...tempo(0, microseconds), ...on(480, 60), ...off(0, 60), ...END]);
    const { tracks } = must(readMidiFile(bytes(header(2, 2, 480), track(250_000), track(1_000_000))));
    expect(tracks.map((t) => t.notes[0]!.seconds)).toEqual([0.25, 1]);
  });

  test("meters and keys", () => {
    const data = file([...meta(0, 0x58, 7, 3, 24, 8), ...meta(0, 0x59, 0xfe, 1), ...meta(100, 0x58, 0, 2, 24, 8)]);
    const result = readMidiFile(data);
    expect(must(result).tracks[0]).toMatchObject({
      meters: [{ ticks: 0, meter: { groups: [2, 2, 3], lower: 8 } }],
      keys: [{ ticks: 0, fifths: -2, minor: true }],
    });
    expect(problemsIn(result).map((p) => p.code)).toEqual(["MIDI_METER_NOT_READ"]);
  });

  test("running status, and a note-on of velocity 0 as the end of a note", () => {
    const { tracks } = must(
      readMidiFile(file([...on(0, 60), ...[...quantity(240), 60, 0], ...[0, 62, 50], ...[...quantity(240), 62, 0]])),
    );
    expect(tracks[0]!.notes.map((n) => [n.key, n.ticks, n.endTicks])).toEqual([
      [60, 0, 240],
      [62, 240, 480],
    ]);
  });

  test("the same key struck twice before it ends, first in first out", () => {
    const { tracks } = must(readMidiFile(file([...on(0, 60), ...on(10, 60), ...off(10, 60), ...off(10, 60)])));
    expect(tracks[0]!.notes.map((n) => [n.ticks, n.endTicks])).toEqual([
      [0, 20],
      [10, 30],
    ]);
  });

  test("time codes: 40 ticks to a frame at 25, and 29.97 as 30000/1001", () => {
    const body = chunk("MTrk", [...on(1000, 60), ...off(0, 60), ...END]);
    const at = (division: number) => must(readMidiFile(bytes(header(0, 1, division), body))).tracks[0]!.notes[0]!;
    expect(at(0xe728).seconds).toBe(1);
    expect(at(0xe728).position).toBeUndefined();
    // 1000 ticks at 100 to a frame are 10 frames of 1001/30000 s.
    expect(at(0xe364).seconds).toBeCloseTo((10 * 1001) / 30_000, 12);
  });

  test("past chunks of other kinds, a longer header, system exclusive messages and a RIFF container", () => {
    const body = chunk("MTrk", [0, 0xf0, 3, 1, 2, 0xf7, 0, 0xf7, 1, 0xf8, ...on(0, 60), ...off(9, 60), ...END]);
    const plain = [...chunk("MThd", [0, 0, 0, 1, 1, 0xe0, 9, 9]), ...chunk("XFIH", [1, 2, 3]), ...body];
    expect(must(readMidiFile(bytes(plain))).tracks[0]!.notes).toHaveLength(1);
    expect(codes(bytes(plain))).toEqual([]);
    const riff = [
      ...ascii("RIFF"),
      0,
      0,
      0,
      0,
      ...ascii("RMID"),
      ...ascii("data"),
      ...uint32(plain.length).reverse(),
      ...plain,
    ];
    expect(must(readMidiFile(bytes(riff))).tracks[0]!.notes).toHaveLength(1);
  });

  test("names in UTF-8 and in Latin-1", () => {
    const named = (...body: number[]) => must(readMidiFile(file(meta(0, 0x03, ...body)))).tracks[0]!.name;
    expect(named(0xc3, 0xa9)).toBe("é");
    expect(named(0xe9)).toBe("é");
  });

  test("a file without notes", () => expect(must(readMidiFile(file([]))).tracks[0]!.notes).toEqual([]));
});

describe("readMidiFile() names what is wrong, with the byte", () => {
  const body = (...events: number[]) => bytes(header(0, 1, 480), chunk("MTrk", events));
  test.each([
    ["an empty file", bytes(), ["MIDI_HEADER_MISSING@0"]],
    ["another file", bytes(ascii("%PDF-1.7")), ["MIDI_HEADER_MISSING@0"]],
    ["a header of 4 bytes", bytes(chunk("MThd", [0, 0, 0, 1])), ["MIDI_HEADER_TOO_SHORT@4"]],
    ["a header cut short", bytes(header(0, 1, 480).slice(0, 12)), ["MIDI_HEADER_TOO_SHORT@4"]],
    ["format 3", bytes(header(3, 1, 480), chunk("MTrk", END)), ["MIDI_FORMAT_UNKNOWN@8"]],
    ["division 0", bytes(header(0, 1, 0), chunk("MTrk", END)), ["MIDI_DIVISION_ZERO@12"]],
    ["frames of 0 ticks", bytes(header(0, 1, 0xe700), chunk("MTrk", END)), ["MIDI_DIVISION_ZERO@12"]],
    ["16 frames to a second", bytes(header(0, 1, 0xf028), chunk("MTrk", END)), ["MIDI_FRAME_RATE_UNKNOWN@12"]],
    ["no track", bytes(header(0, 1, 480)), ["MIDI_TRACK_MISSING@10"]],
    ["a track missing", bytes(header(1, 3, 480), chunk("MTrk", END)), ["MIDI_TRACK_MISSING@10"]],
    [
      "a track more",
      bytes(header(0, 1, 480), chunk("MTrk", END), chunk("MTrk", END)),
      ["MIDI_TRACKS_MORE_THAN_STATED@10"],
    ],
    [
      "a track longer than the file",
      bytes(header(0, 1, 480), ascii("MTrk"), uint32(99), END),
      ["MIDI_CHUNK_TRUNCATED@18"],
    ],
    [
      "garbage between chunks",
      bytes(header(0, 2, 480), chunk("MTrk", END), [1, 2, 3, 4, 0, 0, 0, 0]),
      ["MIDI_CHUNK_NOT_READ@26"],
    ],
    ["bytes at the end", bytes(header(0, 1, 480), chunk("MTrk", END), [0, 0]), ["MIDI_TRAILING_BYTES@26"]],
    ["an event cut short", body(0, 0x90, 60), ["MIDI_EVENT_TRUNCATED@24"]],
    ["a time without event", body(0), ["MIDI_EVENT_TRUNCATED@22"]],
    ["a number cut short", body(0x81), ["MIDI_EVENT_TRUNCATED@22"]],
    ["a number of five bytes", body(0x81, 0x81, 0x81, 0x81, 0, 0x90, 60, 64), ["MIDI_NUMBER_TOO_LONG@22"]],
    ["a meta event longer than its track", body(0, 0xff, 1, 9, 65), ["MIDI_EVENT_TRUNCATED@23"]],
    ["data above 127", body(0, 0x90, 200, 64, ...END), ["MIDI_DATA_ILLEGAL@24"]],
    ["data without status", body(0, 60, 64, ...END), ["MIDI_STATUS_MISSING@23"]],
    ["a clock message", body(0, 0xf8, ...END), ["MIDI_STATUS_ILLEGAL@23"]],
    ["a tempo of two bytes", body(0, 0xff, 0x51, 2, 1, 1, ...END), ["MIDI_META_LENGTH_WRONG@23"]],
    ["a tempo of 0", body(0, 0xff, 0x51, 3, 0, 0, 0, ...END), ["MIDI_TEMPO_ZERO@23"]],
    ["no end of track", body(0, 0xc0, 1), ["MIDI_END_MISSING@25"]],
    ["events after the end", body(...END, 0, 0x90, 60, 64), ["MIDI_DATA_AFTER_END@26"]],
    ["a note without end", body(0, 0x90, 60, 64, ...END), ["MIDI_NOTE_NOT_ENDED@undefined"]],
    [
      "running status after a meta event",
      body(0, 0x90, 60, 64, 0, 0xff, 1, 0, 0, 60, 0, ...END),
      ["MIDI_RUNNING_STATUS_KEPT@31"],
    ],
  ])("%s", (_, data, expected) => expect(codes(data)).toEqual(expected));

  test("too many bytes, events and ticks, and texts too long", () => {
    expect(codes(new Uint8Array(5 * 2 ** 20))[0]).toContain("MIDI_TOO_LARGE");
    const many = new Array<number>(2 * 450_000).fill(0).map((_, i) => (i % 2 === 0 ? 0 : 1));
    expect(codes(body(...[0, 0xc0, 1], ...many.slice(0, 100)))).toEqual(["MIDI_END_MISSING@125"]);
    expect(codes(bytesOf(header(0, 1, 480), [0, 0xc0, 1], many))[0]).toContain("MIDI_TOO_LARGE");
    const tracks = new Array<number>(65_536).fill(0).flatMap(() => chunk("MTrk", []));
    expect(codes(bytes(header(1, 65_535, 480), tracks))[0]).toContain("MIDI_TOO_LARGE");
    const late = [0xff, 0xff, 0xff, 0x7f, 0xc0, 1];
    expect(codes(body(...Array.from({ length: 20 }, () => late).flat(), ...END))[0]).toContain("MIDI_TOO_LONG");
    expect(codes(body(...meta(0, 1, ...new Array<number>(40_000).fill(65)), ...END))[0]).toContain(
      "MIDI_TEXT_TOO_LONG",
    );
  });
});

/** One track around a long body, without spreading it into arguments. */
function bytesOf(head: readonly number[], first: readonly number[], rest: readonly number[]): Uint8Array {
  const track = [...ascii("MTrk"), ...uint32(first.length + rest.length)];
  const all = new Uint8Array(head.length + track.length + first.length + rest.length);
  all.set(head);
  all.set(track, head.length);
  all.set(first, head.length + track.length);
  all.set(rest, head.length + track.length + first.length);
  return all;
}
