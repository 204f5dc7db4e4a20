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
import { sayProblem } from "./say.js";
import type { SheetPage } from "./svg.js";
import { openTypeface, type SheetFonts, type Typeface } from "./typeface.js";
import { ENGLISH, type SheetWords } from "./words.js";

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
  /** What the sheet says, in the language of the player; English when left out. */
  readonly words?: SheetWords;
  /** BCP 47 language of the author's texts, for screen readers; that of the words when left out. */
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
    const names = Object.keys(PAPERS);
    const papers = { papers: names.slice(0, -1), last: names.at(-1)!, found: JSON.stringify(options.paper) };
    const message = sayProblem("sheet-problem.paper-unknown", papers);
    problems.push(sheetProblem("PAPER_UNKNOWN", message));
  }
  const opened = openTypeface(options.fonts);
  if (!opened.ok) problems.push(...opened.problems);
  if (paper === undefined || !opened.ok) return { ok: false, problems };
  const type = opened.value;
  const width = paper.width - 2 * MARGIN.side;
  const { engraver, words = ENGLISH } = options;
  const forms = drawForms(drill, { player, engraver, width, words });
  if (!forms.ok) return forms;
  const about = headWords(drill, player, { course: options.course ?? "", words });
  const foot = footer({ type, width, words });
  const height = paper.height - MARGIN.top - MARGIN.bottom - foot.height;
  const head = headerBlock(about, { type, width });
  const rungBlock = rungsBlock(drill, { player, type, width, words });
  const silences = silencesOf(drill, words);
  // The strip of silences is under every form when this takes no more pages than a strip under the first form only.
  const [every, first] = (["every form", "first form"] as const).map((strips) =>
    paginate([head, ...riffBlocks(drill, forms.value, { type, width, words, silences, strips }), rungBlock], height),
  );
  const title = `${about.instrument} – ${about.title}`;
  const pages = (every!.length > first!.length ? first! : every!).map((page, i, all): SheetPage => {
    const over = i === 0 ? [] : runningHead({ type, width, words, title, page: i + 1, of: all.length });
    const under = foot.at(MARGIN.side, paper.height - MARGIN.bottom);
    return {
      paper,
      title: all.length > 1 ? words.say("sheet.title-of-page", { title, page: i + 1, of: all.length }) : title,
      description: about.subtitle,
      marks: [...over, ...marksOf(page, { x: MARGIN.side, y: MARGIN.top }), ...under],
    };
  });
  return success({ title, subject: about.subtitle, pages }, lettersMissing(pages, type));
}

/** The rungs and the criteria, side by side. */
function rungsBlock(
  drill: Drill,
  { player, type, width, words }: { player: Player | undefined; type: Typeface; width: number; words: SheetWords },
): Block {
  const form = formsOf(drill)[0]!;
  const setting = (share: number): Parameters<typeof rungTable>[1] => ({
    player,
    type,
    words,
    form,
    width: share * (width - GUTTER),
  });
  const share = SHARES.find((each) => rungTable(drill, setting(each)) !== undefined);
  const left = setting(share ?? SHARES[0]);
  const rungBlock = rungTable(drill, left) ?? rungList(drill, left);
  const criteria = criteriaBlock(drill, { type, words, width: width - GUTTER - left.width });
  return besideEachOther(rungBlock, criteria, left.width + GUTTER);
}

/** Advice for letters that the font lacks, one for each letter, with the first text that contains it. */
function lettersMissing(pages: readonly SheetPage[], type: Typeface): readonly Problem[] {
  const texts = pages.flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])));
  const first = new Map<string, string>();
  for (const text of texts) for (const letter of type.missing(text)) if (!first.has(letter)) first.set(letter, text);
  return [...first].map(([letter, text]) => {
    const quoted = { letter: JSON.stringify(letter), text: JSON.stringify(text) };
    const message = sayProblem("sheet-problem.letter-without-glyph", quoted);
    return sheetProblem("LETTER_WITHOUT_GLYPH", message);
  });
}
