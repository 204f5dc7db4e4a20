import { parseSettings } from "../drill/index.js";
import type { TakeAssessed } from "../schema/index.js";

/** What one silence of a take showed, as a journal keeps it; `undefined` is unmeasured. Positive is late or slower. */
export interface KeptSilence {
  readonly driftMs: number | undefined;
  readonly standardErrorMs: number | undefined;
  readonly driftPercent: number | undefined;
  /** Also `undefined` when the accompaniment does not return. */
  readonly reentryMs: number | undefined;
}

export interface KeptSilences {
  /** Length as the rung says it: "1/2 bar"; `undefined` when it does not. */
  readonly length: string | undefined;
  /** Older journals kept the largest drift and the largest offset at re-entry only: one entry then, the two not always of one silence. */
  readonly told: "each silence" | "largest of a take";
  readonly silences: readonly KeptSilence[];
}

/**
 * The silences a journal's take tells of, whichever version of leeway wrote it; `undefined` for a take without silences.
 *
 * @example silencesOf(event)?.silences.map(({ driftPercent }) => driftPercent)
 */
export function silencesOf({
  rung,
  silences,
  measured,
}: Pick<TakeAssessed, "rung" | "silences" | "measured">): KeptSilences | undefined {
  const settings = parseSettings(rung);
  const length = settings.ok ? settings.value.dropout : undefined;
  if (silences !== undefined) {
    const rows = silences.map(([driftMs, standardErrorMs, driftPercent, reentryMs]) => ({
      driftMs: driftMs ?? undefined,
      standardErrorMs: standardErrorMs ?? undefined,
      driftPercent: driftPercent ?? undefined,
      reentryMs: reentryMs ?? undefined,
    }));
    return { length, told: "each silence", silences: rows };
  }
  if (length === undefined && measured?.driftMs === undefined) return undefined;
  const { driftMs, standardErrorMs, driftPercent, reentryMs } = measured ?? {};
  return {
    length,
    told: "largest of a take",
    silences: [{ driftMs, standardErrorMs, driftPercent, reentryMs }],
  };
}
