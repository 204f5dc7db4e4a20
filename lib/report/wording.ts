import type { DriftQuartiles, ReportTally, Sticking, StudentPlace, WeekDrift } from "../schema/index.js";
import { REASONS } from "../take/index.js";

/** Settings of a rung: "dropout 1/2 bar, tempo 84". */
function rungWords(rung: string): string {
  return rung.replaceAll(",", ", ").replaceAll("=", " ");
}

/** Place of a student in a drill: "rung 1 of 0 to 2: dropout 1/2 bar, tempo 84". */
export function placeWords({ rung, index, rungs }: Pick<StudentPlace, "rung" | "index" | "rungs">): string {
  const number = index === undefined || rungs === undefined ? "" : `rung ${index} of 0 to ${rungs - 1}`;
  const settings = rungWords(rung);
  return number === "" ? settings : settings === "" ? number : `${number}: ${settings}`;
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

/** Drift as median and quartiles: "-38 ms (-60 to -12), -1.6 % (-2.5 to -0.5)"; "unmeasured" without figures. */
export function driftWords({ driftMs, driftPercent }: Pick<WeekDrift, "driftMs" | "driftPercent">): string {
  if (driftMs === undefined || driftPercent === undefined) return "unmeasured";
  return `${quartileWords(driftMs, "ms", 0)}, ${quartileWords(driftPercent, "%", 1)}`;
}

function quartileWords({ median, low, high }: DriftQuartiles, unit: string, digits: number): string {
  return `${signed(median, digits)} ${unit} (${signed(low, digits)} to ${signed(high, digits)})`;
}

function signed(value: number, digits: number): string {
  const text = Math.abs(value).toFixed(digits);
  return Number(text) === 0 ? text : `${value > 0 ? "+" : "-"}${text}`;
}

function sideWords(side: Sticking["side"], [early, late]: readonly [string, string]): string {
  if (side === undefined) return "";
  return `, ${{ early, late, both: "both ways" }[side]}`;
}

/** Median with its side; empty when figures lie on both sides, whose median would say nothing. */
function medianWords(side: Sticking["side"], medianMs: number | undefined): string {
  if (medianMs === undefined || side === undefined || side === "both") return "";
  return `, median ${asideWords(medianMs)}`;
}

function beforeWords(side: Sticking["side"], driftMs: number | undefined): string {
  return driftMs === undefined || side === "both" ? "" : ` (drift ${asideWords(driftMs)})`;
}

function asideWords(ms: number): string {
  return ms === 0 ? "0 ms" : `${Math.abs(ms)} ms ${ms < 0 ? "early" : "late"}`;
}

function reasonWords(reason: string | undefined): string {
  if (reason === undefined || reason === "TOO_CLOSE") return "too close to the tolerance to tell";
  if (reason === "NOT_MEASURED") return "too little was played to tell";
  return Object.hasOwn(REASONS, reason) ? REASONS[reason as keyof typeof REASONS] : reason;
}
