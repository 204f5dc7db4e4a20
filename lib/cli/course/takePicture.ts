import { join } from "node:path";
import type { Problem } from "../../base/index.js";
import { makeFolder } from "../../node/index.js";
import { takeChart } from "../../render/chart/index.js";
import type { Finding, Score, Take } from "../../schema/index.js";
import type { Words } from "../../words/index.js";
import type { pictureNames } from "../fileNames.js";
import { writeOut } from "../output/outFile.js";

/** Writes the chart of a take to a file of its name, which only its owner may read. */
export async function writePicture(
  folder: string,
  nameOf: ReturnType<typeof pictureNames>,
  {
    score,
    take,
    finding,
    words,
  }: { readonly score: Score; readonly take: Take; readonly finding: Finding; readonly words: Words },
): Promise<readonly Problem[]> {
  const picture = takeChart(score, take, finding, { words });
  const made = await makeFolder(folder);
  return made.ok ? writeOut(join(folder, `${nameOf(finding.take ?? "take", picture)}.svg`), [picture]) : made.problems;
}
