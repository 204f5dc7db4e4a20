import type { Problem, Worded } from "../base/index.js";
import { type PatternDocument, pointerTo } from "../schema/index.js";
import { problem } from "./codes.js";
import { LARGEST_FILE, LARGEST_FILES } from "./limits.js";
import { say } from "./say.js";

/** Gives the bytes of a file by its path below the curriculum's folder; `undefined` when it cannot. */
export type ReadFile = (path: string) => Uint8Array | undefined;

interface Files {
  readonly bytes: ReadonlyMap<string, Uint8Array>;
  readonly problems: readonly Problem[];
}

/**
 * Reads the files that the parts of patterns name. A file that was read once is not read again. A path that leaves the folder is never
 * passed to `readFile`. A file that is not there is left out: whoever needs it reports it.
 *
 * Problems: PATH_LEAVES_FOLDER, FILE_TOO_LARGE.
 */
export function filesOf(patterns: Readonly<Record<string, PatternDocument>>, readFile: ReadFile): Files {
  const bytes = new Map<string, Uint8Array>();
  const problems: Problem[] = [];
  let total = 0;
  for (const { path, pointer } of writtenPaths(patterns)) {
    const outside = whyOutside(path);
    if (outside !== undefined) {
      const remedy = say("curriculum-problem.path-leaves-folder-remedy");
      problems.push(problem("PATH_LEAVES_FOLDER", outside, { pointer }, remedy));
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
  return { bytes, problems };
}

function* writtenPaths(
  patterns: Readonly<Record<string, PatternDocument>>,
): Iterable<{ readonly path: string; readonly pointer: string }> {
  for (const [name, pattern] of Object.entries(patterns)) {
    for (const [partName, part] of Object.entries(pattern.parts)) {
      const path = ["patterns", name, "parts", partName];
      if (part.file !== undefined) yield { path: part.file, pointer: pointerTo([...path, "file"]) };
      for (const [variantName, variant] of Object.entries(part.variants ?? {})) {
        if (variant.file !== undefined)
          yield { path: variant.file, pointer: pointerTo([...path, "variants", variantName, "file"]) };
      }
    }
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
