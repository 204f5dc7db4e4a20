import { LANDING_WITHIN_BEATS } from "../../base/index.js";
import { settingsText } from "../rung/settings.js";
import type { CheckContext } from "./context.js";
import { SAME } from "./context.js";
import type { SilenceCase } from "./silences.js";

/** Checks that each silence has an expected note by which its drift, and one by which its landing can be judged. */
export function checkEvidence(context: CheckContext, cases: readonly SilenceCase[]): void {
  const { drift, landing } = context.drill.tolerance;
  const { steadiness } = context.drill.tolerance;
  if (drift === undefined && landing === undefined && steadiness !== undefined && cases.length > 0) {
    const message = "the silences of this drill are measured but not judged: it tolerates any drift and any landing";
    context.found.add("DROPOUT_NOT_JUDGED", message, "/tolerance", "write for instance drift: 2.5 %");
  }
  if (drift !== undefined) {
    // A note at the start of the silence shows the player's phase before the silence, and no drift in it.
    const unjudged = cases.filter(({ within, from }) => !within.some((at) => at > from + SAME));
    reportFirst(
      context,
      unjudged.filter(({ open }) => !open),
      {
        code: "DROPOUT_WITHOUT_EXPECTED_ONSET",
        message: "drift is judged by a note in the silence or on the downbeat after it; none is expected with",
        remedy: "write a note there, move the silence, or leave drift out of the tolerance",
      },
    );
    reportFirst(
      context,
      unjudged.filter(({ open }) => open),
      {
        code: "DROPOUT_ONLY_OVER_OPEN_BARS",
        message:
          "drift is judged by improvised notes alone, since no other is expected in the silence or on the downbeat after it, with",
        remedy: "write a note on the downbeat after it, or keep silences out of open bars",
      },
    );
  }
  if (landing !== undefined) {
    reportFirst(
      context,
      cases.filter(({ met }) => met === false),
      {
        code: "LANDING_WITHOUT_EXPECTED_ONSET",
        message: `landing is judged by a note less than ${LANDING_WITHIN_BEATS} beats after the return and before the next silence; none is expected with`,
        remedy: "write a note there, move the silence, or leave landing out of the tolerance",
      },
    );
  }
}

interface CaseProblem {
  readonly code: "DROPOUT_WITHOUT_EXPECTED_ONSET" | "DROPOUT_ONLY_OVER_OPEN_BARS" | "LANDING_WITHOUT_EXPECTED_ONSET";
  readonly message: string;
  readonly remedy: string;
}

/** Reports one problem for all cases, with the settings of the first. */
function reportFirst(
  { found, pointerOf }: CheckContext,
  cases: readonly SilenceCase[],
  { code, message, remedy }: CaseProblem,
): void {
  const settings = [...new Set(cases.map((one) => settingsText(one.settings)))];
  if (settings.length === 0) return;
  const others = settings.length === 1 ? "" : `, and ${settings.length - 1} more`;
  found.add(code, `${message} ${settings[0]}${others}`, pointerOf("dropout"), remedy);
}
