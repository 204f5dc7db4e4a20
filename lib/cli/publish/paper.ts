import { type Problem, type Result, success } from "../../base/index.js";
import { scoreOf } from "../../drill/index.js";
import { sha256 } from "../../node/index.js";
import { NARROW_STRIP } from "../../page/index.js";
import { stripChart } from "../../render/index.js";
import type { Engraver } from "../../render/sheet/index.js";
import type { PublishedFile } from "../../schema/index.js";
import type { Words } from "../../words/index.js";
import { OVERVIEW } from "../render/names.js";
import type { PlannedDrill } from "../render/plan.js";
import { courseOverview, drillSheets, openPress, type Press } from "../render/sheets.js";
import { version } from "../version.js";
import { keepOrMake, type NewFile, type PublishFolder, put, stopped, type WholeFile } from "./folder.js";
import { PUBLISH_EDITION, type Publishing, type PublishPlan } from "./plan.js";

/** Widths of a strip, px: those of the charts on a report. */
const [WIDE, NARROW] = [720, 360];

/** What is printed and drawn: sheets for each instrument, the overview, and when the band plays on the first rung of each drill. */
export async function publishPaper(
  folder: PublishFolder,
  plan: PublishPlan,
  { words, signal, engraver }: Publishing,
): Promise<Result<readonly PublishedFile[]>> {
  const press = openPress(plan, plan.options, words);
  if (!press.ok) return press;
  const files: PublishedFile[] = [];
  const advice: Problem[] = [];
  const overview = await overviewOf(plan, press.value);
  if (!overview.ok) return overview;
  for (const file of [overview.value, ...plan.drills.flatMap((planned) => stripsOf(plan, planned, words))]) {
    const made = await put(folder, file);
    if (!made.ok) return made;
    files.push(made.value);
  }
  for (const planned of plan.drills) {
    if (signal.aborted) return stopped(folder);
    const from = sheetsFrom(plan, planned, press.value);
    const made = await keepOrMake(folder, from, async () => {
      const opened = await engraver();
      return opened.ok ? sheetsOf(plan, planned, { ...press.value, engraver: opened.value }) : opened;
    });
    if (!made.ok) return made;
    files.push(...made.value);
    advice.push(...made.advice);
  }
  return success(files, [...overview.advice, ...advice]);
}

/** What the sheets of a drill are made from. */
function sheetsFrom(plan: PublishPlan, { drill, players }: PlannedDrill, { logo, words, ...press }: Press): string {
  const { fonts, ...chosen } = press;
  const choices = [
    plan.options.for !== undefined,
    addressIn(plan),
    words?.language,
    logo === undefined ? "" : sha256(logo),
    ...(fonts.other === undefined ? [] : [sha256(fonts.other)]),
  ];
  return sha256(JSON.stringify(["sheets", version, PUBLISH_EDITION, drill, players, chosen, choices]));
}

async function sheetsOf(
  plan: PublishPlan,
  planned: PlannedDrill,
  press: Press & { readonly engraver: Engraver },
): Promise<Result<readonly NewFile[]>> {
  const address = addressIn(plan);
  const named = plan.options.for;
  const of = { press, ...(named && { for: named }), ...(address && { address }) };
  const sheets = await drillSheets(plan, planned, of);
  if (!sheets.ok) return sheets;
  const drill = planned.drill.name;
  const files = sheets.value.map(
    ({ called, of, sheet }): NewFile => ({
      file: `sheets/${called}.pdf`,
      kind: "sheet",
      drill,
      ...of,
      content: sheet.pdf,
    }),
  );
  return success(files, sheets.advice);
}

async function overviewOf(plan: PublishPlan, press: Press): Promise<Result<WholeFile>> {
  const made = await courseOverview(plan, press, plan.address);
  if (!made.ok) return made;
  return success({ file: `${OVERVIEW}.pdf`, kind: "overview", content: made.value.pdf }, made.advice);
}

/** When the band plays on the first rung of a drill, for wide screens and for phones. */
function stripsOf({ names }: PublishPlan, { drill, rungs, mixes }: PlannedDrill, words: Words): readonly WholeFile[] {
  const score = scoreOf(rungs[0]!, mixes[0]);
  const called = names.drill(drill.name);
  return [
    [`${called}.svg`, WIDE],
    [`${called}${NARROW_STRIP}`, NARROW],
  ].map(([name, width]) => {
    const content = new TextEncoder().encode(stripChart(score, { words, width: Number(width) }));
    return { file: `strips/${name}`, kind: "strip", drill: drill.name, content };
  });
}

/** Where a sheet leads: to its drill on the practice page, else where the course says. */
function addressIn({ address, course }: PublishPlan): string | undefined {
  return address === undefined ? course.imprint?.address : `${address}practice/#/drill/{drill}/{rung}`;
}
