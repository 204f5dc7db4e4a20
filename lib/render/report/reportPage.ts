import {
  driftWords,
  ENGLISH,
  landingWords,
  placeWords,
  QUIET_DAYS,
  type ReportWords,
  stickingWords,
  tallyWords,
} from "../../report/index.js";
import type { CourseReport, LengthDrift, Report, StudentPlace } from "../../schema/index.js";
import { daysOf } from "../../time/index.js";
import { cautionsIn } from "../../words/index.js";
import { type ClimbSource, reportCharts } from "../chart/report/reportChart.js";
import { escapeText } from "../chart/svg.js";
import { fullDateText } from "../dateText.js";
import { STYLE } from "./styleSheet.js";

export interface ReportPageOptions {
  /** Journals drawn as climb charts; for a report of one student. */
  readonly climbs?: readonly ClimbSource[];
  /** The language of the page; English when left out. */
  readonly words?: ReportWords;
}

/** Chart widths for screens and paper, and for phones, px. */
const WIDTHS = { wide: 720, phone: 360 } as const;

/**
 * A report as one HTML page without scripts, other files or network access; its charts are inline SVG. The page is legible on a phone and on
 * paper, and its text states everything the charts show. Names are escaped.
 *
 * @example reportPage(openReport({ at }).close())
 */
export function reportPage(report: Report, { climbs = [], words = ENGLISH }: ReportPageOptions = {}): string {
  const { say } = words;
  const { students, at, since } = report;
  const title =
    students.length === 1
      ? say("report.title", { student: students[0]!.student })
      : say("report.title-of-many", { students: students.length });
  const date = day(at, words);
  const on =
    since === undefined
      ? say("report.on", { date })
      : say("report.on-since", { date, since: day(`${since}T00:00`, words) });
  const body = html`<h1>${title}</h1>
<p class="quiet">${on}</p>
${stuckSection(report, words)}
${charts(report, climbs, words)}
${placesSection(report, words)}
${driftSection(report.drift, words)}
${closing(words)}`;
  const head = html`<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${title}</title>
<style>${known(STYLE)}</style>`;
  return `<!doctype html>\n<html lang="${words.language}">\n<head>\n${head.html}\n</head>\n<body>\n<main>\n${body.html}\n</main>\n</body>\n</html>\n`;
}

function stuckSection({ students }: Report, words: ReportWords): Html {
  const { say } = words;
  const stuck = students.flatMap(({ student, courses }) =>
    courses.flatMap(({ places }) => places.flatMap((place) => (place.stall === undefined ? [] : [{ student, place }]))),
  );
  const heading = html`<h2>${say("report.who-is-stuck")}</h2>`;
  if (stuck.length === 0) return html`${heading}<p>${say("report.nobody-stuck")}</p>`;
  return html`${heading}${stuck.map(({ student, place }) => {
    const { stuckAfter, stall } = place;
    const whose = say("report.stuck-in", {
      student: SLOT,
      drill: place.title ?? place.drill,
      place: placeWords(place, words),
    });
    const since = say("report.called-stuck", {
      since: day(stall!.since, words),
      takes: tallyWords(stall!.takes, words),
      after: stuckAfter as number,
    });
    return html`
<div class="stuck">${filled(whose, html`<strong><bdi>${student}</bdi></strong>`)}
<p>${since}</p>
<ul>${stall!.on.map((each) => html`<li>${stickingWords(each, words)}</li>`)}</ul></div>`;
  })}`;
}

function charts(report: Report, climbs: readonly ClimbSource[], words: ReportWords): Html {
  const at = (width: number): readonly string[] => reportCharts(report, { climbs, width, words });
  const [wide, phone] = [at(WIDTHS.wide), at(WIDTHS.phone)];
  return html`${wide.map(
    (svg, i) => html`
<div class="chart wide">${known(svg)}</div><div class="chart phone">${known(phone[i]!)}</div>`,
  )}`;
}

function placesSection({ students, courses }: Report, words: ReportWords): Html {
  const { say } = words;
  if (students.length === 0)
    return html`<h2>${say("report.where-everybody")}</h2><p>${say("report.nobody-enrolled")}</p>`;
  const single = courses.length < 2;
  const rows = students.flatMap(({ student, courses: own }) =>
    own.flatMap((course) =>
      (course.places.length === 0 ? [undefined] : course.places).map((place) => {
        const named = single ? SLOT : say("report.in-course", { student: SLOT, course: course.curriculum });
        return html`
<tr><td>${filled(named, html`<bdi>${student}</bdi>`)}</td><td>${whereWords(course, place, words)}</td><td class="day" data-is="${say("report.label", { of: "since" })}">${
          place === undefined ? "" : day(place.since, words)
        }</td><td data-is="${say("report.label", { of: "takes-there" })}">${place === undefined ? "" : tallyWords(place.takes, words)}</td><td class="day" data-is="${say("report.label", { of: "last-take" })}">${
          course.lastTake === undefined ? say("report.none") : day(course.lastTake, words)
        }${course.quiet ? html` <span class="quiet">${say("report.quiet")}</span>` : ""}</td></tr>`;
      }),
    ),
  );
  const heads = (["student", "drill-and-rung", "since", "takes-there", "last-take"] as const).map(
    (of) => html`<th>${say("report.head-of-column", { of })}</th>`,
  );
  return html`<h2>${say(students.length === 1 ? "report.where-the-student" : "report.where-everybody")}</h2>
<table><thead><tr>${heads}</tr></thead><tbody>${rows}
</tbody></table>`;
}

/** The drill and rung of a student, or the reason why there is none. */
function whereWords({ edition, complete }: CourseReport, place: StudentPlace | undefined, words: ReportWords): string {
  if (place !== undefined) {
    const at = { drill: place.title ?? place.drill, place: placeWords(place, words) };
    return words.say(place.stall === undefined ? "report.drill-at" : "report.drill-at-stuck", at);
  }
  if (edition === undefined) return words.say("report.not-arrived");
  return words.say(complete.length === 0 ? "report.none-open" : "report.every-open-complete");
}

function driftSection(drift: readonly LengthDrift[], words: ReportWords): Html {
  const { say } = words;
  const heading = html`<h2>${say("report.drift-in-silences")}</h2>`;
  if (drift.length === 0) return html`${heading}<p>${say("report.no-silence-yet")}</p>`;
  const head = (of: "week" | "takes" | "silences" | "not-counted" | "drift" | "landing"): string =>
    say("report.head-of-column", { of });
  const label = (of: "takes" | "silences" | "not-counted" | "landing"): string => say("report.label", { of });
  return html`${heading}
<p>${say("report.how-to-read")} ${say("report.landings-are")}</p>
${drift.map((row) => {
  const length = row.length ?? say("report.unknown-length");
  return html`<h3>${row.told === "each silence" ? say("report.length", { told: "each-silence", length }) : say("report.largest-of-each", { length })}</h3>
<table><thead><tr><th>${head("week")}</th><th class="number">${head("takes")}</th><th class="number">${head("silences")}</th><th class="number">${head("not-counted")}</th><th>${head("drift")}</th><th>${head("landing")}</th></tr></thead><tbody>${row.weeks.map(
    (week) => html`
<tr><td>${day(`${week.week}T00:00`, words)}</td><td class="number" data-is="${label("takes")}">${week.takes}</td><td class="number" data-is="${label("silences")}">${week.measured}</td><td class="number" data-is="${label("not-counted")}">${week.unmeasured}</td><td>${driftWords(week, words)}</td><td data-is="${label("landing")}">${landingWords(week, words)}</td></tr>`,
  )}
</tbody></table>`;
})}`;
}

function closing(words: ReportWords): Html {
  const { say } = words;
  const explained = (word: "stuck" | "quiet" | "drift", says: string): Html =>
    html`<p>${filled(says, html`<strong>${say("report.word", { word })}</strong>`)}</p>`;
  return html`<footer>
${explained("stuck", say("report.means-stuck", { word: SLOT }))}
${explained("quiet", say("report.means-quiet", { word: SLOT, days: QUIET_DAYS }))}
${explained("drift", say("report.means-drift", { word: SLOT }))}
<p>${say("report.about-worth")}</p>
<p>${cautionsIn(words).join(" ")}</p>
</footer>`;
}

function day(at: string, words: ReportWords): string {
  return fullDateText(daysOf(at), words);
}

/** Stands in a message for what is set apart in it: a sign that no name on a page shows. */
const SLOT = "\u0000";

/** A message as markup, with what is set apart in the place of the first `SLOT`. */
function filled(message: string, apart: Html): Html {
  const at = message.indexOf(SLOT);
  return html`${message.slice(0, at)}${apart}${message.slice(at + 1)}`;
}

/** Safe HTML markup. Any other text is escaped before it becomes markup. */
interface Html {
  readonly html: string;
}

type Piece = Html | string | number | undefined | readonly Piece[];

/**
 * A template tag for HTML: inserted texts are escaped, inserted markup is kept. Names are user input and may contain markup.
 *
 * @example html`<p>${"<script>"}</p>` // <p>&lt;script&gt;</p>
 */
function html(markup: TemplateStringsArray, ...pieces: readonly Piece[]): Html {
  return { html: markup.reduce((text, piece, i) => `${text}${written(pieces[i - 1])}${piece}`) };
}

/** Marks markup as safe: charts, whose texts are already escaped. */
function known(markup: string): Html {
  return { html: markup };
}

function written(piece: Piece): string {
  if (piece === undefined) return "";
  if (typeof piece === "number") return `${piece}`;
  if (typeof piece === "string") return escapeText(piece);
  return "html" in piece ? piece.html : piece.map(written).join("");
}
