import { existsSync, readdirSync, readFileSync } from "node:fs";
import { basename, join } from "node:path";
import { describe, expect, test } from "vitest";
import { problemsIn } from "../../lib/base/index.js";
import { readMidiTake } from "../../lib/listen/index.js";
import { checkTake } from "../../lib/schema/index.js";
import { ROOT } from "../sources.js";

// MIDI files other people made, good, odd and broken: jazz-soft/test-midi-files (MIT), nfroidure/midifile (MIT),
// Shkyrockett/midi-unit-test-cases (MIT), and the takes of the Groove MIDI Dataset (CC BY 4.0). Read in place, never copied.
const REFERENCE = join(ROOT, "..", "shared", "reference");
const there = existsSync(join(REFERENCE, "smf")) && existsSync(join(REFERENCE, "groove"));
if (!there) console.log("skipped: MIDI files of the reference material, which is not at ../shared/reference");

function filesIn(folder: string): readonly string[] {
  if (!there) return [];
  return readdirSync(join(REFERENCE, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(?:mid|kar|syx)$/i.test(entry.name))
    .map((entry) => join(entry.parentPath, entry.name))
    .sort();
}

/** Names of the files that are refused, with the codes of the errors. */
function refusedIn(folder: string): Readonly<Record<string, readonly string[]>> {
  const refused: Record<string, readonly string[]> = {};
  for (const file of filesIn(folder)) {
    const result = readMidiTake(readFileSync(file));
    if (result.ok) expect(checkTake(result.value).ok, file).toBe(true);
    else
      refused[basename(file)] = problemsIn(result).flatMap(({ code, severity }) =>
        severity === "error" ? [code] : [],
      );
  }
  return refused;
}

describe.skipIf(!there)("readMidiTake() on other people's files", () => {
  test("reads every take of the Groove MIDI Dataset, each with onsets", () => {
    const files = filesIn("groove");
    expect(files.length).toBeGreaterThanOrEqual(387);
    expect(refusedIn("groove")).toEqual({});
    for (const file of files) {
      const result = readMidiTake(readFileSync(file));
      expect(result.ok && result.value.onsets.length, file).toBeGreaterThan(0);
    }
  });

  test("reads every unit case (midi-unit-test-cases) but files without a track, and system messages, which have no place in a file", () => {
    expect(filesIn("smf/unit-cases").length).toBe(296);
    const systemMessages =
      "0xF1-TimeCode 0xF2-SongPosition 0xF3-SongSelect 0xF6-TuneRequest 0xF8-TimingClock 0xFA-Start 0xFB-Continue 0xFC-Stop 0xFE-ActiveSensing";
    const withoutTracks =
      "empty-00000-tracks header-type-00-single header-type-01-multi-track header-type-02-multi-song";
    expect(refusedIn("smf/unit-cases")).toEqual({
      ...refusals(systemMessages, "MIDI_STATUS_ILLEGAL"),
      ...refusals(withoutTracks, "MIDI_TRACK_MISSING"),
    });
  });

  test("reads the good files of midifile and refuses the bad ones, as their names say", () => {
    expect(filesIn("smf/nfroidure").length).toBe(12);
    expect(refusedIn("smf/nfroidure")).toEqual({
      ...refusals("MIDIBadHeaderChunk", "MIDI_HEADER_MISSING"),
      ...refusals("MIDIBadHeaderFormat", "MIDI_FORMAT_UNKNOWN"),
      ...refusals("MIDIBadHeaderLength", "MIDI_CHUNK_NOT_READ"),
      ...refusals("MIDIBadHeaderSMTPE", "MIDI_FRAME_RATE_UNKNOWN"),
      ...refusals("MIDIBadHeaderTracksNum MIDIBadTrackHdr", "MIDI_TRACK_MISSING"),
      ...refusals("MIDIBadTrackLength", "MIDI_CHUNK_TRUNCATED"),
      // Three separate sequences: good as a file, and no take until one is chosen. MIDIBadFormat1 is whole as a file.
      ...refusals("MIDIOkFormat2", "TAKE_TRACK_UNCLEAR"),
    });
  });

  test("reads the good files of test-midi-files and refuses the corrupt ones, as their names say", () => {
    expect(filesIn("smf/jazzsoft").length).toBe(73);
    const illegal = "all f1-xx f2-xx-xx f3-xx f4 f5 f6 f8 f9 fa fb fc fd fe".split(" ");
    expect(refusedIn("smf/jazzsoft")).toEqual({
      ...refusals(illegal.map((message) => `test-illegal-message-${message}`).join(" "), "MIDI_STATUS_ILLEGAL"),
      ...refusals("test-corrupt-file-missing-byte", "MIDI_CHUNK_TRUNCATED"),
      ...refusals("test-empty-file test-not-a-midi-file", "MIDI_HEADER_MISSING"),
      "test-syx-7e-06-01-id-request.syx": ["MIDI_HEADER_MISSING"],
      ...refusals("test-2-tracks-type-2", "TAKE_TRACK_UNCLEAR"),
    });
  });
});

/** The same refusal of several files, named without `.mid`. */
function refusals(names: string, code: string): Readonly<Record<string, readonly string[]>> {
  return Object.fromEntries(names.split(" ").map((name) => [`${name}.mid`, [code]]));
}
