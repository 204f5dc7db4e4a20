import { rungs } from "../../../drill/index.js";
import type { ReportWords } from "../../../report/index.js";
import { grouped } from "../../phrases.js";
import { type Drawn, panelHeading } from "../chartDocument.js";
import { fitted, line, SIZE, widthOf } from "../lettering.js";
import { INK } from "../palette.js";
import { decimal, element, type Svg } from "../svg.js";
import { stroke, through, upright } from "../symbols.js";
import type { Track } from "./climbTracks.js";
import type { DayAxis } from "./weekFrame.js";

export interface Across extends DayAxis {
  /** First day drawn, and days that share one column of takes. */
  readonly first: number;
  readonly bin: number;
  /** Most takes of one verdict in a column, over all panels. */
  readonly most: number;
}

/** Between a heading and its plot, px. */
const HEADING_GAP = 8;
const PLOT = 64;
/** Half the height of the lane of takes, px. */
const REACH = 15;
/** All rungs are drawn for a drill with at most this many (our choice), else only the range of the student. */
const DRAWN_WHOLE = 24;

/** One drill over the weeks: the rung of the student as a step line, and below it the takes. */
export function climbPanel(track: Track, across: Across): Drawn {
  const { words, margin, left, room, x, dates } = across;
  const count = rungs(track.drill).count;
  const headed = heading(track, { words, left: margin, room: left + room - margin, count });
  const top = headed.height + HEADING_GAP;
  const floor = top + PLOT;
  const middle = floor + 8 + REACH;
  const [lowest, highest] = shownRungs(track, count);
  const y = (rung: number): number =>
    floor - 5 - (highest === lowest ? 0 : ((rung - lowest) / (highest - lowest)) * (PLOT - 10));
  const end = left + room;
  const grid = dates.map((day) => upright(x(day), top, middle + REACH)).join("");
  const pieces: Svg[] = [headed.svg, stroke(grid, INK.hair, { width: 0.8 })];
  const rule = `M${decimal(left)} ${decimal(floor)}H${decimal(end)}`;
  pieces.push(stroke(rule, INK.muted, { width: 0.8 }), rungLabels([lowest, highest], { words, left, y }));
  pieces.push(steps(track, { words, x, y, end }));
  const takes = takeColumns(track, across, middle);
  pieces.push(
    takes,
    line(words.say("report.takes-label"), left - 8, middle + 4, { size: SIZE.small, fill: INK.muted, anchor: "end" }),
  );
  return { svg: pieces.join(""), height: middle + REACH };
}

function shownRungs({ moves }: Track, count: number): [number, number] {
  if (count <= DRAWN_WHOLE || moves.length === 0) return [0, Math.min(count, DRAWN_WHOLE) - 1];
  let [lowest, highest] = [moves[0]!.rung, moves[0]!.rung];
  for (const { rung } of moves) [lowest, highest] = [Math.min(lowest, rung), Math.max(highest, rung)];
  return [lowest, Math.max(highest, lowest + 4)];
}

function heading(
  { drill, moves, completedAt }: Track,
  {
    words: { say },
    left,
    room,
    count,
  }: { readonly words: ReportWords; readonly left: number; readonly room: number; readonly count: number },
): Drawn {
  const rung = moves.at(-1)?.rung;
  const state =
    completedAt !== undefined
      ? say("report.complete")
      : rung === undefined
        ? ""
        : say("report.rung-of", { number: grouped(rung + 1), rungs: grouped(count) });
  return panelHeading(drill.title ?? drill.name, state, { left, room, bold: true });
}

function rungLabels(
  [lowest, highest]: readonly [number, number],
  {
    words: { say },
    left,
    y,
  }: { readonly words: ReportWords; readonly left: number; readonly y: (rung: number) => number },
): Svg {
  // Where the word has no room the number stands alone: what is cut would be the number.
  const named = (rung: number): Svg => {
    const text = say("report.rung", { shown: grouped(rung + 1) });
    return label(rung, widthOf(text, { size: SIZE.small }) <= left - 12 ? text : grouped(rung + 1));
  };
  const label = (rung: number, text: string): Svg =>
    line(fitted(text, left - 12, { size: SIZE.small }), left - 8, y(rung) + 4, {
      size: SIZE.small,
      fill: INK.muted,
      anchor: "end",
    });
  return highest === lowest ? named(lowest) : label(lowest, grouped(lowest + 1)) + named(highest);
}

/** The step line, a disc at the present rung or a mark of completion, and a letter at each decision of a teacher. */
function steps(
  { moves, completedAt }: Track,
  {
    words,
    x,
    y,
    end,
  }: {
    readonly words: ReportWords;
    readonly x: (day: number) => number;
    readonly y: (rung: number) => number;
    readonly end: number;
  },
): Svg {
  if (moves.length === 0) return "";
  // A pixel column keeps its first, lowest, highest and last rung, so that the size of the drawing is bounded.
  const columns = new Map<number, number[]>();
  for (const { at, rung } of moves) {
    const column = Math.round(x(at));
    const before = columns.get(column) ?? [];
    columns.set(
      column,
      before.length < 4 ? [...before, rung] : [before[0]!, Math.min(...before, rung), Math.max(...before, rung), rung],
    );
  }
  const corners: [number, number][] = [];
  for (const [column, own] of columns) {
    for (const rung of own) {
      const before = corners.at(-1);
      if (before !== undefined) corners.push([column, before[1]]);
      corners.push([column, y(rung)]);
    }
  }
  const last = corners.at(-1)!;
  const until = completedAt === undefined ? end : Math.max(last[0], x(completedAt));
  corners.push([until, last[1]]);
  const mark =
    completedAt === undefined
      ? element("circle", { cx: until - 3, cy: last[1], r: 4, fill: INK.within })
      : element("path", {
          d: `M${decimal(until)} ${decimal(last[1] - 6)}v12M${decimal(until - 4)} ${decimal(last[1] - 6)}h8M${decimal(until - 4)} ${decimal(last[1] + 6)}h8`,
          stroke: INK.within,
          "stroke-width": 2.4,
          fill: "none",
        });
  const decided = new Map(
    moves.filter(({ byTeacher }) => byTeacher).map(({ at, rung }) => [`${Math.round(x(at) / 10)}`, { at, rung }]),
  );
  const letters = [...decided.values()].map(({ at, rung }) => {
    const [cx, cy] = [x(at), y(rung)];
    return (
      element("circle", { cx, cy, r: 7, fill: INK.paper, stroke: INK.ink, "stroke-width": 1.2 }) +
      line(words.say("report.teacher"), cx, cy + 4, { size: SIZE.small, bold: true, anchor: "middle" })
    );
  });
  return stroke(through(corners), INK.within, { width: 2.2 }) + mark + letters.join("");
}

/** Takes by column: filled bars upwards for within, open bars downwards for beyond, a dash on the line for unclear. */
function takeColumns({ takes }: Track, { first, bin, x, left, room, most }: Across, middle: number): Svg {
  const columns = columnsOf(takes, first, bin);
  const width = Math.max(2, Math.min(9, x(first + bin) - x(first) - 1.5));
  const tall = (count: number): number => Math.max(3, (count / most) * REACH);
  const within: string[] = [];
  const beyond: string[] = [];
  const unclear: string[] = [];
  for (const [column, { within: w, beyond: b, unclear: u }] of columns) {
    const from = x(first + (column + 0.5) * bin) - width / 2;
    if (w > 0)
      within.push(
        `M${decimal(from)} ${decimal(middle - 1)}v${decimal(-tall(w))}h${decimal(width)}v${decimal(tall(w))}z`,
      );
    if (b > 0)
      beyond.push(
        `M${decimal(from + 0.6)} ${decimal(middle + 1.5)}v${decimal(tall(b) - 1)}h${decimal(width - 1.2)}v${decimal(1 - tall(b))}z`,
      );
    if (u > 0) unclear.push(`M${decimal(from + width / 2 - 2)} ${decimal(middle)}h4`);
  }
  return (
    stroke(`M${decimal(left)} ${decimal(middle)}H${decimal(left + room)}`, INK.muted, { width: 0.8 }) +
    (within.length === 0 ? "" : element("path", { d: within.join(""), fill: INK.within })) +
    stroke(beyond.join(""), INK.beyond, { width: 1.3 }) +
    stroke(unclear.join(""), INK.ink, { width: 4 })
  );
}

export type Tally = Readonly<Record<"within" | "beyond" | "unclear", number>>;

/** Number of takes by verdict in columns of `bin` days from day `first`. */
export function columnsOf(takes: Track["takes"], first: number, bin: number): Map<number, Tally> {
  const columns = new Map<number, Tally>();
  for (const { at, verdict } of takes) {
    const column = Math.floor((at - first) / bin);
    const before = columns.get(column) ?? { within: 0, beyond: 0, unclear: 0 };
    columns.set(column, { ...before, [verdict]: before[verdict] + 1 });
  }
  return columns;
}

/** "within, up to 4 takes a day", for the key. */
export function mostText(most: number, bin: number, { say }: ReportWords): string {
  const takes = say("report.count-of-takes", { takes: most, shown: grouped(most) });
  return say("report.within-up-to", { takes, period: bin === 1 ? "day" : bin === 7 ? "week" : "days", days: `${bin}` });
}
