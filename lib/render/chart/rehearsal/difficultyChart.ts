import type { RehearsalWords } from "../../../rehearsal/index.js";
import type { RehearsalDrill, RehearsalReport, RehearsalRung } from "../../../schema/index.js";
import { grouped } from "../../phrases.js";
import { chartDocument, type Drawn, marginOf, panelHeading, stacked } from "../chartDocument.js";
import { line, SIZE } from "../lettering.js";
import { INK } from "../palette.js";
import { decimal, element, type Svg } from "../svg.js";
import { stroke } from "../symbols.js";

const LABELS = 44;
const PLOT = 90;
/** Between a heading and its plot, px. */
const HEADING_GAP = 10;
/** Widest distance of two rungs, px, and the most drills that are drawn. */
const WIDEST = 60;
const MOST_PANELS = 16;
/** Of the students who come to a rung, the share that need very long for it from which on it is marked: as a wall is. */
const MARKED = 0.1;

/** How hard each rung is on arrival: drill by drill the share of clean takes, for all and between the steadiest and the least steady quarter. */
export function difficultyChart(
  report: RehearsalReport,
  { width, words }: { readonly width: number; readonly words: RehearsalWords },
): Svg {
  const { results, against, curriculum, population } = report;
  const { say } = words;
  const shown = results.drills.slice(0, MOST_PANELS);
  const margin = marginOf(width);
  const most = Math.max(1, ...shown.map(({ rungs }) => rungs.length));
  const pitch = Math.min(WIDEST, (width - 2 * margin - LABELS) / most);
  const panels = shown.map((drill) =>
    panel(
      drill,
      against?.drills.find((old) => old.drill === drill.drill),
      { words, left: margin, width, pitch },
    ),
  );
  const dot = (x: number, y: number): Svg => element("circle", { cx: x + 10, cy: y - 4, r: 3, fill: INK.within });
  return chartDocument(
    {
      title: say("rehearsal.ladder-title"),
      subject: say("rehearsal.chart-subject", { course: curriculum, edition: results.edition, population }),
      description: shown
        .map(({ drill, rungs }) =>
          say("rehearsal.ladder-description", { drill, clean: rungs.map((rung) => percent(cleanOf(rung, 0), words)) }),
        )
        .join(" "),
    },
    stacked(panels, 16),
    {
      width,
      key: [
        { mark: dot, means: say("rehearsal.in-key", { mark: "all" }) },
        {
          mark: (x, y) => element("rect", { x: x + 6, y: y - 11, width: 8, height: 12, fill: INK.band }),
          means: say("rehearsal.in-key", { mark: "quarters" }),
        },
        { mark: (x, y) => wallMark(x + 10, y - 4), means: say("rehearsal.in-key", { mark: "stuck" }) },
        against !== undefined && {
          mark: (x, y) => stroke(`M${decimal(x)} ${decimal(y - 4)}h20`, INK.ink, { width: 1.2, dash: "3 3" }),
          means: say("rehearsal.in-key", { mark: "old" }),
        },
      ],
    },
  );
}

function panel(
  { drill, title, rungs }: RehearsalDrill,
  old: RehearsalDrill | undefined,
  place: { readonly words: RehearsalWords; readonly left: number; readonly width: number; readonly pitch: number },
): Drawn {
  const { words, left, width, pitch } = place;
  const x = (i: number): number => left + LABELS + (i + 0.5) * pitch;
  const headed = panelHeading(title ?? drill, "", { left, room: width - 2 * left });
  const top = headed.height + HEADING_GAP;
  const y = (clean: number): number => top + PLOT * (1 - clean);
  const right = left + LABELS + rungs.length * pitch;
  const muted = { size: SIZE.small, fill: INK.muted } as const;
  const pieces: Svg[] = [headed.svg];
  for (const at of [0, 0.5, 1])
    pieces.push(
      stroke(`M${decimal(left + LABELS)} ${decimal(y(at))}H${decimal(right)}`, INK.hair, { width: 0.8 }),
      line(percent(at, words), left + LABELS - 6, y(at) + 4, { ...muted, anchor: "end" }),
    );
  const met = rungs.map((rung, i) => ({ rung, i })).filter(({ rung }) => rung.reached > 0);
  const bar = Math.min(14, pitch * 0.6);
  for (const { rung, i } of met) {
    const [high, low] = [cleanOf(rung, 1), cleanOf(rung, 4)].map((each) => y(each ?? cleanOf(rung, 0)!)) as [
      number,
      number,
    ];
    pieces.push(
      element("rect", {
        ...{ x: x(i) - bar / 2, y: Math.min(high, low), width: bar, height: Math.max(1.5, Math.abs(low - high)) },
        fill: INK.band,
      }),
    );
  }
  const path = (points: readonly (readonly [number, number])[]): string =>
    `M${points.map(([px, py]) => `${decimal(px)} ${decimal(py)}`).join("L")}`;
  if (old !== undefined) {
    // Rungs of the old edition stand at the places of the same settings.
    const points = met.flatMap(({ rung, i }): [number, number][] => {
      const before = old.rungs.find((each) => each.rung === rung.rung);
      return before === undefined || before.reached === 0 ? [] : [[x(i), y(cleanOf(before, 0)!)]];
    });
    if (points.length > 0) pieces.push(stroke(path(points), INK.ink, { width: 1.2, dash: "3 3" }));
  }
  if (met.length > 0)
    pieces.push(stroke(path(met.map(({ rung, i }) => [x(i), y(cleanOf(rung, 0)!)])), INK.within, { width: 1.6 }));
  for (const { rung, i } of met) {
    pieces.push(element("circle", { cx: x(i), cy: y(cleanOf(rung, 0)!), r: 3, fill: INK.within }));
    if (rung.long >= MARKED * rung.reached) pieces.push(wallMark(x(i), top + PLOT + 8));
  }
  const base = top + PLOT + SIZE.small + 14;
  pieces.push(line(grouped(1), x(0), base, { ...muted, anchor: "middle" }));
  if (rungs.length > 1)
    pieces.push(line(grouped(rungs.length), x(rungs.length - 1), base, { ...muted, anchor: "middle" }));
  return { svg: pieces.join(""), height: base + 4 };
}

function wallMark(x: number, y: number): Svg {
  return stroke(`M${decimal(x - 5)} ${decimal(y + 4)}h10l-5 -9z`, INK.beyond, { width: 1.6 });
}

/** Share of clean takes on arrival of one kind; `undefined` when nobody of it came. */
function cleanOf({ arrival }: RehearsalRung, kind: number): number | undefined {
  const { reached, clean } = arrival[kind]!;
  return reached === 0 ? undefined : clean;
}

function percent(share: number | undefined, { say }: RehearsalWords): string {
  return share === undefined ? say("rehearsal.none") : say("rehearsal.percent", { percent: (100 * share).toFixed(0) });
}
