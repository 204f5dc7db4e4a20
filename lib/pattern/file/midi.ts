import { add, compare, type Fraction, fraction, nearestName, subtract, type Worded, ZERO } from "../../base/index.js";
import type { MidiFile, MidiNote, MidiTrack } from "../../formats/midi/index.js";
import type { VariantDocument } from "../../schema/index.js";
import { barLength, type Meter, meterOf } from "../../time/index.js";
import { problem } from "../codes.js";
import type { Frame } from "../compile/bars.js";
import { spelledIn } from "../key.js";
import type { Key, Note } from "../model.js";
import { voiceOn } from "../percussion.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";
import type { FilePart } from "./bars.js";
import { type Heard, loudnessIn } from "./velocities.js";
import { type FileBar, notesInBars, readBarRange } from "./bars.js";

/** Percussion channel, counted from 0: channel 10 of General MIDI level 1. */
const PERCUSSION_CHANNEL = 9;

/** Takes the notes of one track of a MIDI file: the track named, else the only one with notes. MIDI does not spell pitches: the pattern's key does. */
export function midiPart(
  file: MidiFile,
  document: VariantDocument,
  { frame, key }: { frame: Frame; key: Key },
): FilePart {
  const range = readBarRange(document.bars, frame);
  const found = trackNamed(file, document.track);
  const problems: Problem[] = [...range.problems, ...("code" in found ? [found] : [])];
  if (file.division.kind === "frame") {
    const message = say("pattern-problem.file-without-bars");
    const remedy = say("pattern-problem.file-without-bars-remedy");
    problems.push(problem("FILE_WITHOUT_BARS", message, { pointer: "/file" }, remedy));
  }
  if ("code" in found || problems.length > 0) return { notes: [], kind: "pitched", problems };
  const { track } = found;
  const bars = barsOf(track, file, range.first + frame.bars.length - 1).slice(range.first - 1);
  const kind = track.notes.some((n) => n.channel === PERCUSSION_CHANNEL) ? "percussion" : "pitched";
  const unknown = new Set<number>();
  const heard = loudnessIn(track.notes.map(({ velocity }) => velocity));
  const notes = track.notes.flatMap((note, i) => {
    const read = noteOf(note, key, heard[i]!);
    if (!read) unknown.add(note.key);
    return read ? [read] : [];
  });
  const taken = notesInBars(notes, bars, frame);
  if (unknown.size > 0) {
    const given = { count: unknown.size, keys: [...unknown].map(String) };
    const message = say("pattern-problem.file-voice-unknown-on-keys", given);
    const remedy = say("pattern-problem.file-voice-unknown-on-keys-remedy");
    problems.push(problem("FILE_VOICE_UNKNOWN", message, { pointer: "/file" }, remedy));
  }
  return { notes: taken.notes, kind, problems: [...problems, ...taken.problems] };
}

function trackNamed(file: MidiFile, wanted: number | string | undefined): { track: MidiTrack } | Problem {
  const playing = file.tracks.filter((track) => track.notes.length > 0);
  const tracks = playing.map((track) => `${track.index + 1}${track.name ? ` (${track.name.slice(0, 40)})` : ""}`);
  if (wanted === undefined) {
    const [only, another] = playing;
    if (only && !another) return { track: only };
    const where = { pointer: "/file" };
    if (only === undefined)
      return problem("FILE_TRACK_UNKNOWN", say("pattern-problem.file-track-not-named-none"), where);
    const message = say("pattern-problem.file-track-not-named", { count: playing.length });
    const remedy = say("pattern-problem.file-track-not-named-remedy", { tracks });
    return problem("FILE_TRACK_UNKNOWN", message, where, remedy);
  }
  const track = file.tracks.find((t) => (typeof wanted === "number" ? t.index + 1 === wanted : t.name === wanted));
  if (track) return { track };
  const near = nearestName(
    String(wanted),
    file.tracks.flatMap((t) => t.name ?? []),
  );
  const message = say("pattern-problem.file-track-unknown", { found: JSON.stringify(wanted) });
  return problem("FILE_TRACK_UNKNOWN", message, { pointer: "/track" }, trackRemedy(near, tracks));
}

function trackRemedy(near: string | undefined, tracks: readonly string[]): Worded {
  if (near !== undefined) return say("pattern-problem.write", { text: near });
  return tracks.length === 0
    ? say("pattern-problem.file-track-unknown-remedy-none")
    : say("pattern-problem.file-track-unknown-remedy", { tracks });
}

/** The bars of a file by its meter changes, 4/4 before the first. A change of meter inside a bar ends the bar. */
function barsOf(track: MidiTrack, file: MidiFile, count: number): FileBar[] {
  const changes = track.meters.map((m) => ({ at: fraction(m.ticks, 4 * file.division.ticks), meter: m.meter }));
  const bars: FileBar[] = [];
  let meter: Meter = meterOf([4], 4);
  let position = ZERO;
  let next = 0;
  while (bars.length < count) {
    for (let change = changes[next]; change && compare(change.at, position) <= 0; change = changes[++next])
      meter = change.meter;
    const end = add(position, barLength(meter));
    const cut = changes[next] && compare(changes[next]!.at, end) < 0 ? changes[next]!.at : end;
    bars.push({ position, length: subtract(cut, position) });
    position = cut;
  }
  return bars;
}

function noteOf(note: MidiNote, key: Key, heard: Heard): Note | undefined {
  const place = { position: note.position as Fraction, length: note.length as Fraction, ...heard };
  if (note.channel !== PERCUSSION_CHANNEL) return { ...place, pitch: spelledIn(key, note.key) };
  const voice = voiceOn(note.key);
  return voice === undefined ? undefined : { ...place, voice };
}
