import type { Sticking } from "../schema/index.js";
import { REASONS, type ReasonCode } from "../take/index.js";
import type { MessageParameters } from "../words/index.js";
import type { ReportWords } from "./words.js";

/** Cause for which takes were not clean: "drift in silences of 1 bar, rushing: 5 takes, median 95 ms early". */
export function stickingWords(sticking: Sticking, { say }: ReportWords): string {
  const { on, length, medianMs, reason } = sticking;
  const takes = say("report.takes", { takes: sticking.takes });
  const silences = say("report.silences", { which: length === undefined ? "all" : "some", length: length ?? "" });
  switch (on) {
    case "drift":
      return say("report.drift", { takes, silences, ...medianOf(sticking, say) });
    case "landing": {
      const { side, off } = medianOf(sticking, say);
      const before = sticking.driftMs === undefined ? undefined : offWords(sticking.driftMs, say);
      return before === undefined || side === "both" || side === "unknown"
        ? say("report.landing", { takes, silences, side, off })
        : say("report.landing-after-drift", { takes, silences, side, off, before });
    }
    case "steadiness":
      return medianMs === undefined
        ? say("report.steadiness", { takes })
        : say("report.steadiness-median", { takes, ms: `${Math.round(medianMs)}` });
    case "slip":
      return say("report.slip", { takes, silences });
    case "unclear":
      return say("report.unclear-because", { takes, why: say("report.reason", reasonOf(reason)) });
    case "not kept":
      return say("report.not-kept", { takes });
  }
}

/** The median with its side; of figures on both sides it would say nothing. */
function medianOf(
  { side, medianMs }: Sticking,
  say: ReportWords["say"],
): { readonly side: "early" | "late" | "both" | "unknown"; readonly off: string } {
  if (side === undefined || medianMs === undefined) return { side: "unknown", off: "" };
  return { side, off: offWords(medianMs, say) };
}

function offWords(value: number, say: ReportWords["say"]): string {
  const ms = Math.abs(value).toFixed(0);
  return say("report.early-or-late", { ms, side: ms === "0" ? "on" : value < 0 ? "early" : "late" });
}

/** How the catalogue calls the codes of reasons. */
type Called<Code extends string> = Code extends `${infer First}_${infer Rest}`
  ? `${Lowercase<First>}-${Called<Rest>}`
  : Lowercase<Code>;

type KnownReason = Exclude<MessageParameters["report.reason"]["reason"], "other">;

function reasonOf(code: string = "TOO_CLOSE"): MessageParameters["report.reason"] {
  const isKnown = code === "TOO_CLOSE" || code === "NOT_MEASURED" || Object.hasOwn(REASONS, code);
  if (!isKnown) return { reason: "other", code };
  const reason: KnownReason = code.toLowerCase().replaceAll("_", "-") as Called<
    ReasonCode | "TOO_CLOSE" | "NOT_MEASURED"
  >;
  return { reason, code };
}
