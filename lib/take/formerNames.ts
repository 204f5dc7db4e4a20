/**
 * A take as this version reads it. Takes had `latencySpreadMs` for `latencyStandardErrorMs`; they are read for ever. Anything else is given back as
 * it is.
 *
 * @example
 * currentTake({ onsets: [], latencySpreadMs: 3 }) // { onsets: [], latencyStandardErrorMs: 3 }
 */
export function currentTake(value: unknown): unknown {
  if (!isObject(value) || !("latencySpreadMs" in value) || "latencyStandardErrorMs" in value) return value;
  const { latencySpreadMs, ...rest } = value;
  return { ...rest, latencyStandardErrorMs: latencySpreadMs };
}

/**
 * A finding as this version writes it. Findings had `reentryMs` beside `landing` for each silence, the first note after the return whether or
 * not it was the one expected there; it is left out. A silence with `reentryMs` alone stays as it is, and is a problem: its error was not kept.
 *
 * @example
 * currentFinding(finding).verdict // "within"
 */
export function currentFinding(value: unknown): unknown {
  if (!isObject(value) || !Array.isArray(value.dropouts)) return value;
  return { ...value, dropouts: value.dropouts.map(currentDropout) };
}

function currentDropout(value: unknown): unknown {
  if (!isObject(value) || !("reentryMs" in value) || !("landing" in value)) return value;
  const { reentryMs: _, ...rest } = value;
  return rest;
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return value !== null && typeof value === "object" && !Array.isArray(value);
}
