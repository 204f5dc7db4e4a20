import type { Result } from "../../../lib/base/index.js";
import { type Rung, rungs, scoreOf } from "../../../lib/drill/index.js";
import type { Sound } from "../../../lib/render/sound/index.js";
import type { DrillDocument, Score } from "../../../lib/schema/index.js";
import { drillOf, jetty } from "../../drill/material.js";

export const RATES = [44100, 48000] as const;

/** The first rung of the jetty drill with changes. */
export function jettyRung(changes: { readonly [K in keyof DrillDocument]?: DrillDocument[K] | undefined } = {}): Rung {
  return rungs(drillOf(jetty(changes))).at(0);
}

/** A score of the jetty drill: everything drops in its silences. */
export function jettyScore(changes: Parameters<typeof jettyRung>[0] = {}, mix?: string): Score {
  return scoreOf(jettyRung(changes), mix);
}

/** The score with none but the named parts sounding. */
export function only(score: Score, ...names: readonly string[]): Score {
  return { ...score, parts: score.parts.filter((part) => names.includes(part.name)) };
}

export function made<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(JSON.stringify(result.problems));
  return result.value;
}

/** A sine, `level` in dBFS. */
export function sine(
  hertz: number,
  { seconds, rate, level }: { seconds: number; rate: number; level: number },
): Float32Array {
  const height = 10 ** (level / 20);
  return Float32Array.from(
    { length: Math.round(seconds * rate) },
    (_, i) => height * Math.sin((2 * Math.PI * hertz * i) / rate),
  );
}

/** The highest absolute sample of both channels from a sample (included) to another (excluded). */
export function highest({ channels }: Pick<Sound, "channels">, from: number, to: number): number {
  let most = 0;
  for (const channel of channels) for (let i = from; i < to; i++) most = Math.max(most, Math.abs(channel[i] ?? 0));
  return most;
}
