import { type Problem, type Result, success } from "../../base/index.js";
import type { Drill } from "../../drill/index.js";
import { type Block, besideEachOther } from "./block.js";
import { sheetProblem } from "./codes.js";
import type { Engraver } from "./engraving/engraver.js";
import { footer, runningHead } from "./footer.js";
import { headerBlock, headWords } from "./header.js";
import { MARGIN, PAPERS, type PaperName } from "./pageStyle.js";
import { marksOf, paginate } from "./paginate.js";
import type { Player } from "./riff/formPage.js";
import { drawForms, riffBlocks } from "./riff/riffBlocks.js";
import { formsOf } from "./riff/riffForms.js";
import { silencesOf } from "./riff/silences.js";
import { criteriaBlock } from "./rungs/criteria.js";
import { rungList } from "./rungs/rungList.js";
import { rungTable } from "./rungs/rungTable.js";
import type { SheetPage } from "./svg.js";
import { openTypeface, type SheetFonts, type Typeface } from "./typeface.js";

/** White space between the two columns, in points. */
const GUTTER = 28;
/** Share of the width for the rungs: the smallest at which their table fits; our choice. */
const SHARES = [0.5, 0.62] as const;

/** Options of a sheet. */
export interface SheetOptions {
  readonly paper: PaperName;
  readonly engraver: Engraver;
  readonly fonts: SheetFonts;
  /** Title of the course, for the header. */
  readonly course?: string;
  /** BCP 47 language of the author's texts, for screen readers; "en" when left out. */
  readonly language?: string;
}

/** A sheet as marks on pages, independent of the file format. */
export interface LaidOutSheet {
  readonly title: string;
  readonly subject: string;
  readonly pages: readonly SheetPage[];
}

/** Lays out a sheet: header, riff in each form with its silences, rungs and criteria. Problems: those of `renderSheet`. */
export function layOutSheet(drill: Drill, player: Player | undefined, options: SheetOptions): Result<LaidOutSheet> {
  const problems: Problem[] = [];
  const paper = Object.hasOwn(PAPERS, options.paper) ? PAPERS[options.paper] : undefined;
  if (paper === undefined) {
    const message = `a sheet is printed on ${Object.keys(PAPERS).join(" or ")}; found ${JSON.stringify(options.paper)}`;
    problems.push(sheetProblem("PAPER_UNKNOWN", message));
  }
  const opened = openTypeface(options.fonts);
  if (!opened.ok) problems.push(...opened.problems);
  if (paper === undefined || !opened.ok) return { ok: false, problems };
  const type = opened.value;
  const width = paper.width - 2 * MARGIN.side;
  const forms = drawForms(drill, { player, engraver: options.engraver, width });
  if (!forms.ok) return forms;
  const words = headWords(drill, player, options.course ?? "");
  const foot = footer({ type, width });
  const height = paper.height - MARGIN.top - MARGIN.bottom - foot.height;
  const head = headerBlock(words, { type, width });
  const rungBlock = rungsBlock(drill, { player, type, width });
  const silences = silencesOf(drill);
  // The strip of silences is under every form when this takes no more pages than a strip under the first form only.
  const [every, first] = (["every form", "first form"] as const).map((strips) =>
    paginate([head, ...riffBlocks(drill, forms.value, { type, width, silences, strips }), rungBlock], height),
  );
  const title = `${words.instrument} – ${words.title}`;
  const pages = (every!.length > first!.length ? first! : every!).map((page, i, all): SheetPage => {
    const over = i === 0 ? [] : runningHead({ type, width, title, page: i + 1, of: all.length });
    const under = foot.at(MARGIN.side, paper.height - MARGIN.bottom);
    return {
      paper,
      title: all.length > 1 ? `${title}, page ${i + 1} of ${all.length}` : title,
      description: words.subtitle,
      marks: [...over, ...marksOf(page, { x: MARGIN.side, y: MARGIN.top }), ...under],
    };
  });
  return success({ title, subject: words.subtitle, pages }, lettersMissing(pages, type));
}

/** The rungs and the criteria, side by side. */
function rungsBlock(
  drill: Drill,
  { player, type, width }: { player: Player | undefined; type: Typeface; width: number },
): Block {
  const form = formsOf(drill)[0]!;
  const setting = (share: number): Parameters<typeof rungTable>[1] => ({
    player,
    type,
    form,
    width: share * (width - GUTTER),
  });
  const share = SHARES.find((each) => rungTable(drill, setting(each)) !== undefined);
  const left = setting(share ?? SHARES[0]);
  const rungBlock = rungTable(drill, left) ?? rungList(drill, left);
  const criteria = criteriaBlock(drill, { type, width: width - GUTTER - left.width });
  return besideEachOther(rungBlock, criteria, left.width + GUTTER);
}

/** Advice for letters that the font lacks, one for each letter, with the first text that contains it. */
function lettersMissing(pages: readonly SheetPage[], type: Typeface): readonly Problem[] {
  const texts = pages.flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])));
  const first = new Map<string, string>();
  for (const text of texts) for (const letter of type.missing(text)) if (!first.has(letter)) first.set(letter, text);
  return [...first].map(([letter, text]) => {
    const message = `every letter has a glyph in the font; ${JSON.stringify(letter)}, in ${JSON.stringify(text)}, has none`;
    return sheetProblem("LETTER_WITHOUT_GLYPH", message);
  });
}
