import type { Report } from "../../../schema/index.js";
import { daysOf } from "../../../time/index.js";
import { counted, fullDateText, grouped } from "../../phrases.js";
import {
  type ChartOptions,
  type ChartText,
  chartDocument,
  type KeyEntry,
  marginOf,
  widthAsked,
} from "../chartDocument.js";
import { line, SIZE, wrapped } from "../lettering.js";
import { INK } from "../palette.js";
import { decimal, element, type Svg } from "../svg.js";
import { stroke } from "../symbols.js";
import { mostInColumn, placesPanel } from "./placesPanel.js";

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
export function placesChart(report: Pick<Report, "courses" | "students" | "at">, options: ChartOptions = {}): Svg {
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
    const drawn = placesPanel(drill, { left: margin, room, most });
    pieces.push(element("g", { transform: `translate(0 ${decimal(y)})` }, drawn.svg));
    y += drawn.height + PANEL_GAP;
  }
  y = Math.max(0, y - PANEL_GAP);
  if (drills.length > shown.length) {
    y += SIZE.small + 8;
    const text = `${counted(drills.length - shown.length, "more drill")} not drawn.`;
    pieces.push(line(text, margin, y - 2, { size: SIZE.small, fill: INK.muted }));
  }
  return chartDocument(wordsOf(report), { svg: pieces.join(""), height: y }, { width, key: keyOf(report) });
}

function wordsOf({ courses, students, at }: Pick<Report, "courses" | "students" | "at">): ChartText {
  const name = courses.length === 1 ? `${courses[0]!.title ?? courses[0]!.curriculum}, ` : "";
  const subject = `${name}${fullDateText(daysOf(at))}`;
  if (students.length === 0) return { title: "Nobody is enrolled yet.", subject, description: "No students." };
  const stuck = students.filter((each) => each.courses.some(({ places }) => places.some(({ stall }) => stall))).length;
  const quiet = students.filter((each) => each.courses.some((course) => course.quiet)).length;
  const are = (count: number, what: string): string => `${grouped(count)} ${count === 1 ? "is" : "are"} ${what}`;
  const said = [
    stuck === 0 ? "nobody is stuck" : are(stuck, "stuck"),
    ...(quiet === 0 ? [] : [`${grouped(quiet)} ${quiet === 1 ? "has" : "have"} not played for three weeks`]),
  ];
  return {
    title: `Of ${counted(students.length, "student")} ${said.join(", ")}.`,
    subject,
    description: courses
      .flatMap(({ drills }) => drills)
      .slice(0, MOST_PANELS)
      .map(({ drill, places, complete }) => {
        const open = places.reduce((sum, place) => sum + place.students, 0);
        const held = places.reduce((sum, place) => sum + place.stuck, 0);
        return `${drill}: ${open} at work, ${held} of them stuck, ${complete} complete.`;
      })
      .join(" "),
  };
}

function keyOf({ courses }: Pick<Report, "courses">): (KeyEntry | false)[] {
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
      means: "students on a rung, easiest rung on the left",
    },
    places.some(({ stuck }) => stuck > 0) && {
      mark: (x, y) => element("rect", { ...box(x, y), fill: INK.paper, stroke: INK.beyond, "stroke-width": 2 }),
      means: "stuck there",
    },
  ];
}
