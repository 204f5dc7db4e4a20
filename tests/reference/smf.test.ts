import { existsSync, readdirSync, readFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { readMidiFile } from "../../lib/formats/index.js";
import { readVariableLength } from "../../lib/formats/midi/variableLength.js";
import { must } from "../time/shorthand.js";

const FOLDER = "../shared/reference/smf";
const present = existsSync(FOLDER);
if (!present) console.log(`skipped: the MIDI files of ${FOLDER} are not here`);

const hex = (text: string): Uint8Array =>
  Uint8Array.from(text.replaceAll(" ", "").match(/../g)!, (pair) => Number.parseInt(pair, 16));
const track = (events: string): string =>
  `4D54726B ${hex(`${events}00FF2F00`).length.toString(16).padStart(8, "0")} ${events} 00FF2F00`;
const HEADER = "4D546864 00000006 0000 0001 01E0";

describe("Standard MIDI Files 1.0 (RP-001)", () => {
  // The table of variable-length quantities (RP-001, from memory; every encoding computed again from its definition).
  test.each([
    [0x00, "00"],
    [0x40, "40"],
    [0x7f, "7F"],
    [0x80, "81 00"],
    [1000, "87 68"],
    [0x2000, "C0 00"],
    [0x3fff, "FF 7F"],
    [0x4000, "81 80 00"],
    [1_000_000, "BD 84 40"],
    [0x100000, "C0 80 00"],
    [0x1fffff, "FF FF 7F"],
    [0x200000, "81 80 80 00"],
    [0x8000000, "C0 80 80 00"],
    [0x0fffffff, "FF FF FF 7F"],
  ])("the quantity %d is %s", (value, written) => {
    const bytes = hex(written);
    expect(readVariableLength(bytes, 0, bytes.length)).toEqual({ value, next: bytes.length });
  });

  test("the header 4D546864 00000006 0000 0001 01E0 is format 0, one track, 480 ticks to a quarter", () => {
    const file = must(readMidiFile(hex(HEADER + track(""))));
    expect(file).toMatchObject({ format: 0, division: { kind: "quarter", ticks: 480 } });
    expect(file.tracks).toHaveLength(1);
  });

  test("without a tempo 480 ticks last half a second: 120 to the minute, 1041.667 microseconds a tick", () => {
    const { notes } = must(readMidiFile(hex(HEADER + track("00 90 3C 40 83 60 80 3C 40")))).tracks[0]!;
    expect(notes[0]!.endSeconds).toBe(0.5);
    expect(Math.abs((notes[0]!.endSeconds / 480) * 1e6 - 1041.667)).toBeLessThan(0.0005);
  });

  // 60 000 000 / beats per minute, in three bytes (computed).
  test.each([
    ["07 A1 20", 500_000],
    ["09 27 C0", 600_000],
    ["09 F3 8E", 652_174],
  ])("FF 51 03 %s is %d microseconds to a quarter", (written, microseconds) => {
    const { tempi } = must(readMidiFile(hex(HEADER + track(`00 FF 51 03 ${written}`)))).tracks[0]!;
    expect(tempi).toEqual([{ ticks: 0, seconds: 0, microsecondsPerQuarter: microseconds }]);
  });

  test("FF 58 04 04 02 18 08 is 4/4", () => {
    const { meters } = must(readMidiFile(hex(HEADER + track("00 FF 58 04 04 02 18 08")))).tracks[0]!;
    expect(meters[0]!.meter).toMatchObject({ groups: [4], lower: 4 });
  });
});

describe.skipIf(!present)("MIDI files of others, good, odd and broken", () => {
  const names = present
    ? (readdirSync(FOLDER, { recursive: true }) as string[]).filter((name) => /\.(mid|kar|syx)$/i.test(name))
    : [];
  const read = (name: string) => readMidiFile(new Uint8Array(readFileSync(`${FOLDER}/${name}`)));

  test("none throws: each is read or gives a problem that names its place", () => {
    expect(names.length).toBeGreaterThan(300);
    for (const name of names) {
      const result = read(name);
      if (!result.ok)
        expect(
          result.problems.some((p) => p.severity === "error" && p.where.offset !== undefined),
          name,
        ).toBe(true);
    }
  });

  // jazz-soft/test-midi-files and nfroidure/midifile name their files by what is wrong with them.
  test.each([
    ["jazzsoft/midi/test-not-a-midi-file.mid", "MIDI_HEADER_MISSING"],
    ["jazzsoft/midi/test-empty-file.mid", "MIDI_HEADER_MISSING"],
    ["jazzsoft/midi/test-corrupt-file-missing-byte.mid", "MIDI_CHUNK_TRUNCATED"],
    ["jazzsoft/midi/test-illegal-message-f8.mid", "MIDI_STATUS_ILLEGAL"],
    ["nfroidure/MIDIBadHeaderChunk.mid", "MIDI_HEADER_MISSING"],
    ["nfroidure/MIDIBadHeaderFormat.mid", "MIDI_FORMAT_UNKNOWN"],
    ["nfroidure/MIDIBadHeaderTracksNum.mid", "MIDI_TRACK_MISSING"],
    ["nfroidure/MIDIBadTrackLength.mid", "MIDI_CHUNK_TRUNCATED"],
  ])("%s is refused as %s", (name, code) => {
    const result = read(name);
    expect(result.ok ? [] : result.problems.map((p) => p.code)).toContain(code);
  });

  test.each([
    ["jazzsoft/midi/test-non-midi-track.mid"],
    ["jazzsoft/midi/test-vlq-4-byte.mid"],
    ["jazzsoft/midi/test-smpte-offset.mid"],
    ["jazzsoft/midi/test-running-status-sysex.mid"],
    ["jazzsoft/midi/test-karaoke-kar.mid"],
    ["nfroidure/MIDIOkFormat2.mid"],
    ["unit-cases/test-cases/tracks/empty-65535-tracks.mid"],
  ])("%s is read", (name) => expect(read(name).ok).toBe(true));

  test("the C major scale is one", () => {
    const keys = must(read("jazzsoft/midi/test-c-major-scale.mid")).tracks.flatMap((t) => t.notes.map((n) => n.key));
    expect(keys.slice(0, 8)).toEqual([60, 62, 64, 65, 67, 69, 71, 72]);
  });
});
