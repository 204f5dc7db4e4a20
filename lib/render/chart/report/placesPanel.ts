import type { ReportWords } from "../../../report/index.js";
import type { DrillCount } from "../../../schema/index.js";
import { grouped } from "../../phrases.js";
import { type Drawn, panelHeading } from "../chartDocument.js";
import { fitted, line, SIZE, widthOf } from "../lettering.js";
import { INK } from "../palette.js";
import { decimal, element, type Svg } from "../svg.js";
import { stroke } from "../symbols.js";

/** Between a heading and its plot, px. */
const HEADING_GAP = 8;
const NUMBERS = SIZE.small + 3;
const PLOT = 44;
/** Widest and narrowest column of a rung, px. When a drill has more rungs than fit, neighbouring rungs share a column. */
const WIDEST = 54;
const NARROWEST = 18;

interface Column {
  students: number;
  stuck: number;
}

/** The number of students in each column; students on unknown rungs are left out. */
function columnsOf({ places, rungs = 1 }: DrillCount, room: number): readonly Column[] {
  const count = Math.max(1, Math.min(rungs, Math.floor(room / NARROWEST)));
  const columns = Array.from({ length: count }, (): Column => ({ students: 0, stuck: 0 }));
  for (const { number, students, stuck } of places) {
    if (number === undefined) continue;
    const column = columns[Math.min(count - 1, Math.floor(((number - 1) / Math.max(1, rungs)) * count))]!;
    column.students += students;
    column.stuck += stuck;
  }
  return columns;
}

/** Most students in one column. */
export function mostInColumn(drill: DrillCount, room: number): number {
  return Math.max(0, ...columnsOf(drill, room).map(({ students }) => students));
}

/** One drill: rungs from left to right, and the number of students on each as a column; `most` students have the full height. */
export function placesPanel(
  drill: DrillCount,
  {
    words,
    left,
    room,
    most,
  }: { readonly words: ReportWords; readonly left: number; readonly room: number; readonly most: number },
): Drawn {
  const columns = columnsOf(drill, room);
  const pitch = Math.min(WIDEST, room / columns.length);
  const headed = heading(drill, { words, left, room });
  const top = headed.height + HEADING_GAP;
  const floor = top + NUMBERS + PLOT;
  const pieces: Svg[] = [headed.svg];
  const unknown = drill.places.reduce((sum, { number, students }) => sum + (number === undefined ? students : 0), 0);
  if (columns.every(({ students }) => students === 0)) {
    const aside =
      unknown === 0 ? "" : words.say("report.unknown-rungs", { students: unknown, shown: grouped(unknown) });
    if (aside !== "")
      pieces.push(
        line(fitted(aside, room, { size: SIZE.small }), left, top + SIZE.small + 2, {
          size: SIZE.small,
          fill: INK.muted,
        }),
      );
    return { svg: pieces.join(""), height: top + (aside === "" ? 0 : SIZE.small + 6) };
  }
  columns.forEach(({ students, stuck }, i) => {
    if (students === 0) return;
    const x = left + i * pitch + 2;
    const width = pitch - 4;
    const unit = PLOT / most;
    const height = Math.max(4, students * unit);
    // Stuck students are always visible, however many others there are.
    const held = stuck === 0 ? 0 : stuck === students ? height : Math.min(height - 2, Math.max(5, stuck * unit));
    pieces.push(
      held < height
        ? element("rect", { x, y: floor - (height - held), width, height: height - held, fill: INK.within })
        : "",
      held > 0
        ? element("rect", {
            x: x + 1,
            y: floor - height + 1,
            width: width - 2,
            height: Math.max(2, held - 2),
            fill: INK.paper,
            stroke: INK.beyond,
            "stroke-width": 2,
          })
        : "",
      line(fitted(grouped(students), pitch, { size: SIZE.small }), x + width / 2, floor - height - 4, {
        size: SIZE.small,
        anchor: "middle",
      }),
    );
  });
  const right = left + columns.length * pitch;
  pieces.push(stroke(`M${decimal(left)} ${decimal(floor)}H${decimal(right)}`, INK.muted, { width: 0.8 }));
  pieces.push(ends(drill, { words, left, right, y: floor + SIZE.small + 3 }));
  return { svg: pieces.join(""), height: floor + SIZE.small + 6 };
}

function heading(
  { drill, title, places, complete }: DrillCount,
  { words: { say }, left, room }: { readonly words: ReportWords; readonly left: number; readonly room: number },
): Drawn {
  const open = places.reduce((sum, { students }) => sum + students, 0);
  const stuck = places.reduce((sum, place) => sum + place.stuck, 0);
  const parts = [
    ...(open === 0 ? [] : [say("report.at-work", { shown: grouped(open) })]),
    ...(stuck === 0 ? [] : [say("report.held", { shown: grouped(stuck) })]),
    ...(complete === 0 ? [] : [say("report.complete-there", { shown: grouped(complete) })]),
  ];
  const counts = parts.length === 0 ? "" : say("report.drill-counts", { counts: parts });
  return panelHeading(title ?? drill, counts, { left, room, fill: INK.muted });
}

/** The numbers of the first and the last rung. */
function ends(
  { rungs = 1 }: DrillCount,
  {
    words: { say },
    left,
    right,
    y,
  }: { readonly words: ReportWords; readonly left: number; readonly right: number; readonly y: number },
): Svg {
  const muted = { size: SIZE.small, fill: INK.muted } as const;
  const lowest = say("report.rung", { shown: grouped(1) });
  const first = line(rungs === 1 ? say("report.one-rung") : lowest, left + 2, y, muted);
  const last = fitted(grouped(rungs), 90, muted);
  const isRoom = right - left > widthOf(lowest, muted) + widthOf(last, muted) + 14;
  return first + (rungs > 1 && isRoom ? line(last, right - 2, y, { ...muted, anchor: "end" }) : "");
}
