import { fraction, type Problem, problemsOf, type Result, resultOf } from "../../base/index.js";
import { formatCodes } from "../codes.js";
import { midiChunks } from "./chunks.js";
import { type CheckedTrack, checkTrack } from "./events.js";
import type { MidiDivision, MidiFile, MidiMaps, MidiNote, MidiTrack } from "./midiFile.js";
import { midiMaps, secondsAtTick } from "./timeMaps.js";
import { decodeTracks, type TimedEvent } from "./tracks.js";

const problem = problemsOf(formatCodes);
/** Our choice: hours of playing fit into this; keeps a hostile file below a second and 200 MB. */
const LARGEST_FILE = 4 * 2 ** 20;
const MOST_EVENTS = 100_000;
/** Our choice: the same remark on more tracks than this helps nobody. */
const MOST_REMARKS = 20;

/**
 * Reads a Standard MIDI File of any format and division: its tracks, notes, tempi, meters and keys.
 *
 * The structure is checked strictly before anything is decoded; problems carry the offset of the byte. Chunks of unknown kinds are skipped,
 * a RIFF container (RMID) is opened. A file with tracks but no notes is read.
 * @example const file = readMidiFile(bytes); // file.value.tracks[0].notes[0].seconds
 */
export function readMidiFile(bytes: Uint8Array): Result<MidiFile> {
  if (bytes.length > LARGEST_FILE) return tooLarge(`${LARGEST_FILE} bytes`, `${bytes.length}`);
  const { chunks, problems: found } = midiChunks(bytes);
  const problems: Problem[] = [...found];
  if (!chunks) return { ok: false, problems };
  const checked: CheckedTrack[] = [];
  let events = 0;
  for (const track of chunks.tracks) {
    const result = checkTrack(bytes, track);
    checked.push(result);
    if (problems.length < MOST_REMARKS || result.problems.some((p) => p.severity === "error"))
      problems.push(...result.problems);
    events += result.events;
    if (events > MOST_EVENTS) return tooLarge(`${MOST_EVENTS} events`, "more");
    if (problems.length > 2 * MOST_REMARKS) break;
  }
  if (problems.some((p) => p.severity === "error")) return { ok: false, problems };
  const tracks = decodeTracks(bytes, chunks, checked);
  const { format, division } = chunks;
  const together = format === 2 ? undefined : midiMaps(tracks.flat(), division);
  problems.push(...(together?.problems ?? []));
  const read = tracks.map((track, index) => {
    const { maps, problems: remarks } = together ?? midiMaps(track, division);
    if (!together) problems.push(...remarks);
    return trackOf(track, { index, division, maps, problems });
  });
  return resultOf({ format, division, tracks: read }, problems);
}

interface TrackSetting {
  readonly index: number;
  readonly division: MidiDivision;
  readonly maps: MidiMaps;
  readonly problems: Problem[];
}

function trackOf(events: readonly TimedEvent[], { index, division, maps, problems }: TrackSetting): MidiTrack {
  const endTicks = events.at(-1)?.ticks ?? 0;
  const open = new Map<number, { starts: { ticks: number; velocity: number }[]; next: number }>();
  const notes: MidiNote[] = [];
  const close = (channelKey: number, until: number): boolean => {
    const queue = open.get(channelKey);
    const start = queue?.starts[queue.next];
    if (!queue || !start) return false;
    queue.next++;
    const [channel, key] = [channelKey >> 7, channelKey & 127];
    const { ticks, velocity } = start;
    notes.push({
      ...{ track: index, channel, key, velocity, ticks, endTicks: until },
      seconds: secondsAtTick(ticks, maps.tempi, division),
      endSeconds: secondsAtTick(until, maps.tempi, division),
      ...(division.kind === "quarter"
        ? { position: fraction(ticks, division.ticks * 4), length: fraction(until - ticks, division.ticks * 4) }
        : {}),
    });
    return true;
  };
  for (const { event, ticks } of events) {
    if (event.type === "noteOn") {
      const channelKey = event.channel * 128 + event.noteNumber;
      const queue = open.get(channelKey) ?? { starts: [], next: 0 };
      queue.starts.push({ ticks, velocity: event.velocity });
      open.set(channelKey, queue);
    } else if (event.type === "noteOff") close(event.channel * 128 + event.noteNumber, ticks);
  }
  let hanging = 0;
  for (const channelKey of open.keys()) while (close(channelKey, endTicks)) hanging++;
  if (hanging > 0 && problems.length < MOST_REMARKS) {
    const message = `every note ends; in track ${index + 1}, ${hanging} do not and are ended with the track`;
    problems.push(problem("MIDI_NOTE_NOT_ENDED", message));
  }
  notes.sort((a, b) => a.ticks - b.ticks || a.key - b.key);
  const name = events.find(({ event }) => event.type === "trackName")?.event;
  return {
    index,
    ...(name?.type === "trackName" ? { name: decoded(name.text) } : {}),
    notes,
    endTicks,
    ...maps,
  };
}

/** Names are written in Latin-1 by the standard and in UTF-8 by most programs: UTF-8 where it is valid. */
function decoded(text: string): string {
  const bytes = Uint8Array.from(text, (character) => character.charCodeAt(0));
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes).trim();
  } catch {
    return text.trim();
  }
}

function tooLarge(most: string, found: string): Result<MidiFile> {
  const message = `a MIDI file has at most ${most}; found ${found}`;
  return { ok: false, problems: [problem("MIDI_TOO_LARGE", message)] };
}
