import type { Worded } from "../base/index.js";
import type { RecordingFacts } from "../pattern/index.js";
import { type PatternDocument, pointerTo, type VariantDocument } from "../schema/index.js";
import { problem } from "./codes.js";
import { LARGEST_FILE, LARGEST_FILES } from "./limits.js";
import type { Problem } from "./problem.js";
import { say } from "./say.js";

/** Gives the bytes of a file by its path below the curriculum's folder; `undefined` when it cannot. */
export type ReadFile = (path: string) => Uint8Array | undefined;

/** Gives what is known of a sound file by its path below the curriculum's folder; `undefined` when it cannot. */
export type ReadRecording = (path: string) => RecordingFacts | undefined;

/** What gives the files beside a curriculum. */
export interface FileReaders {
  readonly readFile: ReadFile;
  readonly readRecording: ReadRecording;
}

interface Files {
  readonly bytes: ReadonlyMap<string, Uint8Array>;
  readonly recordings: ReadonlyMap<string, RecordingFacts>;
  readonly problems: readonly Problem[];
}

/**
 * Reads the files that the parts of patterns name, and what is known of their recordings. A file that was read once is not read again. A path that leaves
 * the folder is never passed to the readers. A file that is not there is left out: whoever needs it reports it.
 *
 * Problems: PATH_LEAVES_FOLDER, FILE_TOO_LARGE.
 */
export function filesOf(
  patterns: Readonly<Record<string, PatternDocument>>,
  { readFile, readRecording }: FileReaders,
): Files {
  const bytes = new Map<string, Uint8Array>();
  const recordings = new Map<string, RecordingFacts>();
  const problems: Problem[] = [];
  let total = 0;
  for (const { path, pointer, isRecording } of writtenPaths(patterns)) {
    const outside = whyOutside(path);
    if (outside !== undefined) {
      const remedy = say("curriculum-problem.path-leaves-folder-remedy");
      problems.push(problem("PATH_LEAVES_FOLDER", outside, { pointer }, remedy));
      continue;
    }
    if (isRecording) {
      const facts = recordings.get(path) ?? readRecording(path);
      if (facts !== undefined) recordings.set(path, facts);
      continue;
    }
    const content = bytes.get(path) ?? readFile(path);
    if (content === undefined) continue;
    total += content.length;
    if (content.length > LARGEST_FILE || total > LARGEST_FILES) {
      const limits = { most: LARGEST_FILE, together: LARGEST_FILES, path };
      const message =
        content.length > LARGEST_FILE
          ? say("curriculum-problem.file-too-large", { ...limits, found: content.length })
          : say("curriculum-problem.file-too-large-together", { ...limits, found: total });
      problems.push(problem("FILE_TOO_LARGE", message, { pointer }));
      continue;
    }
    bytes.set(path, content);
  }
  return { bytes, recordings, problems };
}

interface WrittenPath {
  readonly path: string;
  readonly pointer: string;
  readonly isRecording: boolean;
}

function* writtenPaths(patterns: Readonly<Record<string, PatternDocument>>): Iterable<WrittenPath> {
  for (const [name, pattern] of Object.entries(patterns)) {
    for (const [partName, part] of Object.entries(pattern.parts)) {
      const path = ["patterns", name, "parts", partName];
      yield* pathsOf(part, path);
      for (const [variantName, variant] of Object.entries(part.variants ?? {}))
        yield* pathsOf(variant, [...path, "variants", variantName]);
    }
  }
}

function* pathsOf({ file, recording, recordings }: VariantDocument, path: readonly string[]): Iterable<WrittenPath> {
  if (file !== undefined) yield { path: file, pointer: pointerTo([...path, "file"]), isRecording: false };
  if (recording !== undefined) yield { path: recording, pointer: pointerTo([...path, "recording"]), isRecording: true };
  for (const [tempo, named] of Object.entries(recordings ?? {})) {
    const at = [...path, "recordings", tempo];
    if (typeof named === "string") yield { path: named, pointer: pointerTo(at), isRecording: true };
    else yield { path: named.file, pointer: pointerTo([...at, "file"]), isRecording: true };
  }
}

/** What is wrong with a path that may lead out of its folder on some system; `undefined` for a plain path below it. */
export function whyOutside(path: string): Worded | undefined {
  const found = JSON.stringify(path);
  const cause = causeIn(path);
  if (cause !== undefined) return say("curriculum-problem.path-leaves-folder", { found, cause });
  // Windows drops dots and blanks at the end of a name: "..." and ".. " may mean "..".
  const step = path.split("/").find((each) => /^[. ]+$/.test(each));
  return step === undefined
    ? undefined
    : say("curriculum-problem.path-leaves-folder-step", { found, step: JSON.stringify(step) });
}

function causeIn(path: string): "control" | "backslash" | "colon" | "root" | "home" | "unnamed" | undefined {
  if (/[\u0000-\u001f\u007f]/.test(path)) return "control";
  if (path.includes("\\")) return "backslash";
  if (path.includes(":")) return "colon";
  if (path.startsWith("/")) return "root";
  if (path.startsWith("~")) return "home";
  return path.split("/").includes("") ? "unnamed" : undefined;
}
