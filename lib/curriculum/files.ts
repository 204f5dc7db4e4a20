import type { Problem } from "../base/index.js";
import { type PatternDocument, pointerTo } from "../schema/index.js";
import { problem } from "./codes.js";
import { LARGEST_FILE, LARGEST_FILES } from "./limits.js";

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
    const cause = whyOutside(path);
    if (cause !== undefined) {
      problems.push(outside(path, cause, pointer));
      continue;
    }
    const content = bytes.get(path) ?? readFile(path);
    if (content === undefined) continue;
    total += content.length;
    if (content.length > LARGEST_FILE || total > LARGEST_FILES) {
      const found = content.length > LARGEST_FILE ? `${path} has ${content.length}` : `with ${path} they have ${total}`;
      const message = `a file may have ${LARGEST_FILE} bytes, and all parts taken from files together ${LARGEST_FILES}; ${found}`;
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

/** The reason why a path may lead out of its folder on some system; `undefined` for a plain path below it. */
export function whyOutside(path: string): string | undefined {
  if (/[\u0000-\u001f\u007f]/.test(path)) return "it has a control character";
  if (path.includes("\\")) return "it has a backslash";
  if (path.includes(":")) return "it has a colon, as drives and web addresses have";
  if (path.startsWith("/")) return "it begins at the root of the disk";
  if (path.startsWith("~")) return "it begins at a home folder";
  const steps = path.split("/");
  if (steps.includes("")) return "a folder in it has no name";
  // Windows drops dots and blanks at the end of a name: "..." and ".. " may mean "..".
  if (steps.some((step) => /^[. ]+$/.test(step)))
    return `it has the step ${JSON.stringify(steps.find((step) => /^[. ]+$/.test(step)))}`;
  return undefined;
}

function outside(path: string, cause: string, pointer: string): Problem {
  const message = `a file is named by its path below the curriculum's folder, such as riffs/dockside.mid; found ${JSON.stringify(path)}: ${cause}`;
  return problem(
    "PATH_LEAVES_FOLDER",
    message,
    { pointer },
    "put the file beside the curriculum and name it from there, with / between folders",
  );
}
