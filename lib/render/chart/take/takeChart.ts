import type { Finding, Score, Take } from "../../../schema/index.js";
import { traceTake, type Verdict } from "../../../take/index.js";
import { silencesHeard } from "../../phrases.js";
import { type ChartOptions, chartDocument, type KeyEntry, marginOf, stacked, widthAsked } from "../chartDocument.js";
import { labelRoom, line, SIZE } from "../lettering.js";
import { INK } from "../palette.js";
import { decimal, element, type Svg } from "../svg.js";
import { addedMark, block, missedMark, returnMark, stillness, stroke, upright, verdictMark } from "../symbols.js";
import { ENGLISH } from "../words.js";
import { driftLimit, takeWords } from "./description.js";
import { landingLost } from "./landingText.js";
import { takeRow } from "./rowPlot.js";
import type { TakePicture } from "./rows.js";
import { CROWDED_BAR, onsetTimes, takeRows } from "./rows.js";
import { asynchronyScale } from "./toleranceMarks.js";

/** Least room for the labels of the axis, px. */
const LABELS = 48;
const ROW_GAP = 12;

/**
 * A take as an SVG document: the asynchrony of the player in milliseconds (late is up, early is down) with its 95 % band, silences, landings,
 * the tolerance and verdict of each silence, and missed and added notes.
 *
 * `finding` is what `assess(score, take)` gave. Drawn at `width` px (280 to 2000) in at most six rows, whatever the length of the take; the
 * same input gives the same text. A take in which nothing was played shows what was expected. Throws `RangeError` for another width, a time
 * that is not finite, or a finding of another take (an index outside it).
 *
 * @example takeChart(score, take, assess(score, take), { width: 360 })
 */
export function takeChart(score: Score, take: Take, finding: Finding, options: ChartOptions = {}): Svg {
  const width = widthAsked(options);
  const margin = marginOf(width);
  const played = onsetTimes(score, take);
  requireOf(score, played, finding);
  const { words = ENGLISH } = options;
  const picture: TakePicture = { score, finding, played, trace: traceTake(score, take), words };
  const left = margin + labelRoom(lanesOf(picture), LABELS);
  const room = width - margin - left - 6;
  const rows = takeRows(score, room);
  const plot = rows.length === 1 ? 150 : rows.length === 2 ? 120 : 90;
  const perSecond = room / Math.max(...rows.map(({ from, to }) => to - from));
  const crowded = (perSecond * score.duration) / Math.max(1, score.bars.length) < CROWDED_BAR;
  const frame = { crowded, left, room, plot, perSecond, y: asynchronyScale(picture, plot) };
  const unit = line(words.say("chart.axis"), margin, SIZE.small, { size: SIZE.small, fill: INK.muted });
  const drawn = stacked(
    rows.map((row) => takeRow(picture, row, frame)),
    ROW_GAP,
    SIZE.small + 8,
  );
  return chartDocument(
    takeWords(score, finding, words),
    { svg: unit + drawn.svg, height: drawn.height },
    { width, key: keyOf(picture, crowded) },
  );
}

/** What stands beside the rows of a take. */
function lanesOf({ finding, words }: TakePicture): readonly string[] {
  const { say } = words;
  return [
    // Further from the plot than the others.
    `${say("chart.bar")}  `,
    ...(finding.missed.length > 0 ? [say("chart.left-out")] : []),
    ...(finding.added.length > 0 ? [say("chart.added")] : []),
    ...(finding.dropouts.some((dropout) => landingLost(dropout, words) !== "") ? [say("chart.landing")] : []),
  ];
}

function requireOf(score: Score, played: readonly number[], { pairs, missed, added, dropouts }: Finding): void {
  const notes = [...pairs.map(([note]) => note), ...missed];
  const onsets = [...pairs.map(([, onset]) => onset), ...added];
  if (
    notes.every((note) => note < score.expected.length) &&
    onsets.every((onset) => onset < played.length) &&
    dropouts.length === score.dropouts.length
  )
    return;
  throw new RangeError("the finding is not of this take: it names notes, onsets or silences that are not there");
}

const VERDICTS: readonly Verdict[] = ["within", "beyond", "unclear"];

function keyOf({ score, finding, trace, words }: TakePicture, crowded: boolean): (KeyEntry | false)[] {
  const { say } = words;
  const silences = silencesHeard(score);
  const found = new Set(finding.dropouts.map(({ verdict }) => verdict));
  const verdicts = VERDICTS.filter((verdict) => found.has(verdict));
  const judged = !crowded && score.dropouts.some((dropout) => driftLimit(score, dropout) !== undefined);
  const returns = !crowded && silences.some(({ landing }) => landing !== null);
  return [
    trace.length > 0 && {
      mark: (x, y) =>
        block({ x, y: y - 11, width: 20, height: 12 }, INK.band) +
        stroke(`M${decimal(x)} ${decimal(y - 5)}h20`, INK.within, { width: 1.8 }),
      means: say("chart.your-time"),
    },
    finding.pairs.length > 0 && {
      mark: (x, y) =>
        crowded
          ? stroke(upright(x + 10, y - 11, y), INK.hatch, { width: 1.4 })
          : element("circle", { cx: x + 10, cy: y - 4, r: 2.2, fill: INK.ink }),
      means: crowded ? say("chart.notes-earliest-to-latest") : say("chart.note"),
    },
    ...verdicts.map(
      (verdict): KeyEntry => ({
        mark: (x, y) => verdictMark(verdict, x + 10, y - 4),
        means: say("chart.verdict-in-key", { verdict }),
      }),
    ),
    silences.some(({ silent }) => silent) && {
      mark: (x, y) =>
        crowded
          ? block({ x, y: y - 11, width: 20, height: 12 }, INK.still)
          : stillness({ x, y: y - 11, width: 20, height: 12 }),
      means: say("chart.nothing-sounds"),
    },
    silences.some(({ silent }) => !silent) && {
      mark: (x, y) => block({ x, y: y - 11, width: 20, height: 12 }, INK.still),
      means: say("chart.some-silent"),
    },
    judged && {
      mark: (x, y) =>
        stroke(`M${decimal(x)} ${decimal(y - 5)}l20 -5M${decimal(x)} ${decimal(y - 5)}l20 5`, INK.ink, {
          width: 1.3,
          dash: "4 2.5",
        }),
      means: say("chart.room-to-drift"),
    },
    returns && { mark: (x, y) => returnMark(x + 6, y - 12, y), means: say("chart.landing") },
    returns &&
      score.tolerance.landingMs !== undefined && {
        mark: (x, y) => stroke(`M${decimal(x + 11)} ${decimal(y - 10)}h4v11h-4`, INK.ink, { width: 1.8 }),
        means: say("chart.room-at-landing"),
      },
    score.open.length > 0 && {
      mark: (x, y) =>
        block({ x, y: y - 11, width: 20, height: 12 }, INK.open) +
        stroke(`M${decimal(x)} ${decimal(y)}h20`, INK.openEdge, { width: 2, dash: "2 3" }) +
        stroke(upright(x + 7, y - 9, y - 1) + upright(x + 13, y - 9, y - 1), INK.ink, { width: 1.5 }),
      means: say("chart.yours-with-strokes"),
    },
    finding.missed.length > 0 && {
      mark: (x, y) =>
        stroke(crowded ? upright(x + 10, y - 7, y - 1) : missedMark(x + 10, y - 4), INK.beyond, { width: 1.5 }),
      means: say("chart.left-out"),
    },
    finding.added.length > 0 && {
      mark: (x, y) =>
        stroke(crowded ? upright(x + 10, y - 7, y - 1) : addedMark(x + 10, y - 4), INK.ink, { width: 1.5 }),
      means: say("chart.added"),
    },
  ];
}
