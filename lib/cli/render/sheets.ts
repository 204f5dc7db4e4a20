import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { failure, type Problem, placedUnder, problemsOf, type Result, success } from "../../base/index.js";
import { makeFolder } from "../../node/index.js";
import { type Engraver, renderSheet, type SheetFonts, verovioEngraver } from "../../render/sheet/index.js";
import { fileCodes } from "../codes.js";
import type { Setting } from "../outcome.js";
import { sayProblem } from "../say.js";
import { type ManifestFile, writeRendered } from "./manifest.js";
import type { Format, PlannedDrill, Player, RenderOptions, RenderPlan } from "./plan.js";

const problem = problemsOf(fileCodes);
/** Where the typefaces of the package are. */
const FONTS = new URL("../../render/sheet/fonts/", import.meta.url);

/** The printable sheets of a plan: for each drill one for each player, or one at concert pitch when no player is named. */
export async function sheetFiles(
  { words }: Setting,
  plan: RenderPlan,
  options: RenderOptions,
): Promise<Result<readonly ManifestFile[]>> {
  const formats = (["pdf", "svg"] as const).filter((format) => options.as.includes(format));
  if (formats.length === 0) return success([]);
  const engraver = await openEngraver();
  if (!engraver.ok) return engraver;
  const files: ManifestFile[] = [];
  const advice: Problem[] = [];
  const setting = {
    engraver: engraver.value,
    fonts: sheetFonts(),
    paper: options.paper,
    course: plan.course.title,
    words,
  };
  for (const { drill, player } of plan.drills.flatMap(readers)) {
    const name = `${plan.names.drill(drill.name)}/sheet - ${player === undefined ? "concert pitch" : plan.names.player(player.instrument.name)}`;
    const sheet = await renderSheet(drill, player, setting);
    const placed = (found: readonly Problem[]): readonly Problem[] => found.map((each) => placedUnder(each, "", name));
    if (!sheet.ok) return { ok: false, problems: placed(sheet.problems) };
    advice.push(...placed(sheet.advice));
    const folder = await makeFolder(dirname(join(options.out, name)));
    if (!folder.ok) return folder;
    for (const { suffix, format, bytes } of pagesOf(sheet.value, formats)) {
      const about = { file: `${name}${suffix}`, format, drill: drill.name };
      const whose = player === undefined ? about : { ...about, player: player.instrument.name };
      const written = await writeRendered(options.out, bytes, whose);
      if (!written.ok) return written;
      files.push(written.value);
    }
  }
  return success(files, advice);
}

function readers({
  drill,
  players,
}: PlannedDrill): readonly { drill: PlannedDrill["drill"]; player: Player | undefined }[] {
  return players.length === 0 ? [{ drill, player: undefined }] : players.map((player) => ({ drill, player }));
}

function pagesOf(
  { pdf, svg }: { readonly pdf: Uint8Array; readonly svg: readonly string[] },
  formats: readonly Format[],
): readonly { readonly suffix: string; readonly format: Format; readonly bytes: Uint8Array }[] {
  const pages = svg.map((page, i) => {
    const suffix = svg.length > 1 ? ` ${i + 1}.svg` : ".svg";
    return { suffix, format: "svg" as const, bytes: new TextEncoder().encode(page) };
  });
  const whole = { suffix: ".pdf", format: "pdf" as const, bytes: pdf };
  return [...(formats.includes("pdf") ? [whole] : []), ...(formats.includes("svg") ? pages : [])];
}

/** The typefaces of the package. */
export function sheetFonts(): SheetFonts {
  const face = (name: string): Uint8Array => new Uint8Array(readFileSync(new URL(`leeway-text-${name}.otf`, FONTS)));
  return { regular: face("regular"), italic: face("italic"), bold: face("bold") };
}

/** Loads the notation engraver, an optional package under another licence, which is not installed with this package. */
export async function openEngraver(): Promise<Result<Engraver>> {
  try {
    const [{ default: createModule }, { VerovioToolkit }] = await Promise.all([
      import("verovio/wasm"),
      import("verovio/esm"),
    ]);
    return success(verovioEngraver(new VerovioToolkit(await createModule())));
  } catch (error) {
    const code = error !== null && typeof error === "object" && "code" in error ? error.code : undefined;
    if (code !== "ERR_MODULE_NOT_FOUND") throw error;
    const message = sayProblem("cli-problem.engraver-not-installed");
    const remedy = sayProblem("cli-problem.engraver-not-installed-remedy");
    return failure(problem("ENGRAVER_NOT_INSTALLED", message, {}, remedy));
  }
}
