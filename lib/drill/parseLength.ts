import { failure, type Result } from "../base/index.js";
import { parseSpan, type Span } from "../time/index.js";
import { drillProblem } from "./codes.js";

/** The finest part of a bar, beat or note that is read: our choice, triplets of sixty-fourth notes, so that arithmetic stays exact. */
const FINEST_PART = 96;

/** Reads a length of a drill: a silence, a count-in. Problems: those of `parseSpan`, and LENGTH_TOO_FINE for finer parts. */
export function parseLength(text: string): Result<Span> {
  const span = parseSpan(text);
  if (!span.ok || span.value.count.d <= FINEST_PART) return span;
  const message = `a length is counted in parts no finer than 1/${FINEST_PART}; found 1/${span.value.count.d} of a ${span.value.unit}`;
  return failure(drillProblem("LENGTH_TOO_FINE", message));
}
