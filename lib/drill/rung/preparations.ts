import { failure, fraction, multiply, success, toNumber } from "../../base/index.js";
import { decimalText, parseDecimal } from "../../time/index.js";
import { drillProblem } from "../codes.js";
import type { Drill, Settings } from "../model.js";
import type { Result } from "../problem.js";
import { readSilenceLengths, silenceLengthsText } from "../silenceLengths.js";
import { notesOf, variantsOf } from "../variants.js";
import { type Rung, rungs } from "./rungs.js";
import { say } from "./say.js";
import { settingsText } from "./settings.js";

/** Tempi of preparations in tenths of the tempo of the first rung. Our choice. */
const TENTHS = [10, 9, 8, 7, 6] as const;
/** Slowest tempo of a preparation, beats per minute: below it a beat is too long to synchronise with well. Our choice, beside `lib/time/synchronisation.ts`. */
const SLOWEST = 40;

/**
 * Preparations of a drill: settings below its first rung, made from its own parameters, for a student whom even that rung is too hard for. The tempo
 * is slower, or the silences half as long, or the riff its plainest variant, or several of these. They are no rungs (their `index` is -1), nothing
 * played on them is evidence, and a score can be made of them like of a rung. None is a rung of the drill.
 *
 * @example
 * preparationsOf(drill)[0].settings.tempo // nine tenths of the first rung's
 */
export function preparationsOf(drill: Drill): readonly Rung[] {
  const all = rungs(drill);
  const { settings } = all.at(0);
  const plainer = plainerVariant(drill, settings.variant);
  const half = halfOf(settings.dropout);
  const found = [settings.variant, ...(plainer === undefined ? [] : [plainer])].flatMap((variant) =>
    [settings.dropout, ...(half === undefined ? [] : [half])].flatMap((dropout) =>
      tempiFrom(settings.tempo).map(
        (tempo): Settings => ({
          ...settings,
          tempo,
          ...(variant === undefined ? {} : { variant }),
          ...(dropout === undefined ? {} : { dropout }),
        }),
      ),
    ),
  );
  return found.filter((each) => all.indexOf(each) === undefined).map((each) => ({ drill, index: -1, settings: each }));
}

/**
 * Whether what looks like a rung is a preparation of its drill.
 *
 * @example
 * isPreparation(rungs(drill).at(0)) // false
 */
export function isPreparation({ index }: Pick<Rung, "index">): boolean {
  return index < 0;
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

/**
 * A rung as it was found, for what only a rung will do. Problem: RUNG_NOT_FOUND for a preparation.
 */
export function onLadder(rung: Rung): Result<Rung> {
  if (!isPreparation(rung)) return success(rung);
  const named = { drill: rung.drill.name, asked: settingsText(rung.settings) };
  const message = say("rung-problem.rung-is-preparation", named);
  const remedy = say("rung-problem.write", { text: settingsText(rungs(rung.drill).at(0).settings) });
  return failure(drillProblem("RUNG_NOT_FOUND", message, {}, remedy));
}

/** The tempo of the first rung and slower ones. */
function tempiFrom(text: string): readonly string[] {
  const tempo = parseDecimal(text);
  if (tempo === undefined) return [text];
  const slower = TENTHS.slice(1)
    .map((tenths) => Math.round((toNumber(tempo) * tenths) / 10))
    .filter((each) => each >= SLOWEST);
  return [text, ...new Set(slower.map((each) => decimalText(fraction(each))))];
}

/** The variant of the student's part with the fewest notes, when it has fewer than this one. */
function plainerVariant({ pattern, student }: Drill, variant: string | undefined): string | undefined {
  const part = pattern.parts.find(({ name }) => name === student);
  if (part === undefined || variant === undefined) return undefined;
  const notes = (name: string): number => notesOf(part, name)?.length ?? 0;
  const fewer = variantsOf(part).filter(
    (name) =>
      notes(name) > 0 &&
      notes(name) < notes(variant) &&
      pattern.parts.every((each) => notesOf(each, name) !== undefined),
  );
  return fewer.sort((a, b) => notes(a) - notes(b))[0];
}

/** Half of each length of silence; `undefined` without silence. */
function halfOf(dropout: string | undefined): string | undefined {
  const read = dropout === undefined ? undefined : readSilenceLengths(dropout);
  if (read === undefined) return undefined;
  const lengths = read.lengths.map(({ count, unit }) => ({ count: multiply(count, fraction(1, 2)), unit }));
  return silenceLengthsText({ ...read, lengths });
}
