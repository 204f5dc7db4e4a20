import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import type { Result } from "../../base/index.js";
import { makeFolder, sha256, writeWhole } from "../../node/index.js";
import type { Format } from "./plan.js";

/** Name of the manifest in the output folder. */
export const MANIFEST = "leeway-manifest.json";

/** What was rendered, from which course, by which version. Without times and paths of the machine: the same command writes the same bytes. */
export interface Manifest {
  readonly madeBy: { readonly program: "leeway"; readonly version: string };
  readonly course: { readonly name: string; readonly edition: string; readonly sha256: string };
  /** The choices of the command line. */
  readonly asked: Readonly<Record<string, unknown>>;
  /** In order of names. */
  readonly files: readonly ManifestFile[];
}

export interface ManifestFile {
  /** Path relative to the folder of the manifest, with slashes. */
  readonly file: string;
  readonly bytes: number;
  readonly sha256: string;
  /** "vtt" for the captions beside a film. */
  readonly format: Format | "vtt";
  /** Absent for a file of the whole course. */
  readonly drill?: string;
  /** The settings of the rung; absent for a file of a whole drill. */
  readonly rung?: string;
  /** Absent for a file of all mixes. */
  readonly mix?: string;
  /** The instrument for which it is written. */
  readonly player?: string;
}

/** Writes a whole file of a rendering, its folder made, and returns its entry in the manifest. */
export async function writeRendered(
  folder: string,
  bytes: Uint8Array,
  about: Omit<ManifestFile, "bytes" | "sha256">,
): Promise<Result<ManifestFile>> {
  const path = join(folder, ...about.file.split("/"));
  const made = await makeFolder(dirname(path));
  if (!made.ok) return made;
  const written = await writeWhole(path, bytes);
  if (!written.ok) return written;
  const { file, ...rest } = about;
  return { ok: true, value: { file, bytes: bytes.length, sha256: sha256(bytes), ...rest }, advice: [] };
}

export function writeManifest(folder: string, manifest: Manifest): Promise<Result<void>> {
  return writeWhole(join(folder, MANIFEST), new TextEncoder().encode(`${JSON.stringify(manifest, null, 2)}\n`));
}

/** Identifies a sound bank or a font by its content, since a file of the same name may change. */
export function fileSum(path: string): string | undefined {
  try {
    return sha256(readFileSync(path));
  } catch {
    return undefined;
  }
}
