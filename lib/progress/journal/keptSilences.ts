import { parseSettings } from "../../drill/index.js";
import type { TakeAssessed } from "../../schema/index.js";

/** The measured values of one silence, as a journal keeps them; `undefined` means unmeasured. Positive means late or slower. */
export interface KeptSilence {
  readonly driftMs: number | undefined;
  readonly standardErrorMs: number | undefined;
  readonly driftPercent: number | undefined;
  /** `undefined` also when the accompaniment does not return. */
  readonly landingMs: number | undefined;
}

export interface KeptSilences {
  /** Length of the silences from the settings of the rung, such as "1/2 bar"; `undefined` when the settings have none. */
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
  measured,
}: Pick<TakeAssessed, "rung" | "silences" | "measured">): KeptSilences | undefined {
  const settings = parseSettings(rung);
  const length = settings.ok ? settings.value.dropout : undefined;
  if (silences !== undefined) {
    const rows = silences.map(([driftMs, standardErrorMs, driftPercent, landingMs]) => ({
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
    silences: [{ driftMs, standardErrorMs, driftPercent, landingMs }],
  };
}
