import { parseSettings } from "../../drill/index.js";
import type { TakeAssessed } from "../../schema/index.js";

/** The measured values of one silence, as a journal keeps them; `undefined` means unmeasured. Positive means late or slower. */
export interface KeptSilence {
  /** Such as "1/2 bar"; `undefined` when neither the take nor the settings of its rung have it. */
  readonly length: string | undefined;
  readonly driftMs: number | undefined;
  readonly standardErrorMs: number | undefined;
  readonly driftPercent: number | undefined;
  /** `undefined` also when the accompaniment does not return. */
  readonly landingMs: number | undefined;
}

export interface KeptSilences {
  /** What the settings of the rung say of the lengths: "1/2 bar", or how they grow; `undefined` when they say nothing. */
  readonly length: string | undefined;
  /** Older journals kept only the largest drift and the largest offset at landing of a take: then there is one entry, and its two values may be from different silences. */
  readonly told: "each silence" | "largest of a take";
  readonly silences: readonly KeptSilence[];
}

/**
 * The silences of a take in a journal, written by any version of leeway; `undefined` for a take without silences.
 *
 * @example silencesOf(event)?.silences.map(({ driftPercent }) => driftPercent)
 */
export function silencesOf({
  rung,
  silences,
  lengths,
  measured,
}: Pick<TakeAssessed, "rung" | "silences" | "lengths" | "measured">): KeptSilences | undefined {
  const settings = parseSettings(rung);
  const length = settings.ok ? settings.value.dropout : undefined;
  if (silences !== undefined) {
    const rows = silences.map(([driftMs, standardErrorMs, driftPercent, landingMs], i) => ({
      length: lengths?.[i] ?? length,
      driftMs: driftMs ?? undefined,
      standardErrorMs: standardErrorMs ?? undefined,
      driftPercent: driftPercent ?? undefined,
      landingMs: landingMs ?? undefined,
    }));
    return { length, told: "each silence", silences: rows };
  }
  if (length === undefined && measured?.driftMs === undefined) return undefined;
  const { driftMs, standardErrorMs, driftPercent, landingMs } = measured ?? {};
  return {
    length,
    told: "largest of a take",
    silences: [{ length, driftMs, standardErrorMs, driftPercent, landingMs }],
  };
}
