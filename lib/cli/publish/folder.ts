import { createHash } from "node:crypto";
import { appendFile, readdir, readFile, rm, rmdir, stat } from "node:fs/promises";
import { dirname, join } from "node:path";
import { failure, type Problem, problemsOf, type Result, success } from "../../base/index.js";
import {
  type FileRecord,
  makeFolder,
  readRecord,
  removeUnfinished,
  sha256,
  writeIfOther,
  writeWhole,
} from "../../node/index.js";
import { checkPublication, type Publication, type PublishedFile } from "../../schema/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem } from "../say.js";

const problem = problemsOf(fileCodes);

/** Name of the manifest of a published folder. */
const PUBLICATION = "publication.json";
/** What a run has made so far, a line of JSON for each file, until the manifest says it; and the same of what sounds. */
const RECORD = ".publishing.jsonl";
/** The folder of what sounds, and the record in it. */
export const SOUND_FOLDER = "sound";
export const SOUND_RECORD = ".publishing-sound.jsonl";

/** A folder that a course is published into, with what is known of its files. */
export interface PublishFolder {
  readonly path: string;
  /** By path: what the manifest or the record of a run that was broken off says. */
  readonly earlier: ReadonlyMap<string, PublishedFile>;
  /** Files of this run that were made, and that were there already. */
  readonly count: { made: number; kept: number };
}

/** A file to be put into the folder. */
export interface NewFile extends Omit<PublishedFile, "bytes" | "sha256" | "from"> {
  readonly content: Uint8Array | AsyncIterable<Uint8Array>;
}

/** One whose bytes are all there. */
export type WholeFile = NewFile & { readonly content: Uint8Array };

/** An entry of the record: how many files were made together with this one is said, so that half of them are not taken for all. */
type RecordedFile = PublishedFile & { readonly together?: number };

/**
 * Opens a folder to publish into, which is made when it is not there; what an earlier run left unfinished is removed. Problems: those of writing
 * (OUTPUT_...), and PUBLICATION_FOLDER_TAKEN for one with an index page from elsewhere.
 */
export async function openPublishFolder(path: string): Promise<Result<PublishFolder>> {
  const made = await makeFolder(path);
  if (!made.ok) return made;
  const refused = await refusedFolder(path);
  if (refused !== undefined) return failure(refused);
  for (const folder of await foldersIn(path)) await removeUnfinished(folder);
  const published = (await readPublication(path))?.files ?? [];
  const recorded: readonly object[] = [...(await readRecord(join(path, RECORD))).values()];
  const whole = wholeGroups(recorded as readonly RecordedFile[]);
  const sound = [...(await readRecord(join(path, SOUND_FOLDER, SOUND_RECORD))).values()].map(soundFile);
  const entries = [...published, ...whole.map(({ together: _, ...entry }) => entry), ...sound];
  const earlier = new Map(entries.map((each) => [each.file, each]));
  // The batch that makes what sounds reads a record of its own, of paths below its folder.
  const sounding = [...earlier.values()]
    .filter(({ kind }) => kind === "sound")
    .map((each) => ({ ...each, file: each.file.slice(SOUND_FOLDER.length + 1) }));
  const records = [
    [join(path, RECORD), whole],
    [join(path, SOUND_FOLDER, SOUND_RECORD), sounding],
  ] as const;
  for (const [name, files] of records) {
    const place = await makeFolder(dirname(name));
    if (!place.ok) return place;
    const lines = files.map((each) => `${JSON.stringify(each)}\n`).join("");
    const written = await writeWhole(name, new TextEncoder().encode(lines));
    if (!written.ok) return written;
  }
  return success({ path, earlier, count: { made: 0, kept: 0 } });
}

/** Why nothing may be published into a folder; `undefined` where it may. */
export async function refusedFolder(path: string): Promise<Problem | undefined> {
  const names: readonly string[] = await readdir(path).catch(() => []);
  if (!names.includes("index.html") || (await holdsPublication(path))) return undefined;
  const message = sayProblem("cli-problem.publication-folder-taken");
  const remedy = sayProblem("cli-problem.publication-folder-taken-remedy");
  return problem("PUBLICATION_FOLDER_TAKEN", message, { file: path }, remedy);
}

/** Whether something was published into a folder before, if only in part. */
export async function holdsPublication(path: string): Promise<boolean> {
  const names: readonly string[] = await readdir(path).catch(() => []);
  return names.includes(PUBLICATION) || names.includes(RECORD);
}

/** The problem of who stopped a run. */
export function stopped(folder: PublishFolder): Result<never> {
  const message = sayProblem("cli-problem.publishing-stopped");
  const remedy = sayProblem("cli-problem.publishing-stopped-remedy");
  return failure(problem("PUBLISHING_STOPPED", message, { file: folder.path }, remedy));
}

/** The files of which all that were made together are recorded. */
function wholeGroups(recorded: readonly RecordedFile[]): readonly RecordedFile[] {
  return recorded.filter(({ from, together }) => recorded.filter((each) => each.from === from).length === together);
}

/** A file that sounds, from the record of the batch that made it. */
export function soundFile({ caution: _, file, ...entry }: FileRecord): PublishedFile {
  return { ...entry, file: `${SOUND_FOLDER}/${file}`, kind: "sound" };
}

/** Makes files that belong together, unless an earlier run made them of the same and they are as it left them. */
export async function keepOrMake(
  folder: PublishFolder,
  from: string,
  make: () => Promise<Result<readonly NewFile[]>>,
): Promise<Result<readonly PublishedFile[]>> {
  const known = [...folder.earlier.values()].filter((each) => each.from === from);
  const isThere = await Promise.all(known.map((each) => isAsRecorded(folder.path, each)));
  if (known.length > 0 && isThere.every((each) => each)) {
    folder.count.kept += known.length;
    return success(known);
  }
  const made = await make();
  if (!made.ok) return made;
  const entries: PublishedFile[] = [];
  for (const file of made.value) {
    const put = await write(folder, file, from);
    if (!put.ok) return put;
    entries.push(put.value);
  }
  const lines = entries.map((each) => `${JSON.stringify({ ...each, together: entries.length })}\n`).join("");
  await appendFile(join(folder.path, RECORD), lines);
  return success(entries, made.advice);
}

/** Puts a file into the folder that costs nothing to make; it is not touched when it holds these bytes already. */
export function put(folder: PublishFolder, file: WholeFile): Promise<Result<PublishedFile>> {
  return write(folder, file, sha256(file.content));
}

async function write(
  folder: PublishFolder,
  { content, ...about }: NewFile,
  from: string,
): Promise<Result<PublishedFile>> {
  const path = join(folder.path, ...about.file.split("/"));
  const place = await makeFolder(dirname(path));
  if (!place.ok) return place;
  const hash = createHash("sha256");
  let bytes = 0;
  async function* measured(pieces: AsyncIterable<Uint8Array>): AsyncGenerator<Uint8Array> {
    for await (const piece of pieces) {
      hash.update(piece);
      bytes += piece.length;
      yield piece;
    }
  }
  const isWhole = content instanceof Uint8Array;
  const written = await (isWhole ? writeIfOther(path, content) : writeWhole(path, measured(content)));
  if (!written.ok) return written;
  if (isWhole) {
    hash.update(content);
    bytes = content.length;
  }
  folder.count[written.value === false ? "kept" : "made"] += 1;
  return success({ ...about, bytes, sha256: hash.digest("hex"), from });
}

/**
 * Closes a folder: files of earlier runs that are none of this course any more are removed, unless somebody changed them; the manifest is written. Returns
 * how many were removed.
 */
export async function closePublishFolder(folder: PublishFolder, publication: Publication): Promise<Result<number>> {
  const names = new Set(publication.files.map(({ file }) => file));
  let removed = 0;
  for (const entry of folder.earlier.values()) {
    if (names.has(entry.file) || !(await isAsRecorded(folder.path, entry))) continue;
    const path = join(folder.path, ...entry.file.split("/"));
    await rm(path, { force: true });
    removed += 1;
    // A folder that still holds something stays.
    for (let above = dirname(path); above !== folder.path && above.length > folder.path.length; above = dirname(above))
      await rmdir(above).catch(() => undefined);
  }
  const files = publication.files.map(inOrder);
  const text = new TextEncoder().encode(`${JSON.stringify({ ...publication, files }, null, 2)}\n`);
  const written = await writeIfOther(join(folder.path, PUBLICATION), text);
  if (!written.ok) return written;
  for (const record of [RECORD, join(SOUND_FOLDER, SOUND_RECORD)]) await rm(join(folder.path, record), { force: true });
  return success(removed);
}

/** The properties of a file as the manifest has them: in one order, whether it was made or kept. */
const PROPERTIES: readonly (keyof PublishedFile)[] = [
  ...(["file", "kind", "drill", "rung", "mix", "player", "part", "score", "bytes", "sha256", "from"] as const),
  ...(["rate", "length", "downbeat", "loudness", "peak", "heldBack"] as const),
];

function inOrder(entry: PublishedFile): PublishedFile {
  return Object.fromEntries(
    PROPERTIES.filter((name) => entry[name] !== undefined).map((name) => [name, entry[name]]),
  ) as unknown as PublishedFile;
}

async function readPublication(path: string): Promise<Publication | undefined> {
  try {
    const read = checkPublication(JSON.parse(await readFile(join(path, PUBLICATION), "utf8")));
    return read.ok ? read.value : undefined;
  } catch {
    return undefined;
  }
}

async function isAsRecorded(folder: string, { file, bytes, sha256: sum }: PublishedFile): Promise<boolean> {
  // A manifest that was changed by hand leads nowhere out of its folder.
  if (file.split("/").some((part) => part === "" || part === "..")) return false;
  const path = join(folder, ...file.split("/"));
  if ((await stat(path).catch(() => undefined))?.size !== bytes) return false;
  return sha256(await readFile(path)) === sum;
}

async function foldersIn(path: string): Promise<readonly string[]> {
  const entries = await readdir(path, { recursive: true, withFileTypes: true });
  return [path, ...entries.filter((entry) => entry.isDirectory()).map((entry) => join(entry.parentPath, entry.name))];
}
