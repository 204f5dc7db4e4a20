import type { DriftQuartiles, ReportTally, StudentPlace, WeekDrift } from "../schema/index.js";
import { wordSettings } from "../words/index.js";
import type { ReportWords } from "./words.js";

/** Place of a student in a drill: "rung 2 of 3: silence 1/2 bar, tempo 84". */
export function placeWords(
  { rung, number, rungs }: Pick<StudentPlace, "rung" | "number" | "rungs">,
  words: ReportWords,
): string {
  const settings = wordSettings(rung, words);
  if (number === undefined || rungs === undefined) return settings;
  const place = { number: `${number}`, rungs: `${rungs}` };
  return settings === ""
    ? words.say("report.place", place)
    : words.say("report.place-with-settings", { ...place, settings });
}

/** Takes by verdict: "3 within, 1 beyond"; "no take" when there is none. */
export function tallyWords(tally: ReportTally, { say }: ReportWords): string {
  const parts = (["within", "beyond", "unclear"] as const)
    .filter((verdict) => tally[verdict] > 0)
    .map((verdict) => say(`report.${verdict}`, { takes: `${tally[verdict]}` }));
  return parts.length === 0 ? say("report.no-take") : say("report.tally", { parts });
}

/** Drift as median and quartiles: "38 ms early (60 to 12), 1.6 % fast (2.5 to 0.5)"; "unmeasured" without figures. */
export function driftWords(
  { driftMs, driftPercent }: Pick<WeekDrift, "driftMs" | "driftPercent">,
  { say }: ReportWords,
): string {
  if (driftMs === undefined || driftPercent === undefined) return say("report.unmeasured");
  const ms = millisecondWords(driftMs, say);
  const percent = quartileWords<"fast" | "slow">(driftPercent, say, {
    rounded: (value) => Math.round(10 * value) / 10,
    told: (value) => say("report.one-decimal", { figure: value }),
    median: (size, side) => say("report.rate", { percent: size, side: side ?? "on" }),
    quartile: (size, side) => say("report.percent-on-side", { percent: size, side }),
    sides: ["fast", "slow"],
  });
  return say("report.drift-figures", { ms, percent });
}

/** Landings as median and quartiles: "12 ms late (3 early to 25)"; "unmeasured" without figures. */
export function landingWords({ landings }: Pick<WeekDrift, "landings">, { say }: ReportWords): string {
  return landings === undefined ? say("report.unmeasured") : millisecondWords(landings.ms, say);
}

function millisecondWords(quartiles: DriftQuartiles, say: ReportWords["say"]): string {
  return quartileWords<"early" | "late">(quartiles, say, {
    rounded: Math.round,
    told: String,
    median: (size, side) => say("report.early-or-late", { ms: size, side: side ?? "on" }),
    quartile: (size, side) => say("report.ms-on-side", { ms: size, side }),
    sides: ["early", "late"],
  });
}

interface Figure<Side> {
  readonly rounded: (value: number) => number;
  /** A rounded figure without its sign, as the language writes it. */
  readonly told: (value: number) => string;
  /** How the median is said; without a side when it rounds to nothing. */
  readonly median: (size: string, side: Side | undefined) => string;
  readonly quartile: (size: string, side: Side) => string;
  readonly sides: readonly [negative: Side, positive: Side];
}

/** Quartiles say their side where it is not that of the median. */
function quartileWords<Side>(
  { median, low, high }: DriftQuartiles,
  say: ReportWords["say"],
  figure: Figure<Side>,
): string {
  const size = (value: number): string => figure.told(figure.rounded(Math.abs(value)));
  const sideOf = (value: number): Side | undefined =>
    figure.rounded(Math.abs(value)) === 0 ? undefined : figure.sides[value < 0 ? 0 : 1];
  const quartile = (value: number): string => {
    const side = sideOf(value);
    return side === undefined || side === sideOf(median) ? size(value) : figure.quartile(size(value), side);
  };
  const said = figure.median(size(median), sideOf(median));
  return say("report.middle-half", { median: said, low: quartile(low), high: quartile(high) });
}
