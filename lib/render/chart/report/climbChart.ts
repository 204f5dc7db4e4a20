import type { JournalEvent, Verdict } from "../../../schema/index.js";
import { mondayOf } from "../../../time/index.js";
import { counted, dayText, fullDateText, grouped, listed } from "../../phrases.js";
import {
  type ChartOptions,
  type ChartText,
  chartDocument,
  type KeyEntry,
  marginOf,
  stacked,
  widthAsked,
} from "../chartDocument.js";
import { line, SIZE } from "../lettering.js";
import { INK } from "../palette.js";
import { decimal, element, type Svg } from "../svg.js";
import { stroke, upright } from "../symbols.js";
import { type Across, climbPanel, columnsOf, mostText } from "./climbPanel.js";
import { type Climb, type Course, climbOf } from "./climbTracks.js";

export type { Course } from "./climbTracks.js";

const LABELS = 50;
const PANEL_GAP = 18;
/** Most drills, the last ones of the course; the chart states how many are left out. */
const MOST_PANELS = 12;
/** Narrowest column of takes, and smallest distance between dates, px. */
const NARROWEST_COLUMN = 4;
const DATE_ROOM = 48;
/** Possible widths of a column of takes in days, and distances between dates in weeks. */
const BINS = [1, 7, 14, 28, 91, 364, 3640] as const;
const WEEKS = [1, 2, 4, 8, 13, 26, 52, 520] as const;

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
  const margin = marginOf(width);
  const climb = climbOf(course, events);
  const words = wordsOf(course, climb);
  if (climb.days === undefined) return chartDocument(words, { svg: "", height: 0 }, { width, key: [] });
  const left = margin + LABELS;
  const room = width - margin - left;
  const first = mondayOf(climb.days[0]);
  const weeksTold = 7 * Math.max(1, Math.ceil((Math.floor(climb.days[1]) + 1 - first) / 7));
  const bin = BINS.find((days) => (days * room) / weeksTold >= NARROWEST_COLUMN) ?? BINS.at(-1)!;
  const until = first + bin * Math.ceil(weeksTold / bin);
  const x = (day: number): number => left + ((day - first) / (until - first)) * room;
  const perDay = room / (until - first);
  const weeks = WEEKS.find((each) => 7 * each * perDay >= DATE_ROOM) ?? WEEKS.at(-1)!;
  const ticks: number[] = [];
  for (let day = first; day < until; day += 7 * weeks) ticks.push(day);
  const shown = climb.tracks.slice(-MOST_PANELS);
  const most = Math.max(
    1,
    ...shown.flatMap(({ takes }) =>
      [...columnsOf(takes, first, bin).values()].map(({ within, beyond }) => Math.max(within, beyond)),
    ),
  );
  const across: Across = { left, room, x, first, bin, most, ticks };
  const panels = stacked(
    shown.map((track) => climbPanel(track, across)),
    PANEL_GAP,
  );
  let y = panels.height + 4;
  const pieces: Svg[] = [panels.svg, dates(across, y + SIZE.small + 4)];
  y += SIZE.small + 10;
  const undrawn = climb.tracks.length - shown.length;
  if (undrawn > 0) {
    pieces.push(
      line(`${counted(undrawn, "earlier drill")} not drawn.`, margin, y + SIZE.small, {
        size: SIZE.small,
        fill: INK.muted,
      }),
    );
    y += SIZE.small + 4;
  }
  return chartDocument(words, { svg: pieces.join(""), height: y }, { width, key: keyOf(climb, mostText(most, bin)) });
}

function dates({ ticks, x, left, room }: Across, y: number): Svg {
  return ticks
    .filter((day, i) => i === 0 || x(day) < left + room - 34)
    .map(
      (day) =>
        stroke(upright(x(day), y - SIZE.small - 3, y - SIZE.small), INK.muted, { width: 0.8 }) +
        line(dayText(day), x(day), y, { size: SIZE.small, fill: INK.muted }),
    )
    .join("");
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
