import { compare, type Fraction, parseFraction } from "../../../base/index.js";
import { type Drill, ladderValue, rungs, type Settings, scoreOf } from "../../../drill/index.js";
import { listed } from "../../phrases.js";
import { lengthText } from "../drillText.js";

/** What one row of the strip under the staff shows: where the band is silent in a phrase. */
export interface SilenceRow {
  readonly label: string;
  /** Within the phrase, in whole notes from its downbeat. */
  readonly silences: readonly Span[];
  /** Whether something still plays in them. */
  readonly isPartial: boolean;
}

export interface Span {
  readonly from: Fraction;
  readonly to: Fraction;
}

/** Rows that fall silent together. */
export interface SilenceGroup {
  /** Who is silent: "kit and bass silent". */
  readonly caption: string;
  readonly rows: readonly SilenceRow[];
}

/** All silences of a drill, for the strip. */
export interface Silences {
  /** In the order climbed; empty for a drill without dropout. */
  readonly groups: readonly SilenceGroup[];
  /** Lengths that have no row of their own, because there are too many. */
  readonly leftOut: number;
  /** Whether the place is drawn for each phrase, so that the rows have lengths but no place. */
  readonly moves: boolean;
}

/** Our choice: more rows than this under a staff are not told apart; the lengths between are named in words. */
const MOST_ROWS = 8;

/** The silences of each length and choice of parts over the rungs of a drill, from the same score that is sounded. */
export function silencesOf(drill: Drill): Silences {
  const ladder = drill.ladders.find(({ parameter }) => parameter === "dropout");
  const parts = drill.ladders.find(({ parameter }) => parameter === "parts");
  const partsTexts = parts ? Array.from({ length: parts.count }, (_, k) => ladderValue(parts, k)) : [drill.fixed.parts];
  const perGroup = Math.max(2, Math.floor(MOST_ROWS / partsTexts.length));
  const steps = ladder ? shown(ladder.count, perGroup) : [];
  const lengths = ladder
    ? steps.map((k) => ladderValue(ladder, k))
    : drill.fixed.dropout === undefined
      ? []
      : [drill.fixed.dropout];
  const start = rungs(drill).at(0).settings;
  const groups =
    lengths.length === 0 || drill.dropout === undefined
      ? []
      : partsTexts.map((each) => groupOf(drill, lengths, { start, parts: each }));
  return {
    groups,
    leftOut: ladder ? ladder.count - steps.length : 0,
    moves: drill.dropout?.place.at === "random",
  };
}

function groupOf(
  drill: Drill,
  lengths: readonly string[],
  { start, parts }: { start: Settings; parts: string | undefined },
): SilenceGroup {
  const scores = lengths.map((dropout) => {
    const settings = { ...start, dropout, ...(parts === undefined ? {} : { parts }) };
    return { dropout, score: scoreOf({ drill, index: 0, settings }) };
  });
  const first = scores[0]!.score;
  const silent = first.dropouts[0]?.parts ?? [];
  return {
    caption: `${listed(silent)} silent`,
    rows: scores.map(({ dropout, score }) => ({
      label: lengthText(dropout),
      silences: score.dropouts.flatMap(({ fromPosition, toPosition }) => withinPhrase(drill, fromPosition, toPosition)),
      isPartial: score.dropouts.some((each) => !each.silent),
    })),
  };
}

/** The part of a silence that lies in the first phrase. */
function withinPhrase(drill: Drill, from = "", to = ""): readonly Span[] {
  const [start, end] = [parseFraction(from), parseFraction(to)];
  if (!start || !end || compare(start, drill.pattern.length) >= 0) return [];
  return [{ from: start, to: end }];
}

/** Steps of a ladder that are shown: all of a few, else both ends and some between at even distances. */
function shown(count: number, most: number): readonly number[] {
  if (count <= most) return Array.from({ length: count }, (_, k) => k);
  return Array.from({ length: most }, (_, i) => Math.round((i * (count - 1)) / (most - 1)));
}
