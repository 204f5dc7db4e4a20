import { success } from "../../base/index.js";
import type { Drill } from "../../drill/index.js";
import type { Problem, Result } from "../problem.js";
import { type Block, besideEachOther } from "./block.js";
import { sheetProblem } from "./codes.js";
import type { Mark } from "./drawing.js";
import { enlarged } from "./drawing.js";
import { footer, runningHead } from "./footer.js";
import { headerBlock, headWords } from "./header.js";
import { ENLARGED, MARGIN, PAPERS, type PrintSize } from "./pageStyle.js";
import { marksOf, type Placed, paginate } from "./paginate.js";
import { type Picture, pictureIn } from "./picture.js";
import { drawFormsAlike, riffBlocks } from "./riff/riffBlocks.js";
import { formsOf } from "./riff/riffForms.js";
import { silencesOf } from "./riff/silences.js";
import { criteriaBlock, takeBlock } from "./rungs/criteria.js";
import { rungList } from "./rungs/rungList.js";
import { rungTable } from "./rungs/rungTable.js";
import { sayProblem } from "./say.js";
import type { SheetOptions } from "./sheetOptions.js";
import { isOfBand, type Player, playerOf, type SheetReader } from "./sheetReader.js";
import type { SheetPage } from "./svg.js";
import { openTypeface, type Typeface } from "./typeface.js";
import { ENGLISH, type SheetWords } from "./words.js";

/** White space between the two columns, in points. */
const GUTTER = 28;
/** Share of the width for the rungs: the smallest at which their table fits; our choice. */
const SHARES = [0.5, 0.62] as const;

/** A sheet as marks on pages, independent of the file format. */
export interface LaidOutSheet {
  readonly title: string;
  readonly subject: string;
  /** Who wrote what it shows; absent when nobody is named. */
  readonly author?: string | undefined;
  readonly pages: readonly SheetPage[];
}

/** Lays out the sheet of one reader, the same as among others. Problems: those of `renderSheet`. */
export function layOutSheet(drill: Drill, reader: SheetReader, options: SheetOptions): Result<LaidOutSheet> {
  const made = layOutSheets(drill, [reader], options);
  return made.ok ? success(made.value[0]!, made.advice) : made;
}

/**
 * Lays out the sheets of several readers: header, riff in each form with its silences, rungs and criteria; for the band the riff alone. All
 * players of a drill have the same bars in the same lines and the same pages, so that a class can speak of "the second line": a sheet follows
 * from the drill and its reader, whoever else is asked for. Problems: those of `renderSheet`.
 */
export function layOutSheets(
  drill: Drill,
  readers: readonly SheetReader[],
  options: SheetOptions,
): Result<readonly LaidOutSheet[]> {
  const press = openPress(options);
  if (!press.ok) return press;
  const made = new Map<SheetReader, LaidOutSheet>();
  for (const reader of readers) {
    if (made.has(reader)) continue;
    const together = classOf(drill, reader);
    const laid = layOutAlike(drill, together, { ...options, ...press.value });
    if (!laid.ok) return laid;
    for (const [i, each] of together.entries()) if (!made.has(each)) made.set(each, laid.value[i]!);
  }
  const sheets = readers.map((reader) => made.get(reader)!);
  return success(
    sheets,
    lettersMissing(
      sheets.flatMap(({ pages }) => pages),
      press.value.type,
    ),
  );
}

/** The readers who have the same layout: all players of a drill, and one who is not among them as they have it. */
function classOf({ players }: Drill, reader: SheetReader): readonly SheetReader[] {
  if (isOfBand(reader) || reader === undefined) return [reader];
  return players.includes(reader) ? players : [...players, reader];
}

/** What is opened once for all sheets. */
export interface Press {
  readonly type: Typeface;
  readonly picture: Picture | undefined;
  /** Before everything is enlarged. */
  readonly room: { readonly width: number; readonly height: number; readonly margin: typeof MARGIN };
}

/** Opens typefaces and logo. Problems: those of `renderSheet` that are of the options. */
export function openPress({
  paper: name,
  size = "usual",
  fonts,
  logo,
}: Pick<SheetOptions, "paper" | "size" | "fonts" | "logo">): Result<Press> {
  const problems: Problem[] = [];
  const paper = Object.hasOwn(PAPERS, name) ? PAPERS[name] : undefined;
  if (paper === undefined) {
    const names = Object.keys(PAPERS);
    const papers = { papers: names.slice(0, -1), last: names.at(-1)!, found: JSON.stringify(name) };
    problems.push(sheetProblem("PAPER_UNKNOWN", sayProblem("sheet-problem.paper-unknown", papers)));
  }
  const opened = openTypeface(fonts);
  if (!opened.ok) problems.push(...opened.problems);
  const picture = logo === undefined ? undefined : pictureIn(logo);
  if (picture?.ok === false) problems.push(...picture.problems);
  if (paper === undefined || !opened.ok || picture?.ok === false) return { ok: false, problems };
  const by = 1 / ENLARGED[size];
  // Margins are for thumbs and holes, which large print does not enlarge.
  const margin = { side: MARGIN.side * by, top: MARGIN.top * Math.max(by, RUNNING_HEAD), bottom: MARGIN.bottom * by };
  return success({
    type: opened.value,
    picture: picture?.value,
    room: { width: paper.width * by, height: paper.height * by, margin },
  });
}

/** Share of the upper margin that the running head needs. */
const RUNNING_HEAD = 0.65;

/** Lays out the sheets of readers whose blocks are of the same heights, those of the highest. */
function layOutAlike(
  drill: Drill,
  readers: readonly SheetReader[],
  options: SheetOptions & Press,
): Result<readonly LaidOutSheet[]> {
  const { engraver, words = ENGLISH, type, room, instruments, imprint, address } = options;
  const width = room.width - 2 * room.margin.side;
  const forms = drawFormsAlike(drill, readers, { engraver, width, words, instruments });
  if (!forms.ok) return forms;
  const foot = footer({ type, width, words, imprint, address });
  const height = room.height - room.margin.top - room.margin.bottom - foot.height;
  const silences = silencesOf(drill, words);
  const heads = readers.map((reader) => {
    const said = headWords(drill, reader, { course: options.course ?? "", words, imprint });
    return { ...said, logo: options.picture, address };
  });
  // The strip of silences is under every form when this takes no more pages than a strip under the first form only.
  const [every, first] = (["every form", "first form"] as const).map((strips) => {
    const columns = readers.map((reader, i) => [
      headerBlock(heads[i]!, { type, width }),
      ...riffBlocks(drill, forms.value[i]!, { type, width, words, silences, strips }),
      ...(isOfBand(reader)
        ? [takeBlock(drill, { type, width, words })]
        : rungsBlocks(drill, { player: playerOf(reader), width, ...options, words })),
    ]);
    return columns.map((blocks) => paginate(levelled(blocks, columns), height));
  });
  const chosen = every![0]!.length > first![0]!.length ? first! : every!;
  return success(
    chosen.map((pages, k): LaidOutSheet => {
      const about = heads[k]!;
      const title = `${about.instrument} – ${about.title}`;
      return {
        title,
        subject: about.subtitle,
        author: drill.pattern.author ?? imprint?.author,
        pages: framed(pages, { title, description: about.subtitle, foot, words }, options),
      };
    }),
  );
}

/** Pages with their heads and feet. */
export function framed(
  pages: readonly (readonly Placed[])[],
  {
    title,
    description,
    foot,
    words,
  }: { title: string; description: string; foot: ReturnType<typeof footer>; words: SheetWords },
  { paper, size = "usual", type, room }: Pick<SheetOptions, "paper" | "size"> & Press,
): readonly SheetPage[] {
  const { margin } = room;
  const width = room.width - 2 * margin.side;
  return pages.map((page, i): SheetPage => {
    const over = i === 0 ? [] : runningHead({ type, width, words, title, page: i + 1, of: pages.length, margin });
    const under = foot.at(margin.side, room.height - margin.bottom);
    const marks = [...over, ...marksOf(page, { x: margin.side, y: margin.top }), ...under];
    return {
      paper: PAPERS[paper],
      title: pages.length > 1 ? words.say("sheet.title-of-page", { title, page: i + 1, of: pages.length }) : title,
      description,
      // Letters of the other font are outlines: it is too large for every file.
      marks: enlarged(
        marks.flatMap((mark): readonly Mark[] =>
          mark.kind === "text" && mark.face === "other" ? type.outlines(mark) : [mark],
        ),
        ENLARGED[size],
      ),
    };
  });
}

/** Blocks as high as the highest of those in their place in other columns. */
function levelled(blocks: readonly Block[], columns: readonly (readonly Block[])[]): readonly Block[] {
  return blocks.map((block, i) => ({ ...block, height: Math.max(...columns.map((each) => each[i]!.height)) }));
}

/** The rungs and the criteria: side by side, in large print one after the other. */
export function rungsBlocks(
  drill: Drill,
  setting: { player: Player | undefined; type: Typeface; width: number; words: SheetWords; size?: PrintSize },
): readonly Block[] {
  if (setting.size !== "large") return [rungsBlock(drill, setting)];
  const { type, width, words, player } = setting;
  const all = { player, type, words, width, form: formsOf(drill)[0]! };
  return [rungTable(drill, all) ?? rungList(drill, all), criteriaBlock(drill, { type, words, width })];
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
export function lettersMissing(pages: readonly Pick<SheetPage, "marks">[], type: Typeface): readonly Problem[] {
  const texts = pages.flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.text] : [])));
  const first = new Map<string, string>();
  for (const text of texts) for (const letter of type.missing(text)) if (!first.has(letter)) first.set(letter, text);
  return [...first].map(([letter, text]) => {
    const quoted = { letter: JSON.stringify(letter), text: JSON.stringify(text) };
    const message = sayProblem("sheet-problem.letter-without-glyph", quoted);
    return sheetProblem("LETTER_WITHOUT_GLYPH", message, {}, sayProblem("sheet-problem.letter-without-glyph-remedy"));
  });
}
