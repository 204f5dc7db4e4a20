import { add, compare, type Problem, placedUnder, problemsIn, subtract } from "../../base/index.js";
import { readMidiFile } from "../../formats/midi/index.js";
import { readMusicXml } from "../../formats/musicxml/index.js";
import { type PartDocument, pointerTo, type VariantDocument } from "../../schema/index.js";
import { problem } from "../codes.js";
import { parseGrid } from "../drumGrid.js";
import type { FilePart } from "../file/bars.js";
import { midiPart } from "../file/midi.js";
import { musicXmlPart } from "../file/musicXml.js";
import { instrumentNamed, unknownInstrument } from "../instruments.js";
import type { Instrument, Key, Note, Part } from "../model.js";
import { parseNotes } from "../noteLine.js";
import { midiNumber, pitchText } from "../pitch.js";
import { rangeProblems, soundingPitch } from "../transposition.js";
import { type Frame, lengthText } from "./bars.js";

/** Compiles a part with all its variants. A part without variants has one, named "". Pointers are relative to the document. */
export function compilePart(
  name: string,
  document: PartDocument,
  context: MusicContext & { readonly instruments: Readonly<Record<string, Instrument>>; readonly room: NoteBudget },
): { readonly part: Part; readonly problems: readonly Problem[] } {
  const problems: Problem[] = [];
  const variants = Object.entries(document.variants ?? {});
  const played = new Map<string, Music>();
  const writtenFor = document["written-for"];
  const reader = writtenFor === undefined ? undefined : instrumentNamed(writtenFor, context.instruments);
  const read = { ...context, ...(reader === undefined ? {} : { reader }) };
  const musics = variants.length === 0 ? [document] : variants.map(([, variant]) => variant);
  if (writtenFor !== undefined && musics.every(({ notes }) => notes === undefined)) {
    const message = "written-for belongs to lines of notes, and there is none";
    problems.push(problem("WRITTEN_FOR_MISPLACED", message, { pointer: "/written-for" }, "leave it out"));
  }
  if (document.variants === undefined) {
    const music = compileMusic(document, read);
    context.room.notes -= music.notes.length;
    played.set("", music);
  } else {
    const beside = (["notes", "voices", "file"] as const).filter((source) => document[source] !== undefined);
    if (beside.length > 0) {
      const message = `a part says what it plays in one way; found ${beside.join(" and ")} beside variants`;
      problems.push(problem("PART_WITH_TWO_MUSICS", message, { pointer: `/${beside[0]}` }, "make it a variant"));
    }
    if (variants.length === 0)
      problems.push(
        problem(
          "PART_WITHOUT_MUSIC",
          "this part has no variant",
          { pointer: "/variants" },
          "write for instance plain: { notes: 1/4 D4 E4 F4 G4 | ... }",
        ),
      );
    for (const [variant, document] of variants) {
      if (context.room.notes < 0) break;
      const music = compileMusic(document, read);
      context.room.notes -= music.notes.length;
      played.set(variant, music);
    }
  }
  const named = document.instrument ?? document["written-for"];
  const instrument = named === undefined ? undefined : instrumentNamed(named, context.instruments);
  for (const key of ["instrument", "written-for"] as const) {
    const name = document[key];
    if (name !== undefined && instrumentNamed(name, context.instruments) === undefined)
      problems.push(unknownInstrument(name, context.instruments, `/${key}`));
  }
  for (const [variant, music] of played) {
    const pointer = document.variants === undefined ? "" : pointerTo(["variants", variant]);
    problems.push(...music.problems.map((p) => placedUnder(p, pointer)));
    if (instrument) problems.push(...rangeProblems({ notes: music.notes, instrument, where: { pointer } }));
    problems.push(...pickupProblems(music, context, pointer));
  }
  const kinds = new Set([...played.values()].filter((m) => m.notes.length > 0).map((m) => m.kind));
  if (kinds.size > 1) {
    const message = `the variants of a part are all pitched or all percussion; those of ${name} are mixed`;
    problems.push(
      problem("PART_MIXES_KINDS", message, { pointer: "/variants" }, "put the drum lines into a part of their own"),
    );
  }
  const part: Part = {
    name,
    kind: [...kinds][0] ?? [...played.values()][0]?.kind ?? "pitched",
    ...(named === undefined ? {} : { instrument: named }),
    variants: Object.fromEntries([...played].map(([variant, music]) => [variant, music.notes])),
  };
  return { part, problems };
}

/** The bars, the key and the files that the music of a part refers to. */
interface MusicContext {
  readonly frame: Frame;
  readonly key: Key;
  /** Who the notes of a line are written for; at concert pitch when absent. */
  readonly reader?: Instrument;
  /** The bytes of a file beside the curriculum; undefined when it is not there or lies outside. */
  readonly files: (path: string) => Uint8Array | undefined;
}

/** Number of notes that the pattern may still hold, counted down while its parts are compiled. Below 0 when there are too many. */
interface NoteBudget {
  notes: number;
}

interface Music {
  readonly notes: readonly Note[];
  readonly kind: "pitched" | "percussion";
  readonly problems: readonly Problem[];
}

/** Compiles the music of a part or a variant from its one source: notes, voices or a file. Pointers are relative to the document. */
function compileMusic(document: VariantDocument, context: MusicContext): Music {
  const sources = (["notes", "voices", "file"] as const).filter((source) => document[source] !== undefined);
  const misplaced = (["track", "part", "bars"] as const).filter(
    (option) => document[option] !== undefined && document.file === undefined,
  );
  const problems: Problem[] = misplaced.map((option) =>
    problem(
      "FILE_OPTION_MISPLACED",
      `${option} belongs to a file, and there is none`,
      { pointer: `/${option}` },
      `leave ${option} out, or name the file`,
    ),
  );
  if (sources.length === 0) {
    problems.push(
      problem(
        "PART_WITHOUT_MUSIC",
        "this part does not say what it plays (notes, voices, file or variants)",
        { pointer: "" },
        "add for instance notes: 1/4 D4 E4 F4 G4 | ...",
      ),
    );
  }
  if (sources.length > 1) {
    const message = `a part says what it plays in one way; found ${sources.join(" and ")}`;
    problems.push(
      problem(
        "PART_WITH_TWO_MUSICS",
        message,
        { pointer: `/${sources[1]}` },
        `leave ${sources.slice(1).join(" and ")} out, or make each a variant`,
      ),
    );
  }
  const read: Music[] = [];
  if (document.notes !== undefined) {
    const notes = parseNotes(document.notes, context.frame);
    const concert = inConcertPitch(notes.ok ? notes.value : [], context.reader);
    const found = [...problemsIn(notes, "/notes"), ...concert.problems.map((p) => placedUnder(p, "/notes"))];
    read.push({ notes: concert.notes, kind: "pitched", problems: found });
  }
  if (document.voices !== undefined) {
    const notes = parseGrid(document.voices, context.frame);
    const found = problemsIn(notes, "/voices");
    read.push({ notes: notes.ok ? notes.value : [], kind: "percussion", problems: found });
  }
  if (document.file !== undefined) read.push(compileFile(document.file, document, context));
  const kind = read[0]?.kind ?? "pitched";
  return { notes: read[0]?.notes ?? [], kind, problems: [...problems, ...read.flatMap((r) => r.problems)] };
}

/** Notes written for an instrument as they sound, those beyond all keys left out. Problem: PITCH_OUT_OF_RANGE. */
function inConcertPitch(
  written: readonly Note[],
  reader: Instrument | undefined,
): { readonly notes: readonly Note[]; readonly problems: readonly Problem[] } {
  if (reader === undefined) return { notes: written, problems: [] };
  const sounding = written.map((note) => (note.pitch ? { ...note, pitch: soundingPitch(note.pitch, reader) } : note));
  const isKey = ({ pitch }: Note): boolean => !pitch || (midiNumber(pitch) >= 0 && midiNumber(pitch) <= 127);
  const beyond = written[sounding.findIndex((note) => !isKey(note))]?.pitch;
  if (beyond === undefined) return { notes: sounding, problems: [] };
  const message = `a pitch sounds from C-1 to G9 (MIDI 0 to 127); ${pitchText(beyond)} written for ${reader.name} does not`;
  const remedy = `write the note in an octave that ${reader.name} has`;
  return { notes: sounding.filter(isKey), problems: [problem("PITCH_OUT_OF_RANGE", message, {}, remedy)] };
}

/** PICKUP_MEETS_LAST_BAR: on repeats the pick-up sounds at the end of the last bar, and one player cannot play both. Percussion can, because each voice is its own. */
function pickupProblems(music: Music, { frame }: MusicContext, pointer: string): Problem[] {
  if (music.kind === "percussion" || !music.notes.some((note) => note.position.n < 0)) return [];
  const from = subtract(frame.length, frame.pickup);
  const meeting = music.notes.filter((note) => compare(add(note.position, note.length), from) > 0);
  if (meeting.length === 0) return [];
  const last = frame.bars.at(-1)!;
  const message = `on repeats the pick-up sounds at the end of bar ${last.number}, which is to be silent for ${lengthText(frame.pickup, last.meter)}; ${meeting.length === 1 ? "a note of it sounds" : `${meeting.length} of its notes sound`} there`;
  return [problem("PICKUP_MEETS_LAST_BAR", message, { pointer }, "end the last bar with rests as long as the pick-up")];
}

function compileFile(path: string, document: VariantDocument, context: MusicContext): FilePart {
  const where = { pointer: "/file" };
  const nothing = (...problems: Problem[]): FilePart => ({ notes: [], kind: "pitched", problems });
  const bytes = context.files(path);
  if (bytes === undefined) {
    const message = `no file ${JSON.stringify(path.slice(0, 100))} is in the folder of the curriculum`;
    return nothing(
      problem("FILE_NOT_FOUND", message, where, "write the path from that folder, with / between folders"),
    );
  }
  const isMidi = ["MThd", "RIFF"].includes(String.fromCharCode(...bytes.subarray(0, 4)));
  const isXml = looksLikeXml(bytes);
  if (!isMidi && !isXml && !isZip(bytes)) {
    const message = `a part is taken from a Standard MIDI File or an uncompressed MusicXML file; ${path.slice(0, 100)} is neither`;
    return nothing(problem("FILE_KIND_UNKNOWN", message, where, "export it as MIDI (.mid) or MusicXML (.musicxml)"));
  }
  const misplaced = isMidi ? "part" : "track";
  if (document[misplaced] !== undefined) {
    const message = isMidi ? "a MIDI file has tracks, not parts" : "a MusicXML file has parts, not tracks";
    const found = problem(
      "FILE_OPTION_MISPLACED",
      message,
      { pointer: `/${misplaced}` },
      `write ${isMidi ? "track" : "part"}`,
    );
    return nothing(found);
  }
  const placedInFile = (p: Problem): Problem => ({
    ...p,
    message: `${path.slice(0, 100)}: ${p.message}${placeIn(p)}`,
    where,
  });
  if (isMidi) {
    const file = readMidiFile(bytes);
    if (!file.ok) return nothing(...file.problems.map(placedInFile));
    const part = midiPart(file.value, document, context);
    return { ...part, problems: [...file.advice.map(placedInFile), ...part.problems] };
  }
  const score = readMusicXml(bytes);
  return score.ok ? musicXmlPart(score.value, document, context) : nothing(...score.problems.map(placedInFile));
}

/** The place inside the file, in words, because the problem points at the line of the curriculum that names the file. */
function placeIn({ where }: Problem): string {
  if (where.line !== undefined) return ` (line ${where.line}, column ${where.column})`;
  return where.offset === undefined ? "" : ` (byte ${where.offset})`;
}

/** Whether the first character is "<", after a byte order mark, blanks or the zero bytes of UTF-16. */
function looksLikeXml(bytes: Uint8Array): boolean {
  const first = bytes.subarray(0, 64).find((byte) => ![0, 9, 10, 13, 32, 0xef, 0xbb, 0xbf, 0xfe, 0xff].includes(byte));
  return first === 0x3c;
}

function isZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b;
}
