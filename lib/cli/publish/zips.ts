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

/** The practice page as one file, with the recordings of the course in it. */
const SINGLE_PAGE = "practice.html";

/** Name of the file that holds what sounds, where there are several instruments. */
const SOUND = "sound";

/**
 * For each instrument one ZIP file: its sheets, what sounds in the first format, the practice page as one file, the overview, and an index page of these. What sounds is the same for all, and so is the
 * practice page where it has recordings in it: of several instruments they are in a file of its own, which goes into the same folder. Films are too large for that. Advice: PUBLICATION_ZIP_TOO_LARGE.
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
  const players = [...new Set(files.flatMap(({ kind, player }) => (kind === "sheet" && player ? [player] : [])))];
  const isShared = players.length > 1;
  const hasRecordings = Object.values(plan.course.patterns).some(({ parts }) => parts.some(({ recorded }) => recorded));
  const sounds = ({ kind, file }: PublishedFile): boolean =>
    kind === "sound" || (hasRecordings && file === SINGLE_PAGE);
  const forPlayers = (players.length > 0 ? players : [undefined]).map((player): PlannedZip => {
    const own = filesFor(player, files, plan.formats[0]!);
    const called = player === undefined ? CONCERT_PITCH : plan.names.player(player);
    const index = new TextEncoder().encode(indexPage({ ...plan, files: own, words }));
    const held = isShared ? own.filter((each) => !sounds(each)) : own;
    const kind = isShared ? "silent-zip" : "zip";
    return { called, about: { kind, ...(player && { player }) }, name: player, held, index };
  });
  const sounding = files.filter(
    (each) => sounds(each) && (each.kind !== "sound" || each.file.endsWith(`.${plan.formats[0]!}`)),
  );
  const shared: PlannedZip = {
    called: SOUND,
    about: { kind: "sound-zip" },
    name: words.say("publication.sound"),
    held: sounding,
    index: undefined,
  };
  const zips: PublishedFile[] = [];
  const advice: Problem[] = [];
  for (const zip of isShared ? [...forPlayers, shared] : forPlayers) {
    if (signal.aborted) return stopped(folder);
    if (!fitsInZip(zip.held)) {
      advice.push(tooLarge(zip.name ?? words.say("page.concert-pitch")));
      continue;
    }
    const entries = entriesOf(folder, plan, zip);
    const from = sha256(JSON.stringify(["zip", entries.map(({ name, sum }) => [name, sum])]));
    const made = await keepOrMake(folder, from, async () =>
      success([{ file: `zips/${zip.called}.zip`, ...zip.about, content: zipped(entries) }]),
    );
    if (!made.ok) return made;
    zips.push(...made.value);
  }
  return success(zips, advice);
}

/** A ZIP file to be made. */
interface PlannedZip {
  /** Its name without its ending. */
  readonly called: string;
  readonly about: Pick<PublishedFile, "kind" | "player">;
  /** What it is to people. */
  readonly name: string | undefined;
  readonly held: readonly PublishedFile[];
  readonly index: Uint8Array | undefined;
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
  { course }: PublishPlan,
  { held, index }: Pick<PlannedZip, "held" | "index">,
): readonly (ZipEntry & { readonly sum: string })[] {
  // One name for all, so that what sounds comes to lie beside the sheets.
  const within = (file: string): string => `${fileNamesOf([course.name])(course.name)}/${file}`;
  const indexed =
    index === undefined
      ? []
      : [{ name: within("index.html"), isCompressed: false, sum: sha256(index), read: async () => index }];
  return [
    ...indexed,
    ...held.map(({ file, sha256: sum }) => ({
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
