import { expect } from "vitest";
import type { Result } from "../../lib/base/index.js";
import { add, type Fraction, fraction, problemsIn } from "../../lib/base/index.js";
import {
  barLength,
  type Meter,
  type MeteredBar,
  parseMeter,
  parseSpan,
  parseSwing,
  type Span,
  type Swing,
} from "../../lib/time/index.js";

/** The value of a result that must succeed. */
export function must<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.problems.map((p) => `${p.code}: ${p.message}`).join("\n"));
  return result.value;
}

export const meter = (text: string): Meter => must(parseMeter(text));
export const span = (text: string): Span => must(parseSpan(text));
export const swing = (text: string): Swing => must(parseSwing(text));

/** Bars of these meters one after the other from position 0. */
export function barsOf(...meters: readonly string[]): MeteredBar[] {
  let position: Fraction = fraction(0);
  return meters.map((text) => {
    const bar = { position, meter: meter(text) };
    position = add(position, barLength(bar.meter));
    return bar;
  });
}

/** The result fails, and every problem says what is wrong; one of them has the code. */
export function wantedProblem(result: Result<unknown>, code: string): void {
  expect(result.ok).toBe(false);
  expect(problemsIn(result).map((p) => p.code)).toContain(code);
  for (const problem of problemsIn(result)) expect(problem.message.length).toBeGreaterThan(15);
}
