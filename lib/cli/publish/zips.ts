import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { type Problem, problemsOf, type Result, success } from "../../base/index.js";
import { MOST_ZIPPED, sha256, type ZipEntry, zipped } from "../../node/index.js";
import { indexPage } from "../../page/index.js";
import type { PublishedFile } from "../../schema/index.js";
import type { Words } from "../../words/index.js";
import { fileCodes } from "../codes.js";
import { fileNamesOf } from "../fileNames.js";
import { CONCERT_PITCH } from "../render/names.js";
import { sayProblem } from "../say.js";
import { keepOrMake, type PublishFolder, stopped } from "./folder.js";
import type { PublishPlan } from "./plan.js";

const problem = problemsOf(fileCodes);

/** Kinds of files that are compressed already. */
export const COMPRESSED: RegExp = /\.(?:mp3|m4a|opus|ogg|flac|pdf)$/;
/** Bytes that a file needs in a ZIP file beside its content and twice its name: 30 and 46 and, after its content, 16; and 22 at the end (APPNOTE, sections 4.3.7 to 4.3.16). */
const HEADERS = 92;

/**
 * For each instrument one ZIP file: its sheets, what sounds in the first format, the practice page as one file, the overview, and an index page of these. Films are too large for that.
 * Advice: PUBLICATION_ZIP_TOO_LARGE.
 */
export async function publishZips(
  folder: PublishFolder,
  plan: PublishPlan,
  {
    files,
    words,
    signal,
  }: { readonly files: readonly PublishedFile[]; readonly words: Words; readonly signal: AbortSignal },
): Promise<Result<readonly PublishedFile[]>> {
  const zips: PublishedFile[] = [];
  const advice: Problem[] = [];
  const players = [...new Set(files.flatMap(({ kind, player }) => (kind === "sheet" && player ? [player] : [])))];
  for (const player of players.length > 0 ? players : [undefined]) {
    if (signal.aborted) return stopped(folder);
    const own = filesFor(player, files, plan.formats[0]!);
    if (!fitsInZip(own)) {
      advice.push(tooLarge(player ?? words.say("page.concert-pitch")));
      continue;
    }
    const called = player === undefined ? CONCERT_PITCH : plan.names.player(player);
    const entries = entriesOf(folder, plan, { called, own, words });
    const from = sha256(JSON.stringify(["zip", entries.map(({ name, sum }) => [name, sum])]));
    const made = await keepOrMake(folder, from, async () =>
      success([{ file: `zips/${called}.zip`, kind: "zip", ...(player && { player }), content: zipped(entries) }]),
    );
    if (!made.ok) return made;
    zips.push(...made.value);
  }
  return success(zips, advice);
}

/** What an instrument gets of the files of a folder; of drills without sheets for it, those at concert pitch. */
function filesFor(
  player: string | undefined,
  files: readonly PublishedFile[],
  format: string,
): readonly PublishedFile[] {
  return files.filter(({ file, kind, ...of }) => {
    if (kind === "sound") return file.endsWith(`.${format}`);
    if (kind === "film") return false;
    if (kind !== "sheet") return !file.startsWith("practice/");
    return of.part === undefined && of.score === undefined && (of.player === undefined || of.player === player);
  });
}

/** Whether files fit into a ZIP file, however little they can be compressed. */
export function fitsInZip(files: readonly Pick<PublishedFile, "file" | "bytes">[]): boolean {
  // A name is written twice, in UTF-8, below the name of the folder.
  const needed = files.reduce((sum, { file, bytes }) => sum + bytes + HEADERS + 2 * (3 * file.length + 200), 0);
  return needed <= MOST_ZIPPED;
}

function entriesOf(
  folder: PublishFolder,
  plan: PublishPlan,
  { called, own, words }: { called: string; own: readonly PublishedFile[]; words: Words },
): readonly (ZipEntry & { readonly sum: string })[] {
  const { course, drills } = plan;
  const index = new TextEncoder().encode(indexPage({ course, drills, files: own, words }));
  const within = (file: string): string => `${fileNamesOf([course.name])(course.name)}-${called}/${file}`;
  return [
    { name: within("index.html"), isCompressed: false, sum: sha256(index), read: async () => index },
    ...own.map(({ file, sha256: sum }) => ({
      name: within(file),
      isCompressed: COMPRESSED.test(file),
      sum,
      read: async () => readFile(join(folder.path, ...file.split("/"))),
    })),
  ];
}

function tooLarge(player: string): Problem {
  const message = sayProblem("cli-problem.publication-zip-too-large", { player });
  const remedy = sayProblem("cli-problem.publication-zip-too-large-remedy");
  return problem("PUBLICATION_ZIP_TOO_LARGE", message, {}, remedy);
}
