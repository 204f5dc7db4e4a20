import { type Problem, type Result, success, type Worded } from "../../base/index.js";
import { type formatCodes, problem } from "../codes.js";
import { say } from "../say.js";
import { freshStaff, type StaffState } from "./attributes.js";
import { type Measure, readMeasure } from "./measure.js";
import type { MusicXmlFile, MusicXmlPart } from "./musicXmlFile.js";
import { playedPart } from "./playedPart.js";
import { childrenOf, type Element, textOf, walkXml } from "./readXml.js";

/** Largest file, characters: our choice. A riff takes a hundredth of this; a hostile file stays below a second and 200 MB. */
const LARGEST_FILE = 4 * 2 ** 20;
/** Most notes of all parts with repeats written out: our choice, ten times a long piece; it bounds nested repeats. */
const MOST_NOTES = 50_000;

interface WrittenPart {
  readonly id: string;
  name: string;
  readonly keys: Map<string, number>;
  readonly measures: Measure[];
  readonly state: StaffState;
}

/**
 * Reads an uncompressed MusicXML score (score-partwise): parts with bars and notes as played, repeats written out, ties joined.
 *
 * Pitches are WRITTEN pitches, with the transposition to add. Grace notes and cue notes, which have no duration, are left out with advice.
 * Each piece of advice is in its part with its bar, and also in the advice of the result. One of severity `error` makes its bar unusable, not
 * the file. Document types and entities have no effect.
 * @example const score = readMusicXml(bytes); // score.value.parts[0].notes[0].written
 */
export function readMusicXml(source: Uint8Array | string): Result<MusicXmlFile> {
  if (source.length > LARGEST_FILE) {
    const message = say("formats-problem.musicxml-too-large-in-bytes", { most: LARGEST_FILE, found: source.length });
    return failed("MUSICXML_TOO_LARGE", message);
  }
  if (typeof source !== "string" && source[0] === 0x50 && source[1] === 0x4b) {
    return failed(
      "MUSICXML_COMPRESSED",
      say("formats-problem.musicxml-compressed"),
      say("formats-problem.musicxml-compressed-remedy"),
    );
  }
  const text = typeof source === "string" ? source : decoded(source);
  try {
    return readText(text);
  } catch (thrown) {
    // Exact fractions throw above 2^53, as with thousands of different divisions in one part.
    if (!(thrown instanceof RangeError)) throw thrown;
    return failed("MUSICXML_TIMES_TOO_FINE", say("formats-problem.musicxml-times-too-fine"));
  }
}

function readText(text: string): Result<MusicXmlFile> {
  const { parts, root, problems: found } = writtenParts(text);
  const problems = [...found];
  if (root !== undefined && root !== "score-partwise") {
    const message = say("formats-problem.musicxml-not-partwise", { found: root.slice(0, 40) });
    problems.unshift(problem("MUSICXML_NOT_PARTWISE", message));
  }
  if (problems.length > 0) return { ok: false, problems };
  let room = MOST_NOTES;
  const played: MusicXmlPart[] = [];
  for (const { id, name, measures } of parts) {
    if (measures.length === 0) continue;
    const part = playedPart({ id, name, measures }, room);
    if (!part)
      return failed("MUSICXML_TOO_LARGE", say("formats-problem.musicxml-too-large-in-notes", { most: MOST_NOTES }));
    room -= part.notes.length;
    played.push(part);
  }
  if (played.length === 0) {
    return failed("MUSICXML_WITHOUT_PARTS", say("formats-problem.musicxml-without-parts"));
  }
  // An error in a bar concerns its bar, not the file, so it is advice beside the value.
  const advice = new Map<string, Problem>();
  for (const { problem: said } of played.flatMap((p) => p.advice)) {
    advice.set(said.message, { ...said, severity: "advice" });
  }
  return success({ parts: played }, [...advice.values()]);
}

/** The parts of the document in the order of the part list, with their written bars. */
function writtenParts(text: string): {
  readonly parts: readonly WrittenPart[];
  readonly root: string | undefined;
  readonly problems: readonly Problem[];
} {
  const parts = new Map<string, WrittenPart>();
  let current: WrittenPart | undefined;
  let root: string | undefined;
  const part = (id: string): WrittenPart => {
    const known = parts.get(id) ?? { id, name: id, keys: new Map(), measures: [], state: freshStaff() };
    parts.set(id, known);
    return known;
  };
  const problems = walkXml(text, {
    build: new Set(["measure", "score-part"]),
    open(name, attributes, depth) {
      if (depth === 1) root = name;
      if (name === "part") current = part(attributes.id ?? "");
    },
    visit(element) {
      if (element.name === "score-part") readScorePart(element, part(element.attributes.id ?? ""));
      else if (root === "score-partwise" && current)
        current.measures.push(readMeasure(element, current.state, current));
    },
  });
  return { parts: [...parts.values()], root, problems };
}

function readScorePart(element: Element, part: WrittenPart): void {
  part.name = textOf(element, "part-name") || part.id;
  for (const instrument of childrenOf(element, "midi-instrument")) {
    // MusicXML counts these keys from 1.
    const key = Number(textOf(instrument, "midi-unpitched") ?? Number.NaN) - 1;
    if (!Number.isInteger(key) || key < 0 || key > 127) continue;
    part.keys.set(instrument.attributes.id ?? "", key);
    if (!part.keys.has("")) part.keys.set("", key);
  }
}

function decoded(bytes: Uint8Array): string {
  const [first, second] = bytes;
  if (first === 0xff && second === 0xfe) return new TextDecoder("utf-16le").decode(bytes);
  if (first === 0xfe && second === 0xff) return new TextDecoder("utf-16be").decode(bytes);
  const isLatin = /^<\?xml[^>]{0,100}encoding=["'](iso-8859-1|latin-?1|windows-1252)["']/i.test(
    String.fromCharCode(...bytes.subarray(0, 150)),
  );
  return new TextDecoder(isLatin ? "windows-1252" : "utf-8").decode(bytes);
}

function failed(code: keyof typeof formatCodes, message: Worded, remedy?: Worded): Result<MusicXmlFile> {
  return { ok: false, problems: [problem(code, message, {}, remedy)] };
}
