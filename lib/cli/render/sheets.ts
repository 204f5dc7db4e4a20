import { readFileSync } from "node:fs";
import { failure, type Problem, placedUnder, problemsOf, type Result, success } from "../../base/index.js";
import { isPreparation, rungNumber, settingsText } from "../../drill/index.js";
import { isHeardOnly } from "../../pattern/index.js";
import {
  type Engraver,
  renderOverview,
  renderSheets,
  type Sheet,
  type SheetFonts,
  type SheetOptions,
  type SheetReader,
  verovioEngraver,
} from "../../render/sheet/index.js";
import type { Words } from "../../words/index.js";
import { fileCodes } from "../codes.js";
import { readerBeside } from "../input/courseFile.js";
import { readBytes } from "../input/inputFile.js";
import type { Setting } from "../outcome.js";
import { sayProblem } from "../say.js";
import { type ManifestFile, writeRendered } from "./manifest.js";
import { CONCERT_PITCH, FULL_SCORE, OVERVIEW } from "./names.js";
import type { Format, PlannedDrill, RenderOptions, RenderPlan } from "./plan.js";

const problem = problemsOf(fileCodes);
/** Where the typefaces of the package are. */
const FONTS = new URL("../../render/sheet/fonts/", import.meta.url);

/**
 * The printable sheets of a plan. Of each drill: one for each player, or one at concert pitch when no player is named; and where nobody was named by
 * `--for`, one for each part that accompanies, and a score. Of a whole course the overview, too.
 */
export async function sheetFiles(
  { words }: Setting,
  plan: RenderPlan,
  options: RenderOptions,
): Promise<Result<readonly ManifestFile[]>> {
  const formats = (["pdf", "svg"] as const).filter((format) => options.as.includes(format));
  if (formats.length === 0) return success([]);
  const press = openPress(plan, options, words);
  if (!press.ok) return press;
  const engraver = await openEngraver();
  if (!engraver.ok) return engraver;
  const files: ManifestFile[] = [];
  const advice: Problem[] = [];
  const overview = plan.isWhole ? await courseOverview(plan, press.value, plan.course.imprint?.address) : undefined;
  if (overview?.ok === false) return overview;
  if (overview !== undefined) {
    advice.push(...overview.advice);
    for (const { suffix, format, bytes } of pagesOf(overview.value, formats)) {
      const written = await writeRendered(options.out, bytes, { file: `${OVERVIEW}${suffix}`, format });
      if (!written.ok) return written;
      files.push(written.value);
    }
  }
  for (const planned of plan.drills) {
    const sheets = await drillSheets(plan, planned, {
      ...options,
      press: { ...press.value, engraver: engraver.value },
    });
    if (!sheets.ok) return sheets;
    advice.push(...sheets.advice);
    for (const { called, of, sheet } of sheets.value) {
      const drill = planned.drill.name;
      const player = of.player === undefined ? {} : { player: of.player };
      for (const { suffix, format, bytes } of pagesOf(sheet, formats)) {
        const file = plan.names.place(`${called}${suffix}`, { drill, ...player });
        const written = await writeRendered(options.out, bytes, { file, format, drill, ...player });
        if (!written.ok) return written;
        files.push(written.value);
      }
    }
  }
  return success(files, advice);
}

/** What all sheets of a course have in common, but for the engraver. */
export type Press = Omit<SheetOptions, "address" | "engraver">;

/** Opens the typefaces and the logo of a course. Problem: LOGO_NOT_FOUND. */
export function openPress(
  plan: RenderPlan,
  { paper, largePrint, font }: Pick<RenderOptions, "paper" | "largePrint" | "font">,
  words: Words,
): Result<Press> {
  const { title: course, imprint, instruments } = plan.course;
  const logo = imprint?.logo === undefined ? undefined : logoOf(imprint.logo, plan.file);
  if (logo?.ok === false) return logo;
  const size = largePrint === true ? "large" : "usual";
  const fonts = fontsWith(font);
  if (!fonts.ok) return fonts;
  return success({ fonts: fonts.value, paper, size, course, imprint, instruments, words, logo: logo?.value });
}

/** The overview of a course: what it and its drills are about, their rungs, and what must be shown to go on. `address` has no drill or rung in it. */
export async function courseOverview(
  { course: { title, about }, drills }: RenderPlan,
  { course: _, instruments: __, ...press }: Press,
  address: string | undefined,
): Promise<Result<Sheet>> {
  const overview = { title, drills: drills.map(({ drill }) => drill), ...(about && { about }) };
  return renderOverview(overview, { ...press, ...(address && !address.includes("{") && { address }) });
}

/** A sheet of a drill: the name of its file without ending, and whom it is for; for nobody in particular it is at concert pitch. */
export interface DrillSheet {
  readonly called: string;
  readonly of: { readonly player?: string; readonly part?: string; readonly score?: true };
  readonly sheet: Sheet;
}

/** The sheets of one drill. `address` has {drill} and {rung} in it; that of the course when left out. Problems: those of `renderSheets`. */
export async function drillSheets(
  plan: RenderPlan,
  planned: PlannedDrill,
  {
    press,
    for: named,
    address = plan.course.imprint?.address,
  }: Pick<RenderOptions, "for"> & {
    readonly press: Press & { readonly engraver: Engraver };
    readonly address?: string | undefined;
  },
): Promise<Result<readonly DrillSheet[]>> {
  const { name } = planned.drill;
  const readers = readersOf(planned, named);
  const placed = (found: readonly Problem[]): readonly Problem[] => found.map((each) => placedUnder(each, "", name));
  const sheets = await renderSheets(
    planned.drill,
    readers.map(({ reader }) => reader),
    { ...press, address: addressOf(planned, address) },
  );
  if (!sheets.ok) return { ok: false, problems: placed(sheets.problems) };
  const made = sheets.value.map((sheet, i): DrillSheet => {
    const { reader, called } = readers[i]!;
    return { called: `${plan.names.drill(name)}-sheet_${called(plan.names)}`, of: whose(reader), sheet };
  });
  return success(made, placed(sheets.advice));
}

function whose(reader: SheetReader): DrillSheet["of"] {
  if (reader === undefined) return {};
  if (reader === "score") return { score: true };
  return "part" in reader ? { part: reader.part } : { player: reader.instrument.name };
}

interface NamedReader {
  readonly reader: SheetReader;
  /** What stands for the reader in the name of a file. */
  readonly called: (names: RenderPlan["names"]) => string;
}

/** Who reads a drill: its players, and where nobody was named those who accompany. */
export function readersOf({ drill, players }: PlannedDrill, named: RenderOptions["for"]): readonly NamedReader[] {
  const students: readonly NamedReader[] =
    players.length === 0
      ? [{ reader: undefined, called: () => CONCERT_PITCH }]
      : players.map((reader) => ({ reader, called: (names) => names.player(reader.instrument.name) }));
  if (named !== undefined) return students;
  const band = drill.pattern.parts.filter((part) => part.name !== drill.student && !isHeardOnly(part));
  return [
    ...students,
    ...band.map(({ name: part }) => ({ reader: { part }, called: (names: RenderPlan["names"]) => names.part(part) })),
    ...(band.length > 0 ? [{ reader: "score" as const, called: () => FULL_SCORE }] : []),
  ];
}

/** The address of a drill, or of the rung where one alone was asked for. */
function addressOf({ drill, rungs }: PlannedDrill, address: string | undefined): string | undefined {
  const [only] = rungs.length === 1 ? rungs : [];
  const rung = only === undefined ? "1" : isPreparation(only) ? settingsText(only.settings) : `${rungNumber(only)}`;
  return address?.replaceAll("{drill}", encodeURIComponent(drill.name)).replaceAll("{rung}", encodeURIComponent(rung));
}

function logoOf(path: string, file: string): Result<Uint8Array> {
  const bytes = readerBeside(file)(path);
  if (bytes !== undefined) return success(bytes);
  const message = sayProblem("cli-problem.logo-not-found", { found: JSON.stringify(path) });
  const remedy = sayProblem("cli-problem.logo-not-found-remedy");
  return failure(problem("LOGO_NOT_FOUND", message, { file, pointer: "/logo" }, remedy));
}

function pagesOf(
  { pdf, svg }: Sheet,
  formats: readonly Format[],
): readonly { readonly suffix: string; readonly format: Format; readonly bytes: Uint8Array }[] {
  const pages = svg.map((page, i) => {
    const suffix = svg.length > 1 ? `_${i + 1}.svg` : ".svg";
    return { suffix, format: "svg" as const, bytes: new TextEncoder().encode(page) };
  });
  const whole = { suffix: ".pdf", format: "pdf" as const, bytes: pdf };
  return [...(formats.includes("pdf") ? [whole] : []), ...(formats.includes("svg") ? pages : [])];
}

/** Most bytes of a font: our choice, twice those of the largest for Chinese, Japanese and Korean. */
const MOST_FONT = 40_000_000;

/** The typefaces of the package, with another font for letters that they lack, where there is one. Problems: those of reading it. */
export function fontsWith(font: string | undefined): Result<SheetFonts> {
  const other = font === undefined ? undefined : readBytes(font, MOST_FONT);
  if (other?.ok === false) return other;
  return success({ ...sheetFonts(), ...(other && { other: other.value }) });
}

/** The typefaces of the package. */
export function sheetFonts(): SheetFonts {
  const face = (name: string): Uint8Array => new Uint8Array(readFileSync(new URL(`leeway-text-${name}.otf`, FONTS)));
  return { regular: face("regular"), italic: face("italic"), bold: face("bold") };
}

/** The engraver of this process, for as long as somebody has it: one takes half a second to open, and knows what it has drawn. */
let latest: WeakRef<Engraver> | undefined;

/** Loads the notation engraver, an optional package under another licence, which is not installed with this package. */
export async function openEngraver(): Promise<Result<Engraver>> {
  const known = latest?.deref();
  if (known !== undefined) return success(known);
  try {
    const [{ default: createModule }, { VerovioToolkit }] = await Promise.all([
      import("verovio/wasm"),
      import("verovio/esm"),
    ]);
    const engraver = verovioEngraver(new VerovioToolkit(await createModule()));
    latest = new WeakRef(engraver);
    return success(engraver);
  } catch (error) {
    const code = error !== null && typeof error === "object" && "code" in error ? error.code : undefined;
    if (code !== "ERR_MODULE_NOT_FOUND") throw error;
    const message = sayProblem("cli-problem.engraver-not-installed");
    const remedy = sayProblem("cli-problem.engraver-not-installed-remedy");
    return failure(problem("ENGRAVER_NOT_INSTALLED", message, {}, remedy));
  }
}
