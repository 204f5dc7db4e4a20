import { Option } from "commander";
import type { Problem, Result } from "../../base/index.js";
import { makeFolder, sha256 } from "../../node/index.js";
import type { Act, AddCommand } from "../command.js";
import { openCourse } from "../input/courseFile.js";
import { loudness, namesAmong, wholeNumber } from "../options/optionValues.js";
import { DONE, type Outcome, printJson, refuse, type Setting, tellCautions, tellProblems } from "../outcome.js";
import { plain } from "../output/printableText.js";
import { version } from "../version.js";
import { fileSum, MANIFEST, type Manifest, type ManifestFile, writeManifest } from "./manifest.js";
import { FOLDERS } from "./names.js";
import { FILMS, FORMATS, type Format, PAPERS, planOf, type RenderOptions, type RenderPlan, SOUNDS } from "./plan.js";

/** Adds `render` to the program. */
export function renderCommand(command: AddCommand, act: Act): void {
  command("render", "files to hear and to read: of a rung, of a drill, or of a whole course")
    .argument("<FILE>")
    .argument("[DRILL]", "all drills when left out")
    .argument("[RUNG]", "all rungs when left out")
    .requiredOption("--out <DIR>", "the folder for the files; made when it is not there")
    .addOption(
      new Option("--as <FORMATS>", `with commas between: ${FORMATS.join(", ")}`)
        .argParser((text) => inOrder(namesAmong(FORMATS)(text)))
        .default(["midi"], "midi"),
    )
    .option("--mix <M...>", "these mixes; all when left out")
    .option("--for <INSTRUMENT...>", "who reads the student's part; the drill's players when left out")
    .option("--rungs <FROM-TO>", "a range of rungs, such as 1-10")
    .option("--bank <FILE>", "sound: instrument samples (SF2, SF3); built-in voices when left out")
    .option("--loop <PHRASES>", "sound: so many phrases to be played round and round, without a seam", wholeNumber(1))
    .option("--loudness <LUFS>", "sound: loudness of the whole, such as -14; -23 when left out", loudness)
    .addOption(new Option("--paper <SIZE>", "sheets: paper size").choices([...PAPERS]).default("a4"))
    .addOption(new Option("--folders <BY>", "a folder for each of these").choices([...FOLDERS]).default("drill"))
    .option("--upright", "films: 1080 x 1920 for a phone held upright, in place of 1920 x 1080")
    .option("--large-print", "sheets: letters of 16 points and more, and large notes")
    .option("--font <FILE>", "sheets and films: a font for letters that the built-in ones lack, such as Japanese")
    .action((file: string, drill: string | undefined, rung: string | undefined, options: RenderOptions) => {
      act((setting) => render(setting, [file, drill, rung], options));
    });
}

/** `leeway render FILE [DRILL [RUNG]]`: what the student hears and reads, as files in a folder with a manifest. */
async function render(
  setting: Setting,
  [file, drill, rung]: readonly [string, string | undefined, string | undefined],
  options: RenderOptions,
): Promise<Outcome> {
  const course = openCourse(file, setting.sources);
  if (!course.ok) return refuse(setting, course.problems);
  const plan = planOf(course.value, { file, drill, rung }, options);
  if (!plan.ok) return refuse(setting, plan.problems);
  const made = await makeAll(setting, plan.value, options);
  if (!made.ok) return refuse(setting, made.problems);
  const manifest: Manifest = {
    madeBy: { program: "leeway", version },
    course: { name: course.value.name, edition: course.value.edition, sha256: sha256(setting.sources.get(file) ?? "") },
    asked: asked({ drill, rung }, options),
    files: [...made.value].sort((a, b) => (a.file < b.file ? -1 : 1)),
  };
  const written = await writeManifest(options.out, manifest);
  if (!written.ok) return refuse(setting, written.problems);
  if (setting.json) printJson(setting, manifest);
  else {
    const { words } = setting;
    const count = made.value.length;
    const files = words.say("cli.files", { shown: String(count), many: count === 1 ? "one" : "more" });
    setting.terminal.print(`${plain(words.say("cli.rendered", { files, manifest: MANIFEST, folder: options.out }))}\n`);
    tellCautions(setting);
  }
  return DONE;
}

type Made =
  | { readonly ok: true; readonly value: readonly ManifestFile[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** The quick formats first, so that their problems are reported before hours of sound are rendered. */
async function makeAll(setting: Setting, plan: RenderPlan, options: RenderOptions): Promise<Made> {
  const folder = await makeFolder(options.out);
  if (!folder.ok) return folder;
  const files: ManifestFile[] = [];
  for (const { formats, load } of MAKERS) {
    if (!formats.some((format) => options.as.includes(format))) continue;
    const made = await (await load())(setting, plan, options);
    if (!made.ok) return made;
    tellProblems(setting, made.advice);
    files.push(...made.value);
  }
  return { ok: true, value: files };
}

type Making = (setting: Setting, plan: RenderPlan, options: RenderOptions) => Promise<Result<readonly ManifestFile[]>>;

/** The functions that make files, by format. A function is loaded when one of its formats is wanted. */
const MAKERS: readonly { readonly formats: readonly Format[]; readonly load: () => Promise<Making> }[] = [
  { formats: ["midi", "musicxml", "chart"], load: async () => (await import("./notes.js")).notesFiles },
  { formats: ["pdf", "svg"], load: async () => (await import("./sheets.js")).sheetFiles },
  { formats: SOUNDS, load: async () => (await import("./sound.js")).soundFiles },
  { formats: FILMS, load: async () => (await import("./filmFiles.js")).filmFiles },
];

/** The choices in a fixed order, so that the same command writes the same manifest. */
function asked(
  names: { readonly drill: string | undefined; readonly rung: string | undefined },
  { as, mix, for: players, rungs, bank, loop, loudness, paper, largePrint, font, upright, folders }: RenderOptions,
): Manifest["asked"] {
  const given = (name: string, value: unknown): Record<string, unknown> =>
    value === undefined ? {} : { [name]: value };
  return {
    ...given("drill", names.drill),
    ...given("rung", names.rung),
    ...given("rungs", rungs),
    ...given("mixes", mix),
    ...given("players", players),
    ...given("paper", as.some((format) => format === "pdf" || format === "svg") ? paper : undefined),
    ...given("loudness", loudness),
    ...given("largePrint", largePrint),
    ...given("font", font),
    ...given("upright", upright),
    ...given("folders", folders === "drill" ? undefined : folders),
    ...given("loop", loop),
    ...given("bank", bank === undefined ? undefined : fileSum(bank)),
    formats: as,
  };
}

/** Formats in a fixed order, so that the same choice writes the same manifest. */
function inOrder(chosen: readonly Format[]): readonly Format[] {
  return FORMATS.filter((format) => chosen.includes(format));
}
