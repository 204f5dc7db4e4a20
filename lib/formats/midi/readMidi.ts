import { type Problem, type Result, resultOf, type Worded } from "../../base/index.js";
import { problem } from "../codes.js";
import { say } from "../say.js";
import { midiChunks } from "./chunks.js";
import type { MidiDivision, MidiFile, MidiMaps, MidiTrack } from "./midiFile.js";
import { pairNotes } from "./notes.js";
import { readEvents, type TrackEvents } from "./readEvents.js";
import { midiMaps } from "./tempoMap.js";

/** Our choice: hours of playing fit into this; keeps a hostile file below a second and 200 MB. */
const LARGEST_FILE = 4 * 2 ** 20;
const MOST_EVENTS = 100_000;
/** Our choice: the same advice on more tracks than this helps nobody. */
const MOST_ADVICE = 20;

/**
 * Reads a Standard MIDI File of any format and division: its tracks, notes, tempi, meters and keys.
 *
 * The structure is checked strictly; problems carry the offset of the byte. Chunks of unknown kinds are skipped,
 * a RIFF container (RMID) is opened. A file with tracks but no notes is read.
 * @example const file = readMidiFile(bytes); // file.value.tracks[0].notes[0].seconds
 */
export function readMidiFile(bytes: Uint8Array): Result<MidiFile> {
  if (bytes.length > LARGEST_FILE)
    return tooLarge(say("formats-problem.midi-too-large-in-bytes", { most: LARGEST_FILE, found: bytes.length }));
  const { chunks, problems: found } = midiChunks(bytes);
  const problems: Problem[] = [...found];
  if (!chunks) return { ok: false, problems };
  const tracks: TrackEvents[] = [];
  let count = 0;
  for (const track of chunks.tracks) {
    const read = readEvents(bytes, track, MOST_EVENTS - count);
    tracks.push(read);
    if (problems.length < MOST_ADVICE || read.problems.some((p) => p.severity === "error"))
      problems.push(...read.problems);
    count += read.count;
    if (count > MOST_EVENTS) return tooLarge(say("formats-problem.midi-too-large-in-events", { most: MOST_EVENTS }));
    if (problems.length > 2 * MOST_ADVICE) break;
  }
  if (problems.some((p) => p.severity === "error")) return { ok: false, problems };
  const { format, division } = chunks;
  const together =
    format === 2
      ? undefined
      : midiMaps(
          tracks.flatMap(({ events }) => events),
          division,
        );
  problems.push(...(together?.problems ?? []));
  const whole = tracks.map((track, index) => {
    const { maps, problems: advice } = together ?? midiMaps(track.events, division);
    if (!together) problems.push(...advice);
    return trackOf(track, { index, division, maps, problems });
  });
  return resultOf({ format, division, tracks: whole }, problems);
}

interface TrackSetting {
  readonly index: number;
  readonly division: MidiDivision;
  readonly maps: MidiMaps;
  readonly problems: Problem[];
}

function trackOf({ events, endTicks }: TrackEvents, { index, division, maps, problems }: TrackSetting): MidiTrack {
  const { notes, hanging } = pairNotes(events, { track: index, endTicks, division, tempi: maps.tempi });
  if (hanging > 0 && problems.length < MOST_ADVICE) {
    const message = say("formats-problem.midi-note-not-ended", { count: hanging, track: index + 1 });
    problems.push(problem("MIDI_NOTE_NOT_ENDED", message));
  }
  const name = events.find((event) => event.kind === "trackName")?.text;
  return { index, ...(name === undefined ? {} : { name }), notes, endTicks, ...maps };
}

function tooLarge(message: Worded): Result<MidiFile> {
  return { ok: false, problems: [problem("MIDI_TOO_LARGE", message)] };
}
