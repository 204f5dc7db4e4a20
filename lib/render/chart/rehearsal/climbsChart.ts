import type { RehearsalWords } from "../../../rehearsal/index.js";
import type { RehearsalClimb, RehearsalReport } from "../../../schema/index.js";
import { grouped } from "../../phrases.js";
import { chartDocument, marginOf } from "../chartDocument.js";
import { line, SIZE } from "../lettering.js";
import { INK } from "../palette.js";
import { decimal, element, type Svg } from "../svg.js";
import { stroke } from "../symbols.js";

const LABELS = 34;
const HEIGHT = 220;

/** The climbs of some students: weeks from left to right, rungs left behind upwards, a line for each student. */
export function climbsChart(
  report: RehearsalReport,
  { width, words }: { readonly width: number; readonly words: RehearsalWords },
): Svg {
  const { climbs, results, curriculum, population } = report;
  const rungs = results.drills.reduce((sum, drill) => sum + drill.rungs.length, 0);
  const weeks = Math.max(1, ...climbs.map(({ weekly }) => weekly.length));
  const margin = marginOf(width);
  const left = margin + LABELS;
  const room = width - margin - left;
  const x = (week: number): number => left + (room * week) / weeks;
  const y = (passed: number): number => HEIGHT - (HEIGHT * passed) / Math.max(1, rungs);
  const muted = { size: SIZE.small, fill: INK.muted } as const;
  const grid = [0, rungs].map(
    (at) =>
      stroke(`M${decimal(left)} ${decimal(y(at))}H${decimal(left + room)}`, INK.hair, { width: 0.8 }) +
      line(grouped(at), left - 6, y(at) + 4, { ...muted, anchor: "end" }),
  );
  const dates = [1, weeks].map((week) =>
    line(words.say("rehearsal.week-axis", { week }), week === 1 ? left : left + room, HEIGHT + SIZE.small + 4, {
      ...muted,
      anchor: week === 1 ? "start" : "end",
    }),
  );
  const lines = [...climbs].sort((a, b) => rankOf(a) - rankOf(b)).map((climb) => climbLine(climb, x, y));
  const { say } = words;
  const half = (kind: RehearsalClimb["kind"]): string => {
    const ends = climbs.filter((each) => each.kind === kind).map(({ weekly }) => weekly.at(-1) ?? 0);
    return ends.length === 0 ? "0" : `${ends.sort((a, b) => a - b)[Math.floor((ends.length - 1) / 2)]}`;
  };
  const all = [...grid, ...(weeks > 1 ? dates : dates.slice(0, 1)), ...lines].join("");
  return chartDocument(
    {
      title: say("rehearsal.climbs-title", { students: climbs.length }),
      subject: say("rehearsal.chart-subject", { course: curriculum, edition: results.edition, population }),
      description: say("rehearsal.climbs-description", {
        weeks,
        ...{ steadiest: half("steadiest quarter"), least: half("least steady quarter"), rungs: `${rungs}` },
      }),
    },
    { svg: all, height: HEIGHT + SIZE.small + 8 },
    {
      width,
      key: (["steadiest", "least", "between"] as const).map((mark) => ({
        mark: (at, base) => drawn(`M${decimal(at)} ${decimal(base - 4)}h20`, mark),
        means: say("rehearsal.in-key", { mark }),
      })),
    },
  );
}

/** How a line is drawn: colour is not the only difference. */
const MARKS = {
  steadiest: { colour: INK.within, width: 1.8 },
  least: { colour: INK.beyond, width: 1.8, dash: "5 3" },
  between: { colour: INK.hatch, width: 0.8 },
} as const;

function drawn(path: string, mark: keyof typeof MARKS): Svg {
  const { colour, ...how } = MARKS[mark];
  return stroke(path, colour, how);
}

function markOf({ kind }: RehearsalClimb): keyof typeof MARKS {
  return kind === "steadiest quarter" ? "steadiest" : kind === "least steady quarter" ? "least" : "between";
}

/** The quarters that are told apart are drawn over the others. */
function rankOf(climb: RehearsalClimb): number {
  return markOf(climb) === "between" ? 0 : 1;
}

function climbLine(climb: RehearsalClimb, x: (week: number) => number, y: (passed: number) => number): Svg {
  const points = [0, ...climb.weekly].map((passed, week) => `${decimal(x(week))} ${decimal(y(passed))}`);
  return element("g", { opacity: 0.7 }, drawn(`M${points.join("L")}`, markOf(climb)));
}
