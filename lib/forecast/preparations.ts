import { fraction, multiply, toNumber } from "../base/index.js";
import { type Drill, type Rung, rungs, type Settings, settingsText } from "../drill/index.js";
import { decimalText, parseDecimal, parseSpan, spanText } from "../time/index.js";

/** Tempi of preparations in tenths of the tempo of the first rung. Our choice. */
const TENTHS = [9, 8, 7, 6] as const;
/** Slowest tempo of a preparation, beats per minute: below it a beat is too long to synchronise with well. Our choice, beside `lib/time/synchronisation.ts`. */
const SLOWEST = 40;

/**
 * Preparations of a drill: settings below its first rung, made from its own parameters, for a student whom even that rung is too hard for. The tempo
 * is slower, or the silence half as long, or both. They are no rungs (their `index` is -1), nothing played on them is evidence, and a score can be
 * made of them like of a rung. Growing silences stay as they are.
 *
 * @example
 * preparationsOf(drill)[0].settings.tempo // nine tenths of the first rung's
 */
export function preparationsOf(drill: Drill): readonly Rung[] {
  const { settings } = rungs(drill).at(0);
  const tempo = parseDecimal(settings.tempo);
  if (tempo === undefined) return [];
  const tempi = TENTHS.map((tenths) => Math.round((toNumber(tempo) * tenths) / 10))
    .filter((each) => each >= SLOWEST)
    .map((each) => decimalText(fraction(each)));
  const dropouts = [settings.dropout, halfOf(settings.dropout)].filter((each, i) => i === 0 || each !== undefined);
  return dropouts.flatMap((dropout, i) =>
    [...(i > 0 ? [settings.tempo] : []), ...tempi].map((slower) => {
      const changed = { ...settings, tempo: slower, ...(dropout === undefined ? {} : { dropout }) } as Settings;
      return { drill, index: -1, settings: changed };
    }),
  );
}

/**
 * The preparation of a drill with these settings; `undefined` without a drill or a text, or when there is none.
 *
 * @example
 * preparationCalled(drill, "tempo=20") // undefined: no drill is prepared so slowly
 */
export function preparationCalled(drill: Drill | undefined, text: string | undefined): Rung | undefined {
  if (drill === undefined || text === undefined) return undefined;
  return preparationsOf(drill).find(({ settings }) => settingsText(settings) === text);
}

/** Half of a length of silence; `undefined` for silences that grow, and without silence. */
function halfOf(dropout: string | undefined): string | undefined {
  const span = dropout === undefined ? undefined : parseSpan(dropout);
  if (span === undefined || !span.ok) return undefined;
  return spanText({ count: multiply(span.value.count, fraction(1, 2)), unit: span.value.unit });
}
