import type { Problem } from "../../base/index.js";
import type { Curriculum } from "../../curriculum/index.js";
import { CONCERT, type EngravedRiffs, type SheetWidth } from "../../page/index.js";
import { type Engraver, riffPictures, type SheetFonts } from "../../render/sheet/index.js";
import type { Words } from "../../words/index.js";

/** Widths of the drawings, px: a phone of 360 with its margins, and a column beside another. */
const WIDTHS: Readonly<Record<SheetWidth, number>> = { narrow: 328, wide: 620 };

export interface EngravingOptions {
  readonly engraver: Engraver;
  readonly fonts: SheetFonts;
  readonly words: Words;
  /** Whether nobody waits for the riffs any more: what was engraved until then is given. */
  readonly isOver?: () => boolean;
}

/**
 * The riffs of a course engraved for each of its players and at concert pitch; problems of those that cannot be. Between
 * two pictures whatever else there is to do is done: a server answers meanwhile.
 */
export async function engraveRiffs(
  course: Curriculum,
  { engraver, fonts, words, isOver = () => false }: EngravingOptions,
): Promise<{ readonly sheets: readonly EngravedRiffs[]; readonly problems: readonly Problem[] }> {
  const sheets: EngravedRiffs[] = [];
  const problems: Problem[] = [];
  for (const drill of course.drills)
    for (const player of [...drill.players, undefined])
      for (const [width, px] of Object.entries(WIDTHS) as [SheetWidth, number][]) {
        await new Promise((resolve) => setImmediate(resolve));
        if (isOver()) return { sheets, problems };
        const pictures = riffPictures(drill, player, { engraver, fonts, words, width: px });
        const reader = player?.instrument.name ?? CONCERT;
        if (pictures.ok) sheets.push({ drill: drill.name, reader, width, pictures: pictures.value });
        else problems.push(...pictures.problems);
      }
  return { sheets, problems };
}
