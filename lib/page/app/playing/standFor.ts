import { type Rung, scoreOf } from "../../../drill/index.js";
import { silencesHeard } from "../../../render/chart/index.js";
import { phraseAt } from "../../../render/film/index.js";
import { CONCERT, type Sheet } from "../../model.js";
import type { Page } from "../page.js";
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

/** Bars without notes, for a riff that was not engraved. */
function plainSheet(bars: readonly number[], isWide: boolean): Sheet {
  const perLine = Math.min(isWide ? 4 : 2, bars.length);
  const width = isWide ? 620 : 328;
  const each = (width - 20) / perLine;
  return {
    svg: "",
    width,
    height: Math.ceil(bars.length / perLine) * LINE,
    bars: bars.map((bar, i) => {
      const top = Math.floor(i / perLine) * LINE + 14;
      const left = 4 + (i % perLine) * each;
      return { bar, top, bottom: top, anchors: [[0, left] as const, [1, left + each - 4] as const] };
    }),
  };
}

/** Height of a line of bars without notes, px. */
const LINE = 56;
