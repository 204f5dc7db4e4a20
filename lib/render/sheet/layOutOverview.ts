import { success } from "../../base/index.js";
import { type Drill, titleOf } from "../../drill/index.js";
import type { Result } from "../problem.js";
import { type Block, blockOf } from "./block.js";
import type { Mark } from "./drawing.js";
import { tempoText } from "./drillText.js";
import { footer } from "./footer.js";
import { headerBlock, makersText } from "./header.js";
import { framed, type LaidOutSheet, lettersMissing, openPress, rungsBlocks } from "./layOutSheet.js";
import { INK, LEADING, MUTED, SIZES } from "./pageStyle.js";
import { paginate } from "./paginate.js";
import type { SheetOptions } from "./sheetOptions.js";
import type { Typeface } from "./typeface.js";
import { ENGLISH, type SheetWords } from "./words.js";

/** A course as an overview has it. */
export interface OverviewCourse {
  readonly title: string;
  readonly about?: string;
  /** In the order in which they stand on the pages. */
  readonly drills: readonly Drill[];
}

/** Options of an overview: those of a sheet; nothing is engraved. */
export type OverviewOptions = Omit<SheetOptions, "engraver" | "course" | "instruments">;

/** Size of a drill's title, in points: between those of a sheet's title and of its text; our choice. */
const DRILL_TITLE = 14;

/** Lays out the overview of a course: what each drill is, its rungs and what must be shown to go on. Problems: those of `renderOverview`. */
export function layOutOverview(course: OverviewCourse, options: OverviewOptions): Result<LaidOutSheet> {
  const press = openPress(options);
  if (!press.ok) return press;
  const { type, room, picture } = press.value;
  const { words = ENGLISH, imprint, address } = options;
  const width = room.width - 2 * room.margin.side;
  const foot = footer({ type, width, words, imprint, address });
  const overview = words.say("sheet.overview");
  const about = course.about ?? "";
  const head = { instrument: overview, course: "", title: course.title, subtitle: "", about, address };
  const blocks = [
    headerBlock({ ...head, makers: makersText(imprint, words), logo: picture }, { type, width }),
    ...course.drills.flatMap((drill) => [
      drillHeading(drill, { type, width, words }),
      ...rungsBlocks(drill, { player: undefined, type, width, words, ...(options.size && { size: options.size }) }),
    ]),
  ];
  const height = room.height - room.margin.top - room.margin.bottom - foot.height;
  const title = `${course.title} – ${overview}`;
  const said = { title, description: overview, foot, words };
  const pages = framed(paginate(blocks, height), said, { ...options, ...press.value });
  return success({ title, subject: overview, author: imprint?.author, pages }, lettersMissing(pages, type));
}

/** The title of a drill, its tempi and what it is about; its rungs are to follow on the same page. */
function drillHeading(
  drill: Drill,
  { type, width, words }: { type: Typeface; width: number; words: SheetWords },
): Block {
  const marks: Mark[] = [];
  let y = 0;
  const text = (said: string, style: { face: "regular" | "bold" | "italic"; size: number; ink: string }): void => {
    for (const line of type.lines(said, { ...style, width })) {
      y += style.size * LEADING;
      marks.push(...type.line(line, { x: 0, y, ...style }));
    }
  };
  text(titleOf(drill), { face: "bold", size: DRILL_TITLE, ink: INK });
  text(tempoText(drill, words), { face: "regular", size: SIZES.label, ink: INK });
  text(drill.about ?? "", { face: "italic", size: SIZES.label, ink: MUTED });
  return blockOf(marks, { height: y, gap: 26, keepsNext: true });
}
