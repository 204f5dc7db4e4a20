import { LANDING_WITHIN_BEATS } from "../../base/index.js";
import { settingPhrases } from "../../words/index.js";
import { settingsText } from "../rung/settings.js";
import { say } from "../say.js";
import type { CheckContext } from "./context.js";
import { SAME } from "./context.js";
import type { SilenceCase } from "./silences.js";

/** Checks that each silence has an expected note by which its drift, and one by which its landing can be judged. */
export function checkEvidence(context: CheckContext, cases: readonly SilenceCase[]): void {
  const { drift, landing } = context.drill.tolerance;
  const { steadiness } = context.drill.tolerance;
  if (drift === undefined && landing === undefined && steadiness !== undefined && cases.length > 0) {
    const remedy = say("drill-problem.write-for-instance", { example: "drift: 2.5 %" });
    context.found.add("DROPOUT_NOT_JUDGED", say("drill-problem.dropout-not-judged"), "/tolerance", remedy);
  }
  if (drift !== undefined) {
    // A note at the start of the silence shows the player's phase before the silence, and no drift in it.
    const unjudged = cases.filter(({ within, from }) => !within.some((at) => at > from + SAME));
    reportFirst(
      context,
      unjudged.filter(({ open }) => !open),
      "DROPOUT_WITHOUT_EXPECTED_ONSET",
    );
    reportFirst(
      context,
      unjudged.filter(({ open }) => open),
      "DROPOUT_ONLY_OVER_OPEN_BARS",
    );
  }
  if (landing !== undefined) {
    reportFirst(
      context,
      cases.filter(({ met }) => met === false),
      "LANDING_WITHOUT_EXPECTED_ONSET",
    );
  }
}

const MISSING = {
  DROPOUT_WITHOUT_EXPECTED_ONSET: "dropout-without-expected-onset",
  DROPOUT_ONLY_OVER_OPEN_BARS: "dropout-only-over-open-bars",
  LANDING_WITHOUT_EXPECTED_ONSET: "landing-without-expected-onset",
} as const;

/** Reports one problem for all cases, with the settings of the first. */
function reportFirst(
  { found, pointerOf }: CheckContext,
  cases: readonly SilenceCase[],
  code: keyof typeof MISSING,
): void {
  const settings = [...new Set(cases.map((one) => settingsText(one.settings)))];
  if (settings.length === 0) return;
  const key = MISSING[code];
  const given = { settings: settingPhrases(settings[0]!), more: settings.length - 1 };
  const message =
    key === "landing-without-expected-onset"
      ? say(`drill-problem.${key}`, { ...given, beats: LANDING_WITHIN_BEATS })
      : say(`drill-problem.${key}`, given);
  found.add(code, message, pointerOf("dropout"), say(`drill-problem.${key}-remedy`));
}
