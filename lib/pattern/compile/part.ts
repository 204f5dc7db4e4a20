import { add, compare, placedUnder, problemsIn, subtract } from "../../base/index.js";
import { readMidiFile } from "../../formats/midi/index.js";
import { readMusicXml } from "../../formats/musicxml/index.js";
import { soundFormatOf } from "../../formats/sound/format/index.js";
import { type PartDocument, pointerTo, type VariantDocument } from "../../schema/index.js";
import { parseClick } from "../clickLine.js";
import { problem } from "../codes.js";
import { parseGrid } from "../drumGrid.js";
import type { FilePart } from "../file/bars.js";
import { inFile } from "../file/inFile.js";
import { midiPart } from "../file/midi.js";
import { musicXmlPart } from "../file/musicXml.js";
import { instrumentNamed, knownInstrumentNamed, unknownInstrument } from "../instruments/named.js";
import type { ChordSymbol, Instrument, Key, Note, Part, RecordedTake } from "../model.js";
import { parseNotes } from "../note/line.js";
import { midiNumber, pitchText } from "../pitch.js";
import type { Problem } from "../problem.js";
import { compassOf, nearestOctave, octavesWithin, rangeProblems } from "../range.js";
import { parseRhythm } from "../rhythmLine.js";
import { say } from "../say.js";
import { soundingPitch, writtenPitch } from "../transposition.js";
import { type Frame, lengthText } from "./bars.js";
import { compileRecordings, type FindRecording } from "./recording.js";

/** The keys that say what a part plays, one of them in each part or variant. */
const MUSICS = ["notes", "rhythm", "voices", "click", "file"] as const;
/** The keys that say what was recorded, beside one of these or alone. */
const RECORDED = ["recording", "recordings"] as const;

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
  const named = document.instrument ?? writtenFor;
  const instrument = named === undefined ? undefined : instrumentNamed(named, context.instruments);
  const middle = middleOf(reader ?? instrument, reader === undefined ? "sounding" : "written");
  const read = { ...context, ...(reader === undefined ? {} : { reader }), ...(middle === undefined ? {} : { middle }) };
  const musics = variants.length === 0 ? [document] : variants.map(([, variant]) => variant);
  if (writtenFor !== undefined && musics.every(({ notes }) => notes === undefined)) {
    const message = say("pattern-problem.written-for-misplaced");
    const remedy = say("pattern-problem.leave-it-out");
    problems.push(problem("WRITTEN_FOR_MISPLACED", message, { pointer: "/written-for" }, remedy));
  }
  if (document.variants === undefined) {
    const music = compileMusic(document, read);
    context.room.notes -= music.notes.length;
    played.set("", music);
  } else {
    const beside = [...MUSICS, ...RECORDED].filter((source) => document[source] !== undefined);
    if (beside.length > 0) {
      const given = { count: beside.length, others: beside.slice(0, -1), last: beside.at(-1)! };
      const message = say("pattern-problem.part-with-two-musics-beside-variants", given);
      const remedy = say("pattern-problem.part-with-two-musics-beside-variants-remedy");
      problems.push(problem("PART_WITH_TWO_MUSICS", message, { pointer: `/${beside[0]}` }, remedy));
    }
    if (variants.length === 0) {
      const message = say("pattern-problem.part-without-variant");
      const example = "plain: { notes: 1/4 D4 E4 F4 G4 | ... }";
      const remedy = say("pattern-problem.write-for-instance", { example });
      problems.push(problem("PART_WITHOUT_MUSIC", message, { pointer: "/variants" }, remedy));
    }
    for (const [variant, document] of variants) {
      if (context.room.notes < 0) break;
      const music = compileMusic(document, read);
      context.room.notes -= music.notes.length;
      played.set(variant, music);
    }
  }
  for (const key of ["instrument", "written-for"] as const) {
    const name = document[key];
    if (name !== undefined && instrumentNamed(name, context.instruments) === undefined)
      problems.push(unknownInstrument(name, context.instruments, `/${key}`));
  }
  for (const [variant, music] of played) {
    const pointer = document.variants === undefined ? "" : pointerTo(["variants", variant]);
    problems.push(...music.problems.map((p) => placedUnder(p, pointer)));
    const line = (document.variants === undefined ? document : document.variants[variant])?.notes;
    const told = instrument ? rangeAdvice(music.notes, instrument, pointer) : [];
    problems.push(...told.map((each) => atNote(each, { line, notes: music.notes, reader })));
    problems.push(...pickupProblems(music, context, pointer));
  }
  const kinds = new Set([...played.values()].filter((m) => m.notes.length > 0).map((m) => m.kind));
  if (kinds.size > 1) {
    const message = say("pattern-problem.part-mixes-kinds", { part: name });
    const remedy = say("pattern-problem.part-mixes-kinds-remedy");
    problems.push(problem("PART_MIXES_KINDS", message, { pointer: "/variants" }, remedy));
  }
  const part: Part = {
    name,
    kind: [...kinds][0] ?? [...played.values()][0]?.kind ?? "pitched",
    ...(named === undefined ? {} : { instrument: instrument?.name ?? named }),
    variants: Object.fromEntries([...played].map(([variant, music]) => [variant, music.notes])),
    ...recordedIn(played, instrument),
  };
  return { part, problems };
}

/** The recordings of the variants that have some, and whether they stay as they are in other keys. */
function recordedIn(
  played: ReadonlyMap<string, Music>,
  instrument: Instrument | undefined,
): Pick<Part, "recorded" | "staysInKey"> {
  const recorded = [...played].flatMap(([variant, { takes }]) =>
    takes.length === 0 ? [] : [[variant, takes] as const],
  );
  if (recorded.length === 0) return {};
  const hasPitch =
    (instrument !== undefined && instrument.clef !== "percussion") ||
    [...played.values()].some(({ notes }) => notes.some(({ pitch }) => pitch !== undefined));
  return { recorded: Object.fromEntries(recorded), ...(hasPitch ? {} : { staysInKey: true as const }) };
}

/** The middle of a range, a beginner's where the table says it: a MIDI number. */
function middleOf(instrument: Instrument | undefined, pitch: "written" | "sounding"): number | undefined {
  if (instrument === undefined) return undefined;
  const { lowest, highest } = knownInstrumentNamed(instrument.name)?.beginners ?? instrument;
  const bottom = midiNumber(lowest);
  const written = highest === undefined ? bottom + 12 : (bottom + midiNumber(highest)) / 2;
  return pitch === "written" ? written : written + instrument.transposition.chromatic;
}

/** The bars, the key and the files that the music of a part refers to. */
interface MusicContext {
  readonly frame: Frame;
  readonly key: Key;
  /** Chords that a rhythm strikes; undefined when they could not be read. */
  readonly chords: readonly ChordSymbol[] | undefined;
  /** Who the notes of a line are written for; at concert pitch when absent. */
  readonly reader?: Instrument;
  /** The middle of what its instrument plays, as its line is written: a MIDI number. */
  readonly middle?: number;
  /** The bytes of a file beside the curriculum; undefined when it is not there or lies outside. */
  readonly files: (path: string) => Uint8Array | undefined;
  readonly recordings: FindRecording;
}

/** Number of notes that the pattern may still hold, counted down while its parts are compiled. Below 0 when there are too many. */
interface NoteBudget {
  notes: number;
}

interface Music {
  readonly notes: readonly Note[];
  readonly takes: readonly RecordedTake[];
  readonly kind: "pitched" | "percussion";
  readonly problems: readonly Problem[];
}

/** Advice on notes that the instrument of their part does not have: in which octave it has them, where one octave holds them all. */
function rangeAdvice(notes: readonly Note[], instrument: Instrument, pointer: string): readonly Problem[] {
  const compass = compassOf(notes);
  const octaves = compass && nearestOctave(octavesWithin(compass, instrument), 0);
  if (octaves === 0) return [];
  const remedy =
    octaves === undefined
      ? say("pattern-problem.written-beyond-range-remedy", { instrument: instrument.name })
      : say("pattern-problem.written-in-octave-remedy", {
          way: octaves < 0 ? "lower" : "higher",
          octaves: Math.abs(octaves),
        });
  return rangeProblems({ notes, instrument, where: { pointer }, remedy });
}

/** Advice on a range at the note that is furthest out, where it stands in a line of notes. */
function atNote(
  found: Problem,
  {
    line,
    notes,
    reader,
  }: { readonly line: string | undefined; readonly notes: readonly Note[]; readonly reader: Instrument | undefined },
): Problem {
  const way = found.code === "WRITTEN_BELOW_RANGE" ? -1 : 1;
  const pitches = notes.flatMap(({ pitch }) => (pitch === undefined ? [] : [pitch]));
  const furthest = pitches.reduce((a, b) => (way * midiNumber(b) > way * midiNumber(a) ? b : a));
  const name = pitchText(reader === undefined ? furthest : writtenPitch(furthest, reader));
  const offset =
    line
      ?.replaceAll("♭", "b")
      .replaceAll("♯", "#")
      .search(new RegExp(`${name}(?!\\d)`)) ?? -1;
  return offset < 0 ? found : { ...found, where: { pointer: `${found.where.pointer ?? ""}/notes`, offset } };
}

/** Compiles the music of a part or a variant from its one source: notes, a rhythm, voices, a click or a file; and its recordings. Pointers are relative to the document. */
function compileMusic(document: VariantDocument, context: MusicContext): Music {
  const sources = MUSICS.filter((source) => document[source] !== undefined);
  const isRecorded = RECORDED.some((source) => document[source] !== undefined);
  const misplaced = (["track", "part", "bars"] as const).filter(
    (option) => document[option] !== undefined && document.file === undefined && !(option === "bars" && isRecorded),
  );
  const problems: Problem[] = misplaced.map((option) =>
    problem(
      "FILE_OPTION_MISPLACED",
      say("pattern-problem.file-option-misplaced", { option }),
      { pointer: `/${option}` },
      say("pattern-problem.file-option-misplaced-remedy", { option }),
    ),
  );
  if (sources.length === 0 && !isRecorded) {
    const message = say("pattern-problem.part-without-music");
    const remedy = say("pattern-problem.part-without-music-remedy", { example: "notes: 1/4 D4 E4 F4 G4 | ..." });
    problems.push(problem("PART_WITHOUT_MUSIC", message, { pointer: "" }, remedy));
  }
  if (sources.length > 1) {
    const [source, other] = sources.slice(1) as [string, string?];
    const given = { others: sources.slice(0, -1), last: sources.at(-1)! };
    const message = say("pattern-problem.part-with-two-musics", given);
    const remedy =
      other === undefined
        ? say("pattern-problem.part-with-two-musics-remedy", { source })
        : say("pattern-problem.part-with-two-musics-remedy-both", { source, other });
    problems.push(problem("PART_WITH_TWO_MUSICS", message, { pointer: `/${source}` }, remedy));
  }
  const read: FilePart[] = [];
  const recorded = compileRecordings(document, context);
  if (document.notes !== undefined) {
    const notes = parseNotes(document.notes, context.frame, context.middle);
    const concert = inConcertPitch(notes.ok ? notes.value : [], context.reader);
    const found = [...problemsIn(notes, "/notes"), ...concert.problems.map((p) => placedUnder(p, "/notes"))];
    read.push({ notes: concert.notes, kind: "pitched", problems: found });
  }
  if (document.rhythm !== undefined) {
    const notes = parseRhythm(document.rhythm, context.frame, context.chords);
    read.push({ notes: notes.ok ? notes.value : [], kind: "pitched", problems: problemsIn(notes, "/rhythm") });
  }
  if (document.voices !== undefined) {
    const notes = parseGrid(document.voices, context.frame);
    const found = problemsIn(notes, "/voices");
    read.push({ notes: notes.ok ? notes.value : [], kind: "percussion", problems: found });
  }
  if (document.click !== undefined) {
    const notes = parseClick(document.click, context.frame);
    read.push({ notes: notes.ok ? notes.value : [], kind: "percussion", problems: problemsIn(notes, "/click") });
  }
  if (document.file !== undefined) read.push(compileFile(document.file, document, context));
  const kind = read[0]?.kind ?? "pitched";
  const found = [...problems, ...read.flatMap((r) => r.problems), ...recorded.problems];
  return { notes: read[0]?.notes ?? [], takes: recorded.takes, kind, problems: found };
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
  const instrument = reader.name;
  const pitch = pitchText(beyond);
  const message = say("pattern-problem.pitch-out-of-range-for-instrument", { pitch, instrument });
  const remedy = say("pattern-problem.pitch-out-of-range-for-instrument-remedy", { instrument });
  return { notes: sounding.filter(isKey), problems: [problem("PITCH_OUT_OF_RANGE", message, {}, remedy)] };
}

/** PICKUP_MEETS_LAST_BAR: on repeats the pick-up sounds at the end of the last bar, and one player cannot play both. Percussion can, because each voice is its own. */
function pickupProblems(music: Music, { frame }: MusicContext, pointer: string): Problem[] {
  if (music.kind === "percussion" || !music.notes.some((note) => note.position.n < 0)) return [];
  const from = subtract(frame.length, frame.pickup);
  const meeting = music.notes.filter((note) => compare(add(note.position, note.length), from) > 0);
  if (meeting.length === 0) return [];
  const last = frame.bars.at(-1)!;
  const given = { bar: last.number, length: lengthText(frame.pickup, last.meter), count: meeting.length };
  const message = say("pattern-problem.pickup-meets-last-bar", given);
  return [problem("PICKUP_MEETS_LAST_BAR", message, { pointer }, say("pattern-problem.pickup-meets-last-bar-remedy"))];
}

function compileFile(path: string, document: VariantDocument, context: MusicContext): FilePart {
  const where = { pointer: "/file" };
  const nothing = (...problems: Problem[]): FilePart => ({ notes: [], kind: "pitched", problems });
  const bytes = context.files(path);
  if (bytes === undefined) {
    const message = say("pattern-problem.file-not-found", { found: JSON.stringify(path.slice(0, 100)) });
    return nothing(problem("FILE_NOT_FOUND", message, where, say("pattern-problem.file-not-found-remedy")));
  }
  const isMidi = ["MThd", "RIFF"].includes(String.fromCharCode(...bytes.subarray(0, 4)));
  const isXml = looksLikeXml(bytes);
  if (soundFormatOf(bytes) !== undefined) {
    const message = say("pattern-problem.file-is-recording", { file: path.slice(0, 100) });
    const remedy = say("pattern-problem.write-for-instance", { example: `recording: ${path.slice(0, 100)}` });
    return nothing(problem("FILE_KIND_UNKNOWN", message, where, remedy));
  }
  if (!isMidi && !isXml && !isZip(bytes)) {
    const message = say("pattern-problem.file-kind-unknown", { file: path.slice(0, 100) });
    return nothing(problem("FILE_KIND_UNKNOWN", message, where, say("pattern-problem.file-kind-unknown-remedy")));
  }
  const misplaced = isMidi ? "part" : "track";
  if (document[misplaced] !== undefined) {
    const message = isMidi
      ? say("pattern-problem.file-option-misplaced-in-midi")
      : say("pattern-problem.file-option-misplaced-in-musicxml");
    const remedy = say("pattern-problem.write", { text: isMidi ? "track" : "part" });
    return nothing(problem("FILE_OPTION_MISPLACED", message, { pointer: `/${misplaced}` }, remedy));
  }
  const placedInFile = (found: Problem): Problem => inFile(found, path, where);
  if (isMidi) {
    const file = readMidiFile(bytes);
    if (!file.ok) return nothing(...file.problems.map(placedInFile));
    const part = midiPart(file.value, document, context);
    return { ...part, problems: [...file.advice.map(placedInFile), ...part.problems] };
  }
  const score = readMusicXml(bytes);
  return score.ok ? musicXmlPart(score.value, document, context) : nothing(...score.problems.map(placedInFile));
}

/** Whether the first character is "<", after a byte order mark, blanks or the zero bytes of UTF-16. */
function looksLikeXml(bytes: Uint8Array): boolean {
  const first = bytes.subarray(0, 64).find((byte) => ![0, 9, 10, 13, 32, 0xef, 0xbb, 0xbf, 0xfe, 0xff].includes(byte));
  return first === 0x3c;
}

function isZip(bytes: Uint8Array): boolean {
  return bytes[0] === 0x50 && bytes[1] === 0x4b;
}
