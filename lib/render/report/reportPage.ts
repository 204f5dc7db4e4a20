import { CAUTION } from "../../base/index.js";
import { driftWords, placeWords, QUIET_DAYS, stickingWords, tallyWords } from "../../report/index.js";
import type { CourseReport, LengthDrift, Report, StudentPlace } from "../../schema/index.js";
import { daysOf } from "../../time/index.js";
import { type ClimbSource, reportCharts } from "../chart/report/reportChart.js";
import { escapeText } from "../chart/svg.js";
import { fullDateText } from "../phrases.js";
import { STYLE } from "./styleSheet.js";

export interface ReportPageOptions {
  /** Journals drawn as climb charts; for a report of one student. */
  readonly climbs?: readonly ClimbSource[];
}

/** Chart widths for screens and paper, and for phones, px. */
const WIDTHS = { wide: 720, phone: 360 } as const;

/**
 * A report as one HTML page without scripts, other files or network access; its charts are inline SVG. The page is legible on a phone and on
 * paper, and its text states everything the charts show. Names are escaped.
 *
 * @example reportPage(openReport({ at }).close())
 */
export function reportPage(report: Report, { climbs = [] }: ReportPageOptions = {}): string {
  const { students, at, since } = report;
  const title =
    students.length === 1
      ? `Keeping time: ${students[0]!.student}`
      : `Keeping time: ${count(students.length, "student")}`;
  const period = since === undefined ? "" : ` Takes counted since ${day(`${since}T00:00`)}.`;
  const body = html`<h1>${title}</h1>
<p class="quiet">${day(at)}.${period}</p>
${stuckSection(report)}
${charts(report, climbs)}
${placesSection(report)}
${driftSection(report.drift)}
${CLOSING}`;
  const head = html`<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="robots" content="noindex">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${title}</title>
<style>${known(STYLE)}</style>`;
  return `<!doctype html>\n<html lang="en">\n<head>\n${head.html}\n</head>\n<body>\n<main>\n${body.html}\n</main>\n</body>\n</html>\n`;
}

function stuckSection({ students }: Report): Html {
  const stuck = students.flatMap(({ student, courses }) =>
    courses.flatMap(({ places }) => places.flatMap((place) => (place.stall === undefined ? [] : [{ student, place }]))),
  );
  if (stuck.length === 0) return html`<h2>Who is stuck</h2><p>Nobody.</p>`;
  return html`<h2>Who is stuck</h2>${stuck.map(({ student, place }) => {
    const stall = place.stall!;
    return html`
<div class="stuck"><strong><bdi>${student}</bdi></strong>, ${place.title ?? place.drill}: ${placeWords(place)}
<p>Since ${day(stall.since)}: ${tallyWords(stall.takes)}, and no new rung. Called stuck after ${place.stuckAfter as number} takes.</p>
<ul>${stall.on.map((each) => html`<li>${stickingWords(each)}</li>`)}</ul></div>`;
  })}`;
}

function charts(report: Report, climbs: readonly ClimbSource[]): Html {
  const at = (width: number): readonly string[] => reportCharts(report, { climbs, width });
  const [wide, phone] = [at(WIDTHS.wide), at(WIDTHS.phone)];
  return html`${wide.map(
    (svg, i) => html`
<div class="chart wide">${known(svg)}</div><div class="chart phone">${known(phone[i]!)}</div>`,
  )}`;
}

function placesSection({ students, courses }: Report): Html {
  if (students.length === 0) return html`<h2>Where everybody is</h2><p>Nobody is enrolled yet.</p>`;
  const single = courses.length < 2;
  const rows = students.flatMap(({ student, courses: own }) =>
    own.flatMap((course) =>
      (course.places.length === 0 ? [undefined] : course.places).map(
        (place) => html`
<tr><td><bdi>${student}</bdi>${single ? "" : ` (${course.curriculum})`}</td><td>${whereWords(course, place)}</td><td class="day" data-is="since">${
          place === undefined ? "" : day(place.since)
        }</td><td data-is="takes there">${place === undefined ? "" : tallyWords(place.takes)}</td><td class="day" data-is="last take">${
          course.lastTake === undefined ? "none" : day(course.lastTake)
        }${course.quiet ? html` <span class="quiet">(quiet)</span>` : ""}</td></tr>`,
      ),
    ),
  );
  const where = students.length === 1 ? "Where the student is" : "Where everybody is";
  return html`<h2>${where}</h2>
<table><thead><tr><th>Student</th><th>Drill and rung</th><th>Since</th><th>Takes there</th><th>Last take</th></tr></thead><tbody>${rows}
</tbody></table>`;
}

/** The drill and rung of a student, or the reason why there is none. */
function whereWords({ edition, complete }: CourseReport, place: StudentPlace | undefined): string {
  if (place !== undefined)
    return `${place.title ?? place.drill}: ${placeWords(place)}${place.stall === undefined ? "" : ", stuck"}`;
  if (edition === undefined) return "the enrolment has not arrived";
  return complete.length === 0 ? "no drill is open" : "every drill that was open is complete";
}

function driftSection(drift: readonly LengthDrift[]): Html {
  if (drift.length === 0) return html`<h2>Drift in silences</h2><p>No take with a silence yet.</p>`;
  return html`<h2>Drift in silences</h2>
<p>Median (middle half). Early and fast is rushing, late and slow is dragging.</p>
${drift.map(
  (row) => html`<h3>${row.length ?? "Unknown length"}${row.told === "each silence" ? "" : ", largest of each take"}</h3>
<table><thead><tr><th>Week of</th><th class="number">Takes</th><th class="number">Silences</th><th class="number">Not counted</th><th>Drift</th></tr></thead><tbody>${row.weeks.map(
    (week) => html`
<tr><td>${day(`${week.week}T00:00`)}</td><td class="number" data-is="takes">${week.takes}</td><td class="number" data-is="silences">${week.measured}</td><td class="number" data-is="not counted">${week.unmeasured}</td><td>${driftWords(week)}</td></tr>`,
  )}
</tbody></table>`,
)}`;
}

const CLOSING = html`<footer>
<p><strong>Stuck</strong>: after so many takes still without a new rung; of players for whom the rung is right, only 1 in 20 needs that long. Listen before you decide.</p>
<p><strong>Quiet</strong>: no take for ${QUIET_DAYS} days although a drill is open.</p>
<p><strong>Drift</strong>: how far the player's time moved from the start of a silence to its end. Not counted are silences in which nothing was played, and takes that can be read in several ways.</p>
<p>Findings are about time, not about worth; a teacher's ear has the last word.</p>
<p>${CAUTION}</p>
</footer>`;

function day(at: string): string {
  return fullDateText(daysOf(at));
}

function count(number: number, what: string): string {
  return `${number} ${what}${number === 1 ? "" : "s"}`;
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
