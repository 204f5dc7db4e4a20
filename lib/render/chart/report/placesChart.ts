import { ENGLISH, type ReportWords } from "../../../report/index.js";
import type { Report } from "../../../schema/index.js";
import { daysOf } from "../../../time/index.js";
import { fullDateText } from "../../dateText.js";
import { grouped } from "../../phrases.js";
import { type ChartText, chartDocument, type KeyEntry, marginOf, widthAsked } from "../chartDocument.js";
import { line, SIZE, wrapped } from "../lettering.js";
import { INK } from "../palette.js";
import { decimal, element, type Svg } from "../svg.js";
import { stroke } from "../symbols.js";
import { mostInColumn, placesPanel } from "./placesPanel.js";
import type { WordedChartOptions } from "./wordedChartOptions.js";

const PANEL_GAP = 14;
/** Most drills; the chart states how many are left out. */
const MOST_PANELS = 16;

/**
 * Where the students of a class are, as an SVG document: for each drill that is open or complete for anybody its rungs from left to right, and on them the students, those
 * who are stuck set apart. Names are not drawn.
 *
 * Drawn at `width` px (280 to 2000), at most sixteen drills. The same report gives the same text; an empty one is drawn as such. Throws `RangeError` for
 * another width.
 *
 * @example placesChart(report, { width: 720 })
 */
export function placesChart(
  report: Pick<Report, "courses" | "students" | "at">,
  options: WordedChartOptions = {},
): Svg {
  const { words = ENGLISH } = options;
  const width = widthAsked(options);
  const margin = marginOf(width);
  const room = width - 2 * margin;
  const drills = report.courses.flatMap((course) => course.drills.map((drill) => ({ course, drill })));
  const shown = drills.slice(0, MOST_PANELS);
  const most = Math.max(1, ...shown.map(({ drill }) => mostInColumn(drill, room)));
  const pieces: Svg[] = [];
  let y = 0;
  let before: string | undefined;
  for (const { course, drill } of shown) {
    if (report.courses.length > 1 && course.curriculum !== before) {
      const [name = ""] = wrapped(course.title ?? course.curriculum, room, { size: SIZE.text, most: 1 });
      pieces.push(
        line(name, margin, y + SIZE.text, { fill: INK.muted }),
        stroke(`M${decimal(margin)} ${decimal(y + SIZE.text + 5)}H${decimal(width - margin)}`, INK.hair, {
          width: 0.8,
        }),
      );
      y += SIZE.text + 14;
    }
    before = course.curriculum;
    const drawn = placesPanel(drill, { words, left: margin, room, most });
    pieces.push(element("g", { transform: `translate(0 ${decimal(y)})` }, drawn.svg));
    y += drawn.height + PANEL_GAP;
  }
  y = Math.max(0, y - PANEL_GAP);
  if (drills.length > shown.length) {
    y += SIZE.small + 8;
    const more = drills.length - shown.length;
    const text = words.say("report.more-drills", { drills: more, shown: grouped(more) });
    pieces.push(line(text, margin, y - 2, { size: SIZE.small, fill: INK.muted }));
  }
  return chartDocument(
    textOf(report, words),
    { svg: pieces.join(""), height: y },
    { width, key: keyOf(report, words) },
  );
}

function textOf({ courses, students, at }: Pick<Report, "courses" | "students" | "at">, words: ReportWords): ChartText {
  const { say } = words;
  const date = fullDateText(daysOf(at), words);
  const [only] = courses;
  const subject =
    only !== undefined && courses.length === 1
      ? say("report.in-course-on", { course: only.title ?? only.curriculum, date })
      : date;
  if (students.length === 0)
    return { title: say("report.nobody-enrolled"), subject, description: say("report.no-students") };
  const stuck = students.filter((each) => each.courses.some(({ places }) => places.some(({ stall }) => stall))).length;
  const quiet = students.filter((each) => each.courses.some((course) => course.quiet)).length;
  const of = {
    students: students.length,
    shown: grouped(students.length),
    stuck,
    stuckShown: grouped(stuck),
  };
  const notPlayed = say("report.not-played", { students: quiet, shown: grouped(quiet) });
  return {
    title: quiet === 0 ? say("report.of-students", of) : say("report.of-students-quiet", { ...of, quiet: notPlayed }),
    subject,
    description: courses
      .flatMap(({ drills }) => drills)
      .slice(0, MOST_PANELS)
      .map(({ drill, places, complete }) => {
        const open = places.reduce((sum, place) => sum + place.students, 0);
        const held = places.reduce((sum, place) => sum + place.stuck, 0);
        return say("report.drill-in-words", {
          drill,
          open: `${open}`,
          stuck: `${held}`,
          complete: `${complete}`,
        });
      })
      .join(" "),
  };
}

function keyOf({ courses }: Pick<Report, "courses">, { say }: ReportWords): (KeyEntry | false)[] {
  const places = courses.flatMap(({ drills }) => drills.flatMap((drill) => drill.places));
  const box = (x: number, y: number): { x: number; y: number; width: number; height: number } => ({
    x: x + 5,
    y: y - 10,
    width: 10,
    height: 11,
  });
  return [
    places.length > 0 && {
      mark: (x, y) => element("rect", { ...box(x, y), fill: INK.within }),
      means: say("report.students-on-rung"),
    },
    places.some(({ stuck }) => stuck > 0) && {
      mark: (x, y) => element("rect", { ...box(x, y), fill: INK.paper, stroke: INK.beyond, "stroke-width": 2 }),
      means: say("report.stuck-there"),
    },
  ];
}
