import { pathOf, pointerTo } from "../schema/index.js";
import { problem } from "./codes.js";
import { type ReadFile, whyOutside } from "./files.js";
import { LARGEST_FILE } from "./limits.js";
import type { Problem } from "./problem.js";
import { say } from "./say.js";
import { isKeyed } from "./wellFormed.js";
import { contentOf } from "./yaml/data.js";
import { documentOf } from "./yaml/document.js";
import { locator } from "./yaml/locate.js";
import { swallowedIn } from "./yaml/swallowed.js";

/** The data of a course in which `patterns: { file: ... }` is replaced by the patterns of that file. */
export interface WithPatternFiles {
  readonly value: unknown;
  /** Characters of all the files that were read. */
  readonly length: number;
  /** Problems with the files as such and with their text, each with its place in the file that has it. */
  readonly problems: readonly Problem[];
  /** Whether patterns are missing, so that nothing can be said of drills that name them. */
  readonly lacks: boolean;
  /** Gives a problem of a pattern, or an instrument, that came from a file its place there; `undefined` for any other. */
  placed(found: Problem): Problem | undefined;
}

interface Reading {
  readonly readFile: ReadFile;
  readonly problems: Problem[];
  /** Where patterns and instruments are from: "patterns/dockside" -> what locates a problem there. */
  readonly origins: Map<string, (found: Problem) => Problem>;
  length: number;
  lacks: boolean;
}

interface Library {
  readonly patterns: Record<string, unknown>;
  readonly instruments: Record<string, unknown>;
}

/** Most files of patterns that one course takes, those that such files name included. Our choice: far above any library of riffs. */
const MOST_FILES = 50;

/**
 * Puts the patterns of the files that a course names in place of the names. A file of patterns is a course, of which only the patterns and what they need
 * (instruments, tuning, who wrote them) is taken, or has nothing but these; it may name further files. Paths are below the folder of whoever names them.
 *
 * Problems: PATTERNS_FORM, PATTERNS_NOT_FOUND, PATTERNS_IN_A_CIRCLE, PATTERN_TWICE, PATH_LEAVES_FOLDER, FILE_TOO_LARGE, and those of a text as YAML.
 */
export function withPatternFiles(value: unknown, file: string, readFile: ReadFile): WithPatternFiles {
  const reading: Reading = { readFile, problems: [], origins: new Map(), length: 0, lacks: false };
  const placed = (found: Problem): Problem | undefined => {
    const [section = "", name = ""] = pathOf(found.where.pointer ?? "");
    return reading.origins.get(`${section}/${name}`)?.(found);
  };
  const names = namedIn(value);
  if (names === undefined || !isKeyed(value)) return { value, length: 0, problems: [], lacks: false, placed };
  const library: Library = { patterns: {}, instruments: {} };
  takeAll({ names, folder: "", value, chain: [], tell: (found) => reading.problems.push(found) }, library, reading);
  const merged = {
    ...value,
    patterns: library.patterns,
    instruments: { ...library.instruments, ...(isKeyed(value.instruments) ? value.instruments : {}) },
  };
  for (const name of Object.keys(isKeyed(value.instruments) ? value.instruments : {}))
    reading.origins.delete(`instruments/${name}`);
  // What is wrong in the course itself is told where it stands; file is where nothing else is.
  const problems = reading.problems.map((each) =>
    each.where.file === undefined ? each : { ...each, where: { ...each.where, file: each.where.file || file } },
  );
  return { value: merged, length: reading.length, problems, lacks: reading.lacks, placed };
}

/** The files that the patterns of a course are taken from; `undefined` where they are written in the course. */
function namedIn(value: unknown): readonly string[] | undefined {
  const patterns = isKeyed(value) ? value.patterns : undefined;
  const named = isKeyed(patterns) && Object.hasOwn(patterns, "file") ? patterns.file : undefined;
  if (typeof named === "string") return [named];
  return Array.isArray(named) && named.every((each) => typeof each === "string") ? (named as string[]) : undefined;
}

interface Naming {
  readonly names: readonly string[];
  /** Folder of whoever names the files, below the course's: "" or "riffs/". */
  readonly folder: string;
  readonly value: Readonly<Record<string, unknown>>;
  /** Paths of the files that led here, the first first. */
  readonly chain: readonly string[];
  /** Takes a problem of whoever names the files. */
  readonly tell: (found: Problem) => void;
}

function takeAll(naming: Naming, library: Library, reading: Reading): void {
  const { names, folder, value, chain, tell } = naming;
  const pointer = pointerTo(["patterns", "file"]);
  const others = Object.keys(value.patterns as object).filter((key) => key !== "file");
  if (others.length > 0) {
    const message = say("curriculum-problem.patterns-form-both", { patterns: others.slice(0, 8) });
    const remedy = say("curriculum-problem.patterns-form-both-remedy");
    tell(problem("PATTERNS_FORM", message, { pointer }, remedy));
  }
  for (const name of names) {
    const path = `${folder}${name}`;
    const outside = whyOutside(name);
    const found = JSON.stringify(name);
    if (outside !== undefined)
      tell(problem("PATH_LEAVES_FOLDER", outside, { pointer }, say("curriculum-problem.path-leaves-folder-remedy")));
    else if (chain.includes(path)) {
      const message = say("curriculum-problem.patterns-in-a-circle", {
        files: [...chain.slice(chain.indexOf(path)), path],
      });
      tell(
        problem("PATTERNS_IN_A_CIRCLE", message, { pointer }, say("curriculum-problem.patterns-in-a-circle-remedy")),
      );
    } else if (chain.length >= MOST_FILES) {
      const message = say("curriculum-problem.patterns-too-many-files", { most: MOST_FILES });
      tell(problem("PATTERNS_FORM", message, { pointer }, say("curriculum-problem.patterns-too-many-files-remedy")));
    } else {
      const bytes = reading.readFile(path);
      if (bytes === undefined) {
        const message = say("curriculum-problem.patterns-not-found", { found });
        tell(problem("PATTERNS_NOT_FOUND", message, { pointer }, say("curriculum-problem.patterns-not-found-remedy")));
      } else if (bytes.length > LARGEST_FILE) {
        const limits = { most: LARGEST_FILE, together: LARGEST_FILE, path, found: bytes.length };
        const remedy = say("curriculum-problem.patterns-too-large-remedy");
        tell(problem("FILE_TOO_LARGE", say("curriculum-problem.file-too-large", limits), { pointer }, remedy));
      } else {
        takeFile({ path, bytes, naming }, library, reading);
        continue;
      }
    }
    reading.lacks = true;
  }
}

function takeFile(
  { path, bytes, naming }: { readonly path: string; readonly bytes: Uint8Array; readonly naming: Naming },
  library: Library,
  reading: Reading,
): void {
  const text = new TextDecoder("utf-8").decode(bytes).replace(/^\ufeff/, "");
  reading.length += text.length;
  const refuse = (problems: readonly Problem[]): void => {
    reading.lacks = true;
    reading.problems.push(...problems.map((each) => ({ ...each, where: { ...each.where, file: path } })));
  };
  const source = documentOf(text);
  const content = source.ok ? contentOf(source.value) : source;
  if (!source.ok || !content.ok) {
    refuse(content.ok ? [] : content.problems);
    return;
  }
  const locate = locator(source.value, content.value, path);
  const tell = (found: Problem): void => void reading.problems.push(locate(found));
  for (const each of [...content.value.problems, ...swallowedIn(source.value, content.value)]) tell(each);
  const { value } = content.value;
  const folder = path.slice(0, path.lastIndexOf("/") + 1);
  const names = namedIn(value);
  if (isKeyed(value) && names !== undefined) {
    takeAll({ names, folder, value, chain: [...naming.chain, path], tell }, library, reading);
    return;
  }
  if (!isKeyed(value) || !isKeyed(value.patterns) || Object.keys(value.patterns).length === 0) {
    const remedy = say("curriculum-problem.patterns-form-none-remedy");
    refuse([
      problem(
        "PATTERNS_FORM",
        say("curriculum-problem.patterns-form-none"),
        { line: 1, column: 1, pointer: "" },
        remedy,
      ),
    ]);
    return;
  }
  for (const [name, described] of Object.entries(isKeyed(value.instruments) ? value.instruments : {})) {
    library.instruments[name] ??= described;
    if (library.instruments[name] === described) reading.origins.set(`instruments/${name}`, locate);
  }
  for (const [name, pattern] of Object.entries(value.patterns)) {
    if (Object.hasOwn(library.patterns, name)) {
      const message = say("curriculum-problem.pattern-twice", { pattern: name });
      tell(
        problem(
          "PATTERN_TWICE",
          message,
          { pointer: pointerTo(["patterns", name]) },
          say("curriculum-problem.pattern-twice-remedy"),
        ),
      );
      continue;
    }
    library.patterns[name] = completed(pattern, { value, folder });
    reading.origins.set(`patterns/${name}`, locate);
  }
}

/** What of a file's head holds for each of its patterns. */
const INHERITED = ["author", "arranger", "tuning"] as const;

/** A pattern with what the head of its file says for all, and with the files of its parts named from the course's folder. */
function completed(
  pattern: unknown,
  { value, folder }: { readonly value: Readonly<Record<string, unknown>>; readonly folder: string },
): unknown {
  if (!isKeyed(pattern)) return pattern;
  const head = INHERITED.flatMap((key) => (typeof value[key] === "string" ? [[key, value[key]] as const] : []));
  const parts = isKeyed(pattern.parts) ? mapped(pattern.parts, (part) => fromFolder(part, folder)) : pattern.parts;
  return { ...Object.fromEntries(head), ...pattern, ...(parts === undefined ? {} : { parts }) };
}

function fromFolder(part: unknown, folder: string): unknown {
  if (folder === "" || !isKeyed(part)) return part;
  const variants = isKeyed(part.variants) ? mapped(part.variants, (each) => fromFolder(each, folder)) : undefined;
  const recordings = isKeyed(part.recordings) ? mapped(part.recordings, (each) => pathFrom(each, folder)) : undefined;
  return {
    ...part,
    ...(part.file === undefined ? {} : { file: pathFrom(part.file, folder) }),
    ...(part.recording === undefined ? {} : { recording: pathFrom(part.recording, folder) }),
    ...(recordings === undefined ? {} : { recordings }),
    ...(variants === undefined ? {} : { variants }),
  };
}

/** A path, or what names one under `file`. A path that is none is left as it is written, for what is said of it. */
function pathFrom(path: unknown, folder: string): unknown {
  if (isKeyed(path)) return { ...path, file: pathFrom(path.file, folder) };
  return typeof path === "string" && whyOutside(path) === undefined ? `${folder}${path}` : path;
}

function mapped(
  entries: Readonly<Record<string, unknown>>,
  change: (value: unknown) => unknown,
): Readonly<Record<string, unknown>> {
  return Object.fromEntries(Object.entries(entries).map(([key, value]) => [key, change(value)]));
}
