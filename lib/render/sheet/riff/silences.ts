import { compare, type Fraction, parseFraction } from "../../../base/index.js";
import {
  type Drill,
  ladderValue,
  lengthTextsIn,
  partsTextsIn,
  rungs,
  type Settings,
  scoreOf,
} from "../../../drill/index.js";
import { lengthText, listed } from "../drillText.js";
import type { SheetWords } from "../words.js";

/** One row of the strip under the staff: the silences of the band in a phrase. */
export interface SilenceRow {
  readonly label: string;
  /** Positions in whole notes from the downbeat of the phrase. */
  readonly silences: readonly Span[];
  /** Whether some part still plays in them. */
  readonly isPartial: boolean;
}

export interface Span {
  readonly from: Fraction;
  readonly to: Fraction;
}

/** Rows in which the same parts are silent. */
export interface SilenceGroup {
  /** The silent parts: "kit and bass silent". */
  readonly caption: string;
  readonly rows: readonly SilenceRow[];
}

/** All silences of a drill. */
export interface Silences {
  /** In the order of the ladder, and where silences grow inside a take in that order; empty for a drill without dropout. */
  readonly groups: readonly SilenceGroup[];
  /** Number of lengths without a row, because there are too many. */
  readonly leftOut: number;
  /** Whether the position is random in each phrase: the rows then have lengths but no positions. */
  readonly moves: boolean;
}

/** Most rows under a staff: our choice, because more are hard to tell apart; the legend counts the others. */
const MOST_ROWS = 8;

/** The silences over all rungs of a drill, by length and by silent parts, from the same score as the sound. */
export function silencesOf(drill: Drill, words: SheetWords): Silences {
  const ladder = drill.ladders.find(({ parameter }) => parameter === "dropout");
  const parts = drill.ladders.find(({ parameter }) => parameter === "parts");
  const dropping = parts ? Array.from({ length: parts.count }, (_, k) => ladderValue(parts, k)) : [drill.fixed.parts];
  const partsTexts = [...new Set(dropping.flatMap((each) => (each === undefined ? each : partsTextsIn(each))))];
  const perGroup = Math.max(2, Math.floor(MOST_ROWS / partsTexts.length));
  const steps = ladder ? shown(ladder.count, perGroup) : [];
  const values = ladder ? steps.map((k) => ladderValue(ladder, k)) : [drill.fixed.dropout ?? ""];
  const all = [...new Set(values.flatMap(lengthTextsIn))];
  const lengths = shown(all.length, perGroup).map((k) => all[k]!);
  const start = rungs(drill).at(0).settings;
  const groups =
    lengths.length === 0 || drill.dropout === undefined
      ? []
      : partsTexts.map((each) => groupOf(drill, lengths, { start, words, parts: each }));
  return {
    groups,
    leftOut: (ladder ? ladder.count - steps.length : 0) + all.length - lengths.length,
    moves: drill.dropout?.place.at === "random",
  };
}

function groupOf(
  drill: Drill,
  lengths: readonly string[],
  { start, words, parts }: { start: Settings; words: SheetWords; parts: string | undefined },
): SilenceGroup {
  const scores = lengths.map((dropout) => {
    const settings = { ...start, dropout, ...(parts === undefined ? {} : { parts }) };
    return { dropout, score: scoreOf({ drill, index: 0, settings }) };
  });
  const first = scores[0]!.score;
  const silent = first.dropouts[0]?.parts ?? [];
  return {
    caption: words.say("sheet.silent", { parts: listed(silent, words) }),
    rows: scores.map(({ dropout, score }) => ({
      label: lengthText(dropout, words),
      silences: score.dropouts.flatMap(({ fromPosition, toPosition }) => withinPhrase(drill, fromPosition, toPosition)),
      isPartial: score.dropouts.some((each) => !each.silent),
    })),
  };
}

/** A silence that begins in the first phrase; else empty. */
function withinPhrase(drill: Drill, from = "", to = ""): readonly Span[] {
  const [start, end] = [parseFraction(from), parseFraction(to)];
  if (!start || !end || compare(start, drill.pattern.length) >= 0) return [];
  return [{ from: start, to: end }];
}

/** The steps of a ladder that are shown: all when there are at most `most`, else both ends and steps at equal distances between. */
function shown(count: number, most: number): readonly number[] {
  if (count <= most) return Array.from({ length: count }, (_, k) => k);
  return Array.from({ length: most }, (_, i) => Math.round((i * (count - 1)) / (most - 1)));
}
