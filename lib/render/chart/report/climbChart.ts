import type { JournalEvent, Verdict } from "../../../schema/index.js";
import { mondayOf } from "../../../time/index.js";
import { counted, fullDateText, grouped, listed } from "../../phrases.js";
import { type ChartOptions, type ChartText, chartDocument, type KeyEntry, widthAsked } from "../chartDocument.js";
import { line, SIZE } from "../lettering.js";
import { INK } from "../palette.js";
import { decimal, element, type Svg } from "../svg.js";
import { stroke } from "../symbols.js";
import { climbPanel, columnsOf, mostText } from "./climbPanel.js";
import { type Climb, type Course, climbOf } from "./climbTracks.js";
import { dayAxis, overWeeks, plotBeside } from "./weekFrame.js";

export type { Course } from "./climbTracks.js";

const LABELS = 50;
const PANEL_GAP = 18;
/** Most drills, the last ones of the course; the chart states how many are left out. */
const MOST_PANELS = 12;
/** Narrowest column of takes, px, and its possible widths in days. */
const NARROWEST_COLUMN = 4;
const BINS = [1, 7, 14, 28, 91, 364, 3640] as const;

/**
 * The progress of a student over weeks, as an SVG document: for every drill in the journal the rung of the student, and below it the takes of each
 * day (or longer period, when days are too narrow); takes within tolerance upwards, takes beyond it downwards.
 *
 * `events` is the journal in any order; each event counts once. Dates are those written in the events. Drawn at `width` px (280 to 2000), at most
 * twelve drills, its size bounded by the width whatever the length of the journal; the same journal gives the same text. An empty journal is
 * drawn as such. Throws `RangeError` for another width.
 *
 * @example climbChart(curriculum, readJournal(text).events, { width: 360 })
 */
export function climbChart(course: Course, events: readonly JournalEvent[], options: ChartOptions = {}): Svg {
  const width = widthAsked(options);
  const climb = climbOf(course, events);
  const words = wordsOf(course, climb);
  if (climb.days === undefined) return chartDocument(words, { svg: "", height: 0 }, { width, key: [] });
  const plot = plotBeside(LABELS, width);
  const first = mondayOf(climb.days[0]);
  const weeksTold = 7 * Math.max(1, Math.ceil((Math.floor(climb.days[1]) + 1 - first) / 7));
  const bin = BINS.find((days) => (days * plot.room) / weeksTold >= NARROWEST_COLUMN) ?? BINS.at(-1)!;
  const axis = dayAxis(plot, first, first + bin * Math.ceil(weeksTold / bin));
  const shown = climb.tracks.slice(-MOST_PANELS);
  const most = Math.max(
    1,
    ...shown.flatMap(({ takes }) =>
      [...columnsOf(takes, first, bin).values()].map(({ within, beyond }) => Math.max(within, beyond)),
    ),
  );
  const undrawn = climb.tracks.length - shown.length;
  const body = overWeeks(
    shown.map((track) => climbPanel(track, { ...axis, first, bin, most })),
    axis,
    { gap: PANEL_GAP, asides: undrawn > 0 ? [`${counted(undrawn, "earlier drill")} not drawn.`] : [] },
  );
  return chartDocument(words, body, { width, key: keyOf(climb, mostText(most, bin)) });
}

function wordsOf(course: Course, { student = "The student", tracks, days, unknown }: Climb): ChartText {
  const takes = tracks.flatMap((track) => track.takes);
  const of = (verdict: Verdict): number => takes.filter((take) => take.verdict === verdict).length;
  if (days === undefined)
    return { title: "Nothing is in the journal yet.", subject: course.name, description: "An empty journal." };
  const weeks = Math.max(1, Math.ceil((Math.floor(days[1]) + 1 - Math.floor(days[0])) / 7));
  const complete = tracks.filter(({ completedAt }) => completedAt !== undefined);
  const present = tracks.findLast(
    ({ completedAt, moves, takes: own }) =>
      completedAt === undefined && moves.length > 0 && (own.length > 0 || moves.length > 1),
  );
  const done =
    complete.length === 0
      ? ""
      : `has completed ${complete.length > 2 ? counted(complete.length, "drill") : listed(complete.map(({ drill }) => drill.name))}`;
  const now = present === undefined ? "" : arrival(present);
  const did = [done, now].filter((each) => each !== "").join(" and ") || "has not begun to climb";
  const tally = `${counted(takes.length, "take")}: ${grouped(of("within"))} within tolerance, ${grouped(of("beyond"))} beyond, ${grouped(of("unclear"))} unclear`;
  const lost =
    unknown.length === 0
      ? ""
      : ` Not in this edition: ${listed(unknown.slice(0, 5))}${unknown.length > 5 ? ` and ${unknown.length - 5} more` : ""}.`;
  return {
    title: `After ${counted(weeks, "week")} ${student} ${did}.`,
    subject: `${course.name}, ${fullDateText(days[0])} to ${fullDateText(days[1])}. ${tally}.${lost}`,
    description: tracks
      .slice(-MOST_PANELS)
      .map(
        (track) =>
          `${track.drill.name}: ${counted(track.takes.length, "take")}, ${track.completedAt !== undefined ? `complete on ${fullDateText(track.completedAt)}` : arrival(track)}.`,
      )
      .join(" "),
  };
}

function arrival({ moves, drill }: Climb["tracks"][number]): string {
  const [from, to] = [moves[0]?.rung, moves.at(-1)?.rung];
  if (from === undefined || to === undefined) return `is on no rung of ${drill.name}`;
  const way = from === to ? "" : `, ${to > from ? "up" : "down"} from ${grouped(from + 1)}`;
  return `is on rung ${grouped(to + 1)} of ${drill.name}${way}`;
}

function keyOf({ tracks }: Climb, most: string): (KeyEntry | false)[] {
  const verdicts = new Set(tracks.flatMap(({ takes }) => takes.map(({ verdict }) => verdict)));
  return [
    { mark: (x, y) => stroke(`M${decimal(x)} ${decimal(y)}h8v-8h11`, INK.within, { width: 2.2 }), means: "rung" },
    tracks.some(({ completedAt }) => completedAt !== undefined) && {
      mark: (x, y) => stroke(`M${decimal(x + 10)} ${decimal(y - 10)}v11m-4 0h8m-8 -11h8`, INK.within, { width: 2.4 }),
      means: "drill complete",
    },
    verdicts.has("within") && {
      mark: (x, y) => element("rect", { x: x + 7, y: y - 11, width: 6, height: 11, fill: INK.within }),
      means: `within, ${most}`,
    },
    verdicts.has("beyond") && {
      mark: (x, y) => stroke(`M${decimal(x + 7)} ${decimal(y - 10)}v10h6v-10z`, INK.beyond, { width: 1.3 }),
      means: "beyond",
    },
    verdicts.has("unclear") && {
      mark: (x, y) => stroke(`M${decimal(x + 8)} ${decimal(y - 4)}h4`, INK.ink, { width: 4 }),
      means: "unclear",
    },
    tracks.some(({ moves }) => moves.some(({ byTeacher }) => byTeacher)) && {
      mark: (x, y) =>
        element("circle", { cx: x + 10, cy: y - 4, r: 7, fill: INK.paper, stroke: INK.ink, "stroke-width": 1.2 }) +
        line("T", x + 10, y, { size: SIZE.small, bold: true, anchor: "middle" }),
      means: "set by the teacher",
    },
  ];
}
