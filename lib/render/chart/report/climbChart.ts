import { rungs } from "../../../drill/index.js";
import { ENGLISH, type ReportWords } from "../../../report/index.js";
import type { JournalEvent, Verdict } from "../../../schema/index.js";
import { mondayOf } from "../../../time/index.js";
import { fullDateText } from "../../dateText.js";
import { grouped } from "../../phrases.js";
import { type ChartText, chartDocument, type KeyEntry, widthAsked } from "../chartDocument.js";
import { labelRoom, line, SIZE } from "../lettering.js";
import { INK } from "../palette.js";
import { decimal, element, type Svg } from "../svg.js";
import { stroke } from "../symbols.js";
import { climbPanel, columnsOf, mostText } from "./climbPanel.js";
import { type Climb, type Course, climbOf } from "./climbTracks.js";
import { dayAxis, overWeeks, plotBeside } from "./weekFrame.js";
import type { WordedChartOptions } from "./wordedChartOptions.js";

export type { Course } from "./climbTracks.js";

/** Least and most room for the labels of the axis, px. */
const LABELS = { least: 50, most: 90 } as const;
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
export function climbChart(course: Course, events: readonly JournalEvent[], options: WordedChartOptions = {}): Svg {
  const { words = ENGLISH } = options;
  const width = widthAsked(options);
  const climb = climbOf(course, events);
  const text = textOf(course, climb, words);
  if (climb.days === undefined) return chartDocument(text, { svg: "", height: 0 }, { width, key: [] });
  const highest = Math.max(1, ...climb.tracks.map(({ drill }) => rungs(drill).count));
  const named = [words.say("report.takes-label"), words.say("report.rung", { shown: grouped(highest) })];
  const plot = plotBeside(Math.min(LABELS.most, labelRoom(named, LABELS.least)), width, words);
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
    {
      gap: PANEL_GAP,
      asides: undrawn > 0 ? [words.say("report.earlier-drills", { drills: undrawn, shown: grouped(undrawn) })] : [],
    },
  );
  return chartDocument(text, body, { width, key: keyOf(climb, mostText(most, bin, words), words) });
}

/** Most names of drills in a sentence, and most lost ones: our choice. */
const MOST_NAMED = 2;
const MOST_LOST = 5;

function textOf(course: Course, { student = "", tracks, days, unknown }: Climb, words: ReportWords): ChartText {
  const { say } = words;
  if (days === undefined)
    return { title: say("report.empty"), subject: course.name, description: say("report.empty-journal") };
  const takes = tracks.flatMap((track) => track.takes);
  const of = (verdict: Verdict): string => grouped(takes.filter((take) => take.verdict === verdict).length);
  const weeks = Math.max(1, Math.ceil((Math.floor(days[1]) + 1 - Math.floor(days[0])) / 7));
  const complete = tracks.filter(({ completedAt }) => completedAt !== undefined);
  const present = tracks.findLast(
    ({ completedAt, moves, takes: own }) =>
      completedAt === undefined && moves.length > 0 && (own.length > 0 || moves.length > 1),
  );
  const did = complete.length === 0 ? "nothing" : "completed";
  const subject = {
    course: course.name,
    first: fullDateText(days[0], words),
    last: fullDateText(days[1], words),
    takes: takesText(takes.length, words),
    within: of("within"),
    beyond: of("beyond"),
    unclear: of("unclear"),
  };
  return {
    title: say("report.climb", {
      weeks: say("report.weeks", { weeks, shown: grouped(weeks) }),
      student,
      did: present === undefined ? did : did === "nothing" ? "climbs" : "completed-and-climbs",
      drills: drillsText(complete, words),
      arrival: present === undefined ? "" : arrival(present, words),
    }),
    subject:
      unknown.length === 0
        ? say("report.climb-subject", subject)
        : say("report.climb-subject-lost", { ...subject, drills: lostText(unknown, words) }),
    description: tracks
      .slice(-MOST_PANELS)
      .map((track) =>
        say("report.climb-of-drill", {
          drill: track.drill.name,
          takes: takesText(track.takes.length, words),
          state:
            track.completedAt === undefined
              ? arrival(track, words)
              : say("report.complete-on", { date: fullDateText(track.completedAt, words) }),
        }),
      )
      .join(" "),
  };
}

function takesText(takes: number, { say }: ReportWords): string {
  return say("report.count-of-takes", { takes, shown: grouped(takes) });
}

/** Few drills by their names, more by their number. */
function drillsText(complete: Climb["tracks"], words: ReportWords): string {
  const drills = complete.length;
  if (drills > MOST_NAMED) return words.say("report.drills", { drills, shown: grouped(drills) });
  return listed(
    complete.map(({ drill }) => drill.name),
    words,
  );
}

function lostText(unknown: readonly string[], words: ReportWords): string {
  if (unknown.length <= MOST_LOST) return listed(unknown, words);
  const more = `${unknown.length - MOST_LOST}`;
  return words.say("report.and-more", { drills: unknown.slice(0, MOST_LOST), more });
}

/** "steady", "steady and half-bar", "steady, half-bar and one-bar". */
function listed(names: readonly string[], { say }: ReportWords): string {
  return names.length < 2 ? (names[0] ?? "") : say("report.list", { others: names.slice(0, -1), last: names.at(-1)! });
}

function arrival({ moves, drill }: Climb["tracks"][number], { say }: ReportWords): string {
  const [from, to] = [moves[0]?.rung, moves.at(-1)?.rung];
  if (from === undefined || to === undefined)
    return say("report.arrival", { way: "nowhere", drill: drill.name, rung: "", from: "" });
  return say("report.arrival", {
    way: from === to ? "stays" : to > from ? "up" : "down",
    rung: grouped(to + 1),
    drill: drill.name,
    from: grouped(from + 1),
  });
}

function keyOf({ tracks }: Climb, most: string, { say }: ReportWords): (KeyEntry | false)[] {
  const verdicts = new Set(tracks.flatMap(({ takes }) => takes.map(({ verdict }) => verdict)));
  return [
    {
      mark: (x, y) => stroke(`M${decimal(x)} ${decimal(y)}h8v-8h11`, INK.within, { width: 2.2 }),
      means: say("report.in-key", { mark: "rung" }),
    },
    tracks.some(({ completedAt }) => completedAt !== undefined) && {
      mark: (x, y) => stroke(`M${decimal(x + 10)} ${decimal(y - 10)}v11m-4 0h8m-8 -11h8`, INK.within, { width: 2.4 }),
      means: say("report.in-key", { mark: "complete" }),
    },
    verdicts.has("within") && {
      mark: (x, y) => element("rect", { x: x + 7, y: y - 11, width: 6, height: 11, fill: INK.within }),
      means: most,
    },
    verdicts.has("beyond") && {
      mark: (x, y) => stroke(`M${decimal(x + 7)} ${decimal(y - 10)}v10h6v-10z`, INK.beyond, { width: 1.3 }),
      means: say("report.in-key", { mark: "beyond" }),
    },
    verdicts.has("unclear") && {
      mark: (x, y) => stroke(`M${decimal(x + 8)} ${decimal(y - 4)}h4`, INK.ink, { width: 4 }),
      means: say("report.in-key", { mark: "unclear" }),
    },
    tracks.some(({ moves }) => moves.some(({ byTeacher }) => byTeacher)) && {
      mark: (x, y) =>
        element("circle", { cx: x + 10, cy: y - 4, r: 7, fill: INK.paper, stroke: INK.ink, "stroke-width": 1.2 }) +
        line(say("report.teacher"), x + 10, y, { size: SIZE.small, bold: true, anchor: "middle" }),
      means: say("report.in-key", { mark: "teacher" }),
    },
  ];
}
