import type { Finding, Score } from "../../../schema/index.js";
import type { Words } from "../../../words/index.js";
import type { Page, PlayedTake } from "../page.js";
import { h } from "../view/element.js";
import { landingGauge } from "./landingGauge.js";
import { mark } from "./mark.js";

type Silence = Finding["dropouts"][number];

/** Each silence and its landing: early or late, the limit, how sure. */
export function silencesSection({ words }: Page, { finding, score }: PlayedTake): HTMLElement | false {
  if (finding.dropouts.length === 0) return false;
  return h(
    "section",
    { "aria-labelledby": "silences" },
    h("h2", { id: "silences" }, words.say("page.silences")),
    h("p", { class: "small" }, words.say("page.silences-key")),
    h(
      "ol",
      { class: "silences" },
      finding.dropouts.map((silence, i) => silenceItem(silence, { number: i + 1, score, words })),
    ),
  );
}

interface Setting {
  readonly number: number;
  readonly score: Score;
  readonly words: Words;
}

function silenceItem(silence: Silence, { number, score, words }: Setting): HTMLElement {
  const { landing, verdict } = silence;
  const landed = landing !== null && typeof landing === "object" && "ms" in landing ? landing : undefined;
  return h(
    "li",
    {},
    h("h3", {}, words.say("page.silence", { number }), " ", verdictMark(silence, words)),
    landed !== undefined && landingGauge(landed, { limit: score.tolerance.landingMs, isWithin: verdict === "within" }),
    h("p", {}, landingText(silence, score, words)),
    h("p", { class: "small" }, driftText(silence, score, words)),
  );
}

/** The verdict as a shape and a word: a dot, a diamond, a broken ring. */
function verdictMark({ verdict, driftMs }: Pick<Silence, "verdict" | "driftMs">, words: Words): HTMLElement {
  const side = typeof driftMs === "number" && driftMs < 0 ? "early" : "late";
  const known =
    verdict === "beyond" && typeof driftMs !== "number"
      ? "beyond"
      : verdict === "beyond"
        ? side === "early"
          ? "rushed"
          : "dragged"
        : verdict;
  return h("span", { class: `verdict ${verdict}` }, mark(verdict), words.say("page.verdict", { verdict: known }));
}

function landingText({ landing }: Silence, { tolerance }: Score, words: Words): string {
  if (landing !== null && typeof landing === "object" && "ms" in landing) {
    const { ms, standardErrorMs } = landing;
    const off = Math.round(Math.abs(ms));
    const side = off === 0 ? "on" : ms < 0 ? "early" : "late";
    const error = errorSaid(standardErrorMs);
    const limit = tolerance.landingMs;
    return limit === undefined
      ? words.say("page.landed", { side, ms: off, error })
      : words.say("page.landed-limit", { side, ms: off, error, limit: Math.round(limit) });
  }
  if (landing !== null && typeof landing === "object" && "leftOut" in landing)
    return words.say("page.landing-left-out");
  return words.say("page.landing-unknown");
}

function driftText({ driftMs, driftPercent, standardErrorMs }: Silence, { tolerance }: Score, words: Words): string {
  if (typeof driftMs !== "number") return words.say("page.drift-unknown", { why: whyNot(driftMs, words) });
  const ms = Math.round(Math.abs(driftMs));
  const error = errorSaid(typeof standardErrorMs === "number" ? standardErrorMs : 0);
  const percent = typeof driftPercent === "number" ? Math.abs(driftPercent) : 0;
  const side = driftMs < 0 ? "early" : "late";
  if (ms === 0) return words.say("page.drift-none", { error });
  const { driftPercent: limit } = tolerance;
  if (limit === undefined) return words.say("page.drift", { side, ms, error, percent });
  return words.say("page.drift-limit", { side, ms, error, percent, limit });
}

/** A standard error in whole milliseconds, never "0": nothing is measured without one. */
function errorSaid(ms: number): number {
  return Math.max(1, Math.round(ms));
}

/** Why something was not measured. */
function whyNot(measure: Silence["driftMs"], words: Words): string {
  return typeof measure === "object" ? words.word(measure.message, measure.unmeasured) : "";
}
