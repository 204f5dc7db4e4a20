import { type Rung, scoreOf } from "../../../drill/index.js";
import { silencesHeard } from "../../../render/chart/index.js";
import { CONCERT } from "../../model.js";
import type { Page } from "../page.js";
import { plainSheet } from "./barPlaces.js";
import { phraseAt } from "./screenAt.js";
import { type Stand, standOf } from "./stand.js";

/** The riff of a rung on the stand, for the student's instrument, showing the first phrase with a silence. */
export async function standFor(page: Page, rung: Rung, mix: string): Promise<Stand> {
  const isWide = matchMedia("(min-width: 700px)").matches;
  const opened = await page.course();
  const engraved = await opened.sheet(rung, page.student?.reader ?? CONCERT, isWide ? "wide" : "narrow");
  const bars = rung.drill.pattern.bars.map(({ number }) => number);
  const score = scoreOf(rung, mix);
  const stand = standOf(score, engraved ?? plainSheet(bars, isWide), page.words);
  const silence = silencesHeard(score)[0];
  stand.showPhrase(silence === undefined ? 1 : phraseAt(score, silence.from));
  return stand;
}
