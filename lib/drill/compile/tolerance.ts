import { type Fraction, fraction, type Milliseconds, milliseconds, percent } from "../../base/index.js";
import type { ToleranceDocument } from "../../schema/index.js";
import type { Tolerance } from "../model.js";
import type { Collector } from "./collector.js";

/** Compiles a tolerance: the limits of drift, landing and steadiness, and how much of a silence must be played. A limit that is left out is not judged. */
export function compileTolerance(document: ToleranceDocument, found: Collector): Tolerance {
  if (Object.keys(document).every((key) => key === "played")) {
    const message = "without any tolerance every take counts as clean";
    found.add("NOTHING_JUDGED", message, "/tolerance", "write for instance steadiness: 25 ms");
  }
  const drift = readDrift(document.drift, found);
  const landing = readMs(document.landing, { key: "landing", found });
  const steadiness = readMs(document.steadiness, { key: "steadiness", found });
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
  const message = `drift is tolerated in per cent of the tempo or in milliseconds, above 0; found ${quoted(written)}`;
  found.add("TOLERANCE_NOT_READ", message, "/tolerance/drift", "write for instance 2.5 %, or 60 ms");
  return undefined;
}

function readMs(
  written: string | undefined,
  { key, found }: { key: string; found: Collector },
): Milliseconds | undefined {
  if (written === undefined) return undefined;
  const match = /^(\d{1,6}(?:\.\d{1,6})?)\s*ms$/.exec(written.trim());
  const value = Number(match?.[1]);
  if (match && value > 0) return milliseconds(value);
  const message = `${key} is tolerated in milliseconds, above 0; found ${quoted(written)}`;
  found.add("TOLERANCE_NOT_READ", message, `/tolerance/${key}`, "write for instance 40 ms");
  return undefined;
}

function readShare(written: string | undefined, found: Collector): Fraction | undefined {
  if (written === undefined) return undefined;
  const [, percents, numerator, denominator] =
    /^(?:(\d{1,3})\s*%|(\d{1,3})\s*\/\s*(\d{1,3}))$/.exec(written.trim()) ?? [];
  const [n, d] = percents === undefined ? [Number(numerator), Number(denominator)] : [Number(percents), 100];
  if (d > 0 && n <= d) return fraction(n, d);
  const message = `played is the share of the notes of each silence, as a fraction or in per cent, from 0 to 1; found ${quoted(written)}`;
  found.add("TOLERANCE_NOT_READ", message, "/tolerance/played", "write for instance 3/4, or 75 %");
  return undefined;
}

function quoted(text: string): string {
  return JSON.stringify(text.slice(0, 40));
}
