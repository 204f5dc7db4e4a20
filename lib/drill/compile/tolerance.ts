import { type Milliseconds, milliseconds, percent } from "../../base/index.js";
import type { ToleranceDocument } from "../../schema/index.js";
import type { Tolerance } from "../model.js";
import type { Collector } from "./collector.js";

/** Compiles a tolerance: the limits of drift, landing and steadiness. A limit that is left out is not judged. */
export function compileTolerance(document: ToleranceDocument, found: Collector): Tolerance {
  if (Object.keys(document).length === 0) {
    const message = "without any tolerance every take counts as clean";
    found.add("NOTHING_JUDGED", message, "/tolerance", "write for instance steadiness: 25 ms");
  }
  const drift = readDrift(document.drift, found);
  const landing = readMs(document.landing, { key: "landing", found });
  const steadiness = readMs(document.steadiness, { key: "steadiness", found });
  return {
    ...(drift === undefined ? {} : { drift }),
    ...(landing === undefined ? {} : { landing }),
    ...(steadiness === undefined ? {} : { steadiness }),
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

function quoted(text: string): string {
  return JSON.stringify(text.slice(0, 40));
}
