import { type Fraction, nearestName, subtract } from "../../base/index.js";
import type { MusicXmlFile, MusicXmlNote, MusicXmlPart } from "../../formats/musicxml/index.js";
import type { VariantDocument } from "../../schema/index.js";
import { problem } from "../codes.js";
import type { Frame } from "../compile/bars.js";
import { marksOf } from "../marks.js";
import type { Note } from "../model.js";
import { voiceOn } from "../percussion.js";
import { transposePitch } from "../pitch.js";
import type { Problem } from "../problem.js";
import { say } from "../say.js";
import { type Heard, heardInTuplets, type Tuplet } from "../tuplets.js";
import type { FilePart } from "./bars.js";
import { notesInBars, readBarRange } from "./bars.js";

/** Takes the notes of one part of a MusicXML file in concert pitch: the part named, else the only one. Bars are counted as played (repeats written out), without the pick-up. */
export function musicXmlPart(file: MusicXmlFile, document: VariantDocument, { frame }: { frame: Frame }): FilePart {
  const range = readBarRange(document.bars, frame);
  const found = partNamed(file, document.part);
  const problems: Problem[] = [...range.problems, ...("code" in found ? [found] : [])];
  if ("code" in found || problems.length > 0) return { notes: [], kind: "pitched", problems };
  const { part } = found;
  const pickups = part.bars[0]?.implicit ? 1 : 0;
  const first = pickups + range.first - 1;
  const bars = part.bars.slice(first, first + frame.bars.length);
  if (bars.length < frame.bars.length) {
    const message = say("pattern-problem.file-bar-count-differs-from-part", {
      part: part.name,
      count: part.bars.length - pickups,
      wanted: frame.bars.length,
      first: range.first,
      last: range.first + frame.bars.length - 1,
    });
    const remedy = say("pattern-problem.file-bar-count-differs-from-part-remedy");
    const where = { pointer: document.bars === undefined ? "/file" : "/bars" };
    return {
      notes: [],
      kind: "pitched",
      problems: [...problems, problem("FILE_BAR_COUNT_DIFFERS", message, where, remedy)],
    };
  }
  const last = first + bars.length;
  const heard = part.advice.filter(({ bar }) => bar >= first - (frame.pickup.n > 0 ? 1 : 0) && bar < last);
  problems.push(...heard.map(({ problem: said }) => ({ ...said, where: { pointer: "/file" } })));
  const kind = part.notes.some((note) => note.written === undefined) ? "percussion" : "pitched";
  let unknown = 0;
  const sounding = heardByVoice(part.notes, bars[0]!.position, frame);
  const notes = part.notes.flatMap((note) => {
    const read = noteOf(note);
    if (!read && note.bar >= first && note.bar < last) unknown++;
    return read ? [{ ...read, ...sounding.get(note) }] : [];
  });
  if (unknown > 0) {
    const message = say("pattern-problem.file-voice-unknown", { count: unknown });
    const remedy = say("pattern-problem.file-voice-unknown-remedy");
    problems.push(problem("FILE_VOICE_UNKNOWN", message, { pointer: "/file" }, remedy));
  }
  const taken = notesInBars(notes, bars, frame);
  return { notes: taken.notes, kind, problems: [...problems, ...taken.problems] };
}

/** When the notes of tuplets sound, voice by voice, in a pattern that begins at a position of the file. */
function heardByVoice(notes: readonly MusicXmlNote[], start: Fraction, frame: Frame): ReadonlyMap<MusicXmlNote, Heard> {
  const heard = new Map<MusicXmlNote, Heard>();
  const moved = (tuplet: Tuplet | undefined): Tuplet | undefined =>
    tuplet && { from: subtract(tuplet.from, start), to: subtract(tuplet.to, start) };
  for (const voice of new Set(notes.map((note) => note.voice))) {
    const own = notes.filter((note) => note.voice === voice);
    const written = own.map(({ position, length, tuplet, endsIn }) => ({
      position: subtract(position, start),
      length,
      tuplet: moved(tuplet),
      endsIn: moved(endsIn),
    }));
    heardInTuplets(written, frame).forEach((each, i) => {
      heard.set(own[i]!, each);
    });
  }
  return heard;
}

function partNamed(file: MusicXmlFile, wanted: string | undefined): { part: MusicXmlPart } | Problem {
  const parts = file.parts.map((part) => `${part.id} (${part.name.slice(0, 40)})`);
  if (wanted === undefined) {
    const [only, another] = file.parts;
    if (only && !another) return { part: only };
    const message = say("pattern-problem.file-part-not-named", { count: file.parts.length });
    const remedy = say("pattern-problem.file-part-not-named-remedy", { parts });
    return problem("FILE_PART_UNKNOWN", message, { pointer: "/file" }, remedy);
  }
  const part = file.parts.find((p) => p.id === wanted) ?? file.parts.find((p) => p.name === wanted);
  if (part) return { part };
  const near = nearestName(
    wanted,
    file.parts.flatMap((p) => [p.id, p.name]),
  );
  const message = say("pattern-problem.file-part-unknown", { found: JSON.stringify(wanted.slice(0, 40)) });
  const remedy =
    near === undefined
      ? say("pattern-problem.file-part-unknown-remedy", { parts })
      : say("pattern-problem.write", { text: near });
  return problem("FILE_PART_UNKNOWN", message, { pointer: "/part" }, remedy);
}

function noteOf(note: MusicXmlNote): Note | undefined {
  const { position, length, accent, loudness } = note;
  const said = { position, length, accent, ...marksOf(note), ...(loudness === undefined ? {} : { loudness }) };
  if (note.written) return { ...said, pitch: transposePitch(note.written, note.transposition) };
  const voice = note.percussion === undefined ? undefined : voiceOn(note.percussion);
  return voice === undefined ? undefined : { ...said, voice };
}
