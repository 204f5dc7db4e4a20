import { asideText } from "../base/index.js";
import { settingsWords } from "../drill/index.js";
import type { DriftQuartiles, ReportTally, Sticking, StudentPlace, WeekDrift } from "../schema/index.js";
import { REASONS } from "../take/index.js";

/** Place of a student in a drill: "rung 2 of 3: dropout 1/2 bar, tempo 84". */
export function placeWords({ rung, number, rungs }: Pick<StudentPlace, "rung" | "number" | "rungs">): string {
  const place = number === undefined || rungs === undefined ? "" : `rung ${number} of ${rungs}`;
  const settings = settingsWords(rung);
  return place === "" ? settings : settings === "" ? place : `${place}: ${settings}`;
}

/** Takes by verdict: "3 within, 1 beyond"; "no take" when there is none. */
export function tallyWords(tally: ReportTally): string {
  const said = (["within", "beyond", "unclear"] as const).filter((verdict) => tally[verdict] > 0);
  return said.length === 0 ? "no take" : said.map((verdict) => `${tally[verdict]} ${verdict}`).join(", ");
}

/** Cause for which takes were not clean: "drift in silences of 1 bar, rushing: 5 takes, median 95 ms early". */
export function stickingWords({ on, takes, length, side, medianMs, driftMs, reason }: Sticking): string {
  const count = `${takes} ${takes === 1 ? "take" : "takes"}`;
  const inSilences = length === undefined ? "in silences" : `in silences of ${length}`;
  const afterSilences = inSilences.replace("in", "after");
  switch (on) {
    case "drift":
      return `drift ${inSilences}${sideWords(side, ["rushing", "dragging"])}: ${count}${medianWords(side, medianMs)}`;
    case "landing":
      return `landing ${afterSilences}${sideWords(side, ["early", "late"])}: ${count}${medianWords(side, medianMs)}${beforeWords(side, driftMs)}`;
    case "steadiness":
      return `steadiness with the band: ${count}${medianMs === undefined ? "" : `, median ${medianMs} ms`}`;
    case "slip":
      return `came in beats or bars early or late ${afterSilences}: ${count}`;
    case "unclear":
      return `unclear, ${reasonWords(reason)}: ${count}`;
    case "not kept":
      return `beyond tolerance, on a figure the journal does not have: ${count}`;
  }
}

/** Drift as median and quartiles: "38 ms early (60 to 12), 1.6 % fast (2.5 to 0.5)"; "unmeasured" without figures. */
export function driftWords({ driftMs, driftPercent }: Pick<WeekDrift, "driftMs" | "driftPercent">): string {
  if (driftMs === undefined || driftPercent === undefined) return "unmeasured";
  const ms = quartileWords(driftMs, { unit: "ms", digits: 0, sides: ["early", "late"] });
  return `${ms}, ${quartileWords(driftPercent, { unit: "%", digits: 1, sides: ["fast", "slow"] })}`;
}

/** Quartiles say their side where it is not that of the median. */
function quartileWords(
  { median, low, high }: DriftQuartiles,
  {
    unit,
    digits,
    sides,
  }: { readonly unit: string; readonly digits: number; readonly sides: readonly [string, string] },
): string {
  const text = (value: number): string => Math.abs(value).toFixed(digits);
  const side = (value: number): string => (Number(text(value)) === 0 ? "" : ` ${sides[value < 0 ? 0 : 1]}`);
  const quartile = (value: number): string => `${text(value)}${side(value) === side(median) ? "" : side(value)}`;
  return `${text(median)} ${unit}${side(median)} (${quartile(low)} to ${quartile(high)})`;
}

function sideWords(side: Sticking["side"], [early, late]: readonly [string, string]): string {
  if (side === undefined) return "";
  return `, ${{ early, late, both: "both ways" }[side]}`;
}

/** Median with its side; empty when figures lie on both sides, whose median would say nothing. */
function medianWords(side: Sticking["side"], medianMs: number | undefined): string {
  if (medianMs === undefined || side === undefined || side === "both") return "";
  return `, median ${asideText(medianMs)}`;
}

function beforeWords(side: Sticking["side"], driftMs: number | undefined): string {
  return driftMs === undefined || side === "both" ? "" : ` (drift ${asideText(driftMs)})`;
}

function reasonWords(reason: string | undefined): string {
  if (reason === undefined || reason === "TOO_CLOSE") return "too close to the tolerance to tell";
  if (reason === "NOT_MEASURED") return "too little was played to tell";
  return Object.hasOwn(REASONS, reason) ? REASONS[reason as keyof typeof REASONS] : reason;
}
