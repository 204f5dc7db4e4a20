import { Option } from "commander";
import { type Failure, type Problem, type Result, success } from "../../base/index.js";
import { sha256 } from "../../node/index.js";
import { indexPage } from "../../page/index.js";
import type { Publication, PublishedFile } from "../../schema/index.js";
import { cautionsIn } from "../../words/index.js";
import type { Act, AddCommand } from "../command.js";
import { openCourse } from "../input/courseFile.js";
import { loudness, namesAmong } from "../options/optionValues.js";
import { DONE, misuse, type Outcome, printJson, refuse, type Setting, tellCautions, tellProblems } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { fileSum } from "../render/manifest.js";
import { FILMS, PAPERS, SOUNDS } from "../render/plan.js";
import { openEngraver } from "../render/sheets.js";
import { progressLine } from "../render/sound.js";
import { version } from "../version.js";
import { insteadOf } from "./dryRun.js";
import { publishFilms } from "./films.js";
import { closePublishFolder, openPublishFolder, type PublishFolder, put } from "./folder.js";
import { packCommand, unpackCommand } from "./pack.js";
import { publishPaper } from "./paper.js";
import { type PublishOptions, type PublishPlan, publishPlan } from "./plan.js";
import { publishPractice } from "./practice.js";
import { publishSound } from "./sound.js";
import { publishZips } from "./zips.js";

export { packCommand, unpackCommand };

/** Kinds of files, in the order in which a dry run tells them. */
const KINDS = [
  "sound",
  "film",
  "sheet",
  "practice",
  "zip",
  "silent-zip",
  "sound-zip",
  "overview",
  "strip",
  "index",
] as const;

/** Adds `publish` to the program. */
export function publishCommand(command: AddCommand, act: Act): void {
  command("publish", "a folder with a whole course, for any web host: pages, sheets, sound")
    .argument("<COURSE>")
    .requiredOption("--out <DIR>", "the folder; made when it is not there, brought up to date when it is")
    .addOption(
      new Option("--as <FORMATS>", `sound, with commas between: ${SOUNDS.join(", ")}`)
        .argParser(namesAmong(SOUNDS))
        .default(["mp3"], "mp3"),
    )
    .addOption(
      new Option(
        "--films <FORMATS>",
        `films of every version for every player: ${FILMS.join(", ")}; none when left out`,
      ).argParser(namesAmong(FILMS)),
    )
    .option("--upright", "films: 1080 x 1920 for a phone held upright, in place of 1920 x 1080")
    .option("--address <URL>", "where the folder will be served: codes on paper lead there")
    .option("--mix <M...>", "these mixes; all when left out")
    .option("--for <INSTRUMENT...>", "who reads the student's part; the drills' players when left out")
    .option("--rungs <FROM-TO>", "a range of rungs, such as 1-10")
    .option("--bank <FILE>", "sound: instrument samples (SF2, SF3); built-in voices when left out")
    .option("--loudness <LUFS>", "sound: loudness of the whole, such as -14; -23 when left out", loudness)
    .addOption(new Option("--paper <SIZE>", "sheets: paper size").choices([...PAPERS]).default("a4"))
    .option("--large-print", "sheets: letters of 16 points and more, and large notes")
    .option("--font <FILE>", "sheets and films: a font for letters that the built-in ones lack, such as Japanese")
    .option("--dry-run", "make everything, say how many files and bytes there are, and leave the folder as it is")
    .action((file: string, options: PublishOptions) => act((setting) => publish(setting, file, options)));
}

/** `leeway publish COURSE --out DIR`: everything a course needs in one folder, made or brought up to date. */
async function publish(setting: Setting, file: string, options: PublishOptions): Promise<Outcome> {
  const { words } = setting;
  const address = options.address === undefined ? undefined : folderAddress(options.address);
  if (address === false) {
    const asked = { example: "https://quay.example/first-course/", found: options.address! };
    return misuse(setting, words.say("cli.misuse.web-address", asked));
  }
  const course = openCourse(file, setting.sources);
  if (!course.ok) return refuse(setting, course.problems);
  const sum = sha256(setting.sources.get(file) ?? "");
  const plan = publishPlan(course.value, { file, sum, address }, options);
  if (!plan.ok) return refuse(setting, plan.problems);
  const made = options.dryRun
    ? await insteadOf(options.out, (folder) => publishInto(setting, folder, plan.value))
    : await publishInto(setting, options.out, plan.value);
  if (!made.ok) return refuse(setting, made.problems);
  tellProblems(setting, made.advice);
  tellPublished(setting, made.value, options);
  tellCautions(setting);
  return DONE;
}

/** What is in a folder, and what became of the files that were there. */
interface Published {
  readonly files: readonly PublishedFile[];
  readonly made: number;
  readonly kept: number;
  readonly removed: number;
}

async function publishInto(setting: Setting, path: string, plan: PublishPlan): Promise<Result<Published>> {
  const folder = await openPublishFolder(path);
  if (!folder.ok) return folder;
  const made = await makeAll(setting, folder.value, plan);
  if (!made.ok) return made;
  const publication = publicationOf(setting, plan, made.value);
  const closed = await closePublishFolder(folder.value, publication);
  if (!closed.ok) return closed;
  return success({ files: made.value, ...folder.value.count, removed: closed.value }, made.advice);
}

function tellPublished(
  setting: Setting,
  { files, ...counted }: Published,
  { out, dryRun }: Pick<PublishOptions, "out" | "dryRun">,
): void {
  const { words, terminal } = setting;
  const bytes = bytesOf(files);
  if (setting.json) {
    const kinds = KINDS.map((kind) => ({ kind, of: files.filter((each) => each.kind === kind) }))
      .filter(({ of }) => of.length > 0)
      .map(({ kind, of }) => ({ kind, files: of.length, bytes: bytesOf(of) }));
    const run = dryRun ? { dryRun, kinds } : {};
    printJson(setting, { out, ...run, files: files.length, bytes, ...counted });
    return;
  }
  if (dryRun)
    for (const kind of KINDS) {
      const of = files.filter((each) => each.kind === kind);
      const said = { kind, files: of.length, megabytes: inMegabytes(bytesOf(of)) };
      if (of.length > 0) terminal.print(`  ${words.say("cli.published-kind", said)}\n`);
    }
  const many = files.length === 1 ? ("one" as const) : ("more" as const);
  const counting = words.say("cli.files", { shown: String(files.length), many });
  const said = { files: counting, folder: out, megabytes: inMegabytes(bytes), ...counted };
  terminal.print(`${plain(words.say(dryRun ? "cli.would-publish" : "cli.published", said))}\n`);
}

function bytesOf(files: readonly PublishedFile[]): number {
  return files.reduce((sum, each) => sum + each.bytes, 0);
}

/** Sound on every core, and meanwhile what is printed and the practice page; then films, and what is made of all these. */
async function makeAll(
  setting: Setting,
  folder: PublishFolder,
  plan: PublishPlan,
): Promise<Result<readonly PublishedFile[]>> {
  const { words, terminal } = setting;
  const interrupt = new AbortController();
  const stop = (): void => interrupt.abort();
  process.once("SIGINT", stop);
  const { signal } = interrupt;
  /** The first that fails ends the others: nobody waits an hour for sound to learn that a sheet cannot be made. */
  const orStop = async <T>(making: Promise<Result<T>>): Promise<Result<T>> => {
    const made = await making;
    if (!made.ok) stop();
    return made;
  };
  let opened: ReturnType<typeof openEngraver> | undefined;
  const engraver = (): ReturnType<typeof openEngraver> => {
    opened ??= openEngraver();
    return opened;
  };
  try {
    const onProgress = progressLine(setting, plan.course.title);
    const [sound, paper] = await Promise.all([
      orStop(publishSound(folder, plan, { words, signal, onProgress })),
      orStop(inTurn([publishPaper, publishPractice], (each) => each(folder, plan, { words, signal, engraver }))),
    ]);
    if (terminal.colours.tell) terminal.tell("\r\u001b[K");
    // What failed of itself tells more than that the rest was stopped.
    if (!paper.ok) return sound.ok || !isStopped(paper) ? paper : sound;
    if (!sound.ok) return sound;
    const filming = progressLine(setting, plan.films.join(", "));
    const films = await publishFilms(folder, plan, { words, signal, onProgress: filming });
    if (terminal.colours.tell) terminal.tell("\r\u001b[K");
    if (!films.ok) return films;
    const files = [...paper.value, ...sound.value, ...films.value];
    const zips = await publishZips(folder, plan, { files, words, signal });
    if (!zips.ok) return zips;
    const { course, drills, address } = plan;
    const index = indexPage({ course, drills, files: [...files, ...zips.value], words, address });
    const made = await put(folder, { file: "index.html", kind: "index", content: new TextEncoder().encode(index) });
    if (!made.ok) return made;
    const all = [...files, ...zips.value, made.value].sort((a, b) => (a.file < b.file ? -1 : 1));
    return { ok: true, value: all, advice: [...paper.advice, ...sound.advice, ...films.advice, ...zips.advice] };
  } finally {
    process.removeListener("SIGINT", stop);
  }
}

/** Whether something was stopped, and did not fail of itself. */
function isStopped({ problems }: Failure): boolean {
  return problems.some(({ code }) => code === "PUBLISHING_STOPPED");
}

async function inTurn<Step>(
  steps: readonly Step[],
  run: (step: Step) => Promise<Result<readonly PublishedFile[]>>,
): Promise<Result<readonly PublishedFile[]>> {
  const files: PublishedFile[] = [];
  const advice: Problem[] = [];
  for (const step of steps) {
    const made = await run(step);
    if (!made.ok) return made;
    files.push(...made.value);
    advice.push(...made.advice);
  }
  return { ok: true, value: files, advice };
}

function publicationOf({ words }: Setting, plan: PublishPlan, files: readonly PublishedFile[]): Publication {
  const { course, options, formats, films } = plan;
  const [bank, font] = [options.bank, options.font].map((path) => (path === undefined ? undefined : fileSum(path)));
  return {
    version: 1,
    madeBy: { program: "leeway", version },
    course: {
      name: course.name,
      edition: course.edition,
      title: course.title,
      language: words.language,
      sha256: plan.sum,
    },
    ...(plan.address === undefined ? {} : { address: plan.address }),
    asked: {
      formats,
      ...(films.length > 0 && { films }),
      ...(films.length > 0 && options.upright && { upright: true as const }),
      ...(options.mix && { mixes: options.mix }),
      ...(options.for && { players: options.for }),
      ...(options.rungs === undefined ? {} : { rungs: options.rungs }),
      paper: options.paper,
      ...(options.largePrint && { largePrint: true as const }),
      ...(options.loudness === undefined ? {} : { loudness: options.loudness }),
      ...(bank === undefined ? {} : { bank }),
      ...(font === undefined ? {} : { font }),
    },
    cautions: cautionsIn(words),
    files,
  };
}

function inMegabytes(bytes: number): string {
  return (bytes / 1e6).toFixed(1);
}

/** An address of a folder, with a slash at its end; `false` for what is none. */
function folderAddress(text: string): string | false {
  try {
    const { protocol, origin, pathname, search, hash } = new URL(text);
    if (!/^https?:$/.test(protocol) || search !== "" || hash !== "") return false;
    return `${origin}${pathname.replace(/\/?$/, "/")}`;
  } catch {
    return false;
  }
}
