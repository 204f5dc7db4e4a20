import { type Fraction, fraction, type Milliseconds, milliseconds, percent } from "../../base/index.js";
import type { ToleranceDocument } from "../../schema/index.js";
import type { Tolerance } from "../model.js";
import { say } from "../say.js";
import type { Collector } from "./collector.js";

/** Compiles a tolerance: the limits of drift, landing and steadiness, and how much of a silence must be played. A limit that is left out is not judged. */
export function compileTolerance(document: ToleranceDocument, found: Collector): Tolerance {
  if (Object.keys(document).every((key) => key === "played")) {
    const remedy = say("drill-problem.write-for-instance", { example: "steadiness: 25 ms" });
    found.add("NOTHING_JUDGED", say("drill-problem.nothing-judged"), "/tolerance", remedy);
  }
  const drift = readDrift(document.drift, found);
  const landing = readMs(document.landing, { limit: "landing", found });
  const steadiness = readMs(document.steadiness, { limit: "steadiness", found });
  const played = readShare(document.played, found);
  return {
    ...(drift === undefined ? {} : { drift }),
    ...(landing === undefined ? {} : { landing }),
    ...(steadiness === undefined ? {} : { steadiness }),
    ...(played === undefined ? {} : { played }),
  };
}

function readDrift(written: string | undefined, found: Collector): Tolerance["drift"] | undefined {
  if (written === undefined) return undefined;
  const match = /^(\d{1,6}(?:\.\d{1,6})?)\s*(%|ms)$/.exec(written.trim());
  const value = Number(match?.[1]);
  if (match && value > 0) return match[2] === "%" ? { percent: percent(value) } : { ms: milliseconds(value) };
  const message = say("drill-problem.tolerance-not-read-drift", { found: quoted(written) });
  found.add("TOLERANCE_NOT_READ", message, "/tolerance/drift", say("drill-problem.tolerance-not-read-drift-remedy"));
  return undefined;
}

function readMs(
  written: string | undefined,
  { limit, found }: { limit: "landing" | "steadiness"; found: Collector },
): Milliseconds | undefined {
  if (written === undefined) return undefined;
  const match = /^(\d{1,6}(?:\.\d{1,6})?)\s*ms$/.exec(written.trim());
  const value = Number(match?.[1]);
  if (match && value > 0) return milliseconds(value);
  const message = say("drill-problem.tolerance-not-read", { limit, found: quoted(written) });
  const remedy = say("drill-problem.write-for-instance", { example: "40 ms" });
  found.add("TOLERANCE_NOT_READ", message, `/tolerance/${limit}`, remedy);
  return undefined;
}

function readShare(written: string | undefined, found: Collector): Fraction | undefined {
  if (written === undefined) return undefined;
  const [, percents, numerator, denominator] =
    /^(?:(\d{1,3})\s*%|(\d{1,3})\s*\/\s*(\d{1,3}))$/.exec(written.trim()) ?? [];
  const [n, d] = percents === undefined ? [Number(numerator), Number(denominator)] : [Number(percents), 100];
  if (d > 0 && n <= d) return fraction(n, d);
  const message = say("drill-problem.tolerance-not-read-played", { found: quoted(written) });
  found.add("TOLERANCE_NOT_READ", message, "/tolerance/played", say("drill-problem.tolerance-not-read-played-remedy"));
  return undefined;
}

function quoted(text: string): string {
  return JSON.stringify(text.slice(0, 40));
}
