import { compare, nearestName, type Worded } from "../../base/index.js";
import type { DrillDocument } from "../../schema/index.js";
import { parseSpan, resolveSpan } from "../../time/index.js";
import type { Collector } from "../compile/collector.js";
import { pointerOfSetting } from "../compile/settings.js";
import { onlyMeter } from "../length.js";
import type { Drill, Parameter } from "../model.js";
import { say } from "../say.js";
import { lengthTextsIn } from "../silenceLengths.js";
import { notesOf, variantsOf } from "../variants.js";
import { checkAccompanied } from "./accompanied.js";
import { allValuesInForce, type CheckContext, valuesInForce } from "./context.js";
import { checkEvidence } from "./evidence.js";
import { checkMixes } from "./mixes.js";
import { checkPlacement } from "./placement.js";
import { checkRange } from "./range.js";
import { checkRecorded } from "./recorded.js";
import { silenceCases } from "./silences.js";
import { checkRise, checkTempo } from "./tempo.js";
import { checkTolerance } from "./tolerance.js";

/**
 * Checks whether a drill can be played, heard and judged on all its rungs. A check that needs a setting that could not be read is left
 * out: the problem with the setting is already reported.
 */
export function checkDrill(drill: Drill, document: DrillDocument, found: Collector): void {
  const context: CheckContext = { drill, found, pointerOf: (parameter) => pointerOfSetting(document, parameter) };
  const read = (...parameters: readonly Parameter[]): boolean =>
    parameters.every((parameter) => pointerOfSetting(document, parameter) === "" || isInForce(drill, parameter));
  if (read("variant")) checkVariants(context);
  if (read("dropout", "parts", "mix")) checkMixes(context);
  const paced = read("tempo", "rise") && checkRise(context);
  if (paced) checkTempo(context);
  if (paced && read("variant", "key")) checkRecorded(context);
  const tested = read("dropout") ? lengthsToCheck(drill) : { lengths: [], complete: true };
  const fitting = checkPlacement(context, tested.lengths);
  const judgeable = read("variant", "open") && studentPlays(drill);
  const { cases, complete } = silenceCases(drill, judgeable ? fitting : []);
  if (!complete || !tested.complete) {
    const message = say("drill-problem.ladders-not-all-checked");
    found.add("LADDERS_NOT_ALL_CHECKED", message, "/ladders", say("drill-problem.ladders-not-all-checked-remedy"));
  }
  checkEvidence(context, cases);
  if (judgeable && complete && tested.complete) checkAccompanied(context, fitting);
  if (paced) checkTolerance(context, cases);
  if (read("key", "variant")) checkRange(context, document.players);
}

/** Most lengths of silence checked one by one. Our choice: more than a phrase has places for. */
const MOST_LENGTHS = 128;

/**
 * The lengths of silence to check. Where silences end on given bar lines, a longer one only begins earlier, so the shortest and the
 * longest are enough. At the start of a phrase, or where the meter changes and lengths in different units cannot be ordered, all lengths
 * are checked. `complete` is false when there are more than MOST_LENGTHS.
 */
function lengthsToCheck(drill: Drill): { readonly lengths: readonly string[]; readonly complete: boolean } {
  const atStart = drill.dropout?.place.at === "start";
  const values = allValuesInForce(drill, "dropout", atStart ? MOST_LENGTHS : 0).filter((text) => text !== undefined);
  const all = [...new Set(values.flatMap(lengthTextsIn))];
  const meter = onlyMeter(drill.pattern);
  if (!atStart && meter !== undefined && all.length > 2) {
    const measured = all.flatMap((text) => {
      const span = parseSpan(text);
      return span.ok ? [{ text, length: resolveSpan(span.value, meter) }] : [];
    });
    const ordered = measured.sort((a, b) => compare(a.length, b.length));
    return { lengths: [ordered[0]!.text, ordered.at(-1)!.text], complete: true };
  }
  const ladder = drill.ladders.find(({ parameter }) => parameter === "dropout");
  const skipped = atStart && ladder !== undefined && ladder.count > MOST_LENGTHS;
  return { lengths: all.slice(0, MOST_LENGTHS), complete: !skipped && all.length <= MOST_LENGTHS };
}

function isInForce(drill: Drill, parameter: Parameter): boolean {
  return drill.fixed[parameter] !== undefined || drill.ladders.some((ladder) => ladder.parameter === parameter);
}

function studentPlays(drill: Drill): boolean {
  const part = drill.pattern.parts.find(({ name }) => name === drill.student);
  return valuesInForce(drill, "variant").every(
    (variant) => part !== undefined && (notesOf(part, variant)?.length ?? 0) > 0,
  );
}

function checkVariants({ drill, found, pointerOf }: CheckContext): void {
  for (const variant of valuesInForce(drill, "variant")) {
    for (const part of drill.pattern.parts) {
      const notes = notesOf(part, variant);
      if (notes === undefined && variant !== undefined) {
        const variants = variantsOf(part);
        const message = say("drill-problem.variant-unknown-in-part", { part: part.name, variants, variant });
        found.add("VARIANT_UNKNOWN", message, pointerOf("variant"), variantRemedy(variant, variants));
      }
      if (notes?.length === 0 && part.name === drill.student) {
        const message = say("drill-problem.student-plays-nothing", { part: part.name, variant: variant ?? "" });
        const remedy = say("drill-problem.student-plays-nothing-remedy");
        found.add("STUDENT_PLAYS_NOTHING", message, pointerOf("variant"), remedy);
      }
    }
  }
}

/** What to do about a variant that a part with several others does not have. */
function variantRemedy(variant: string, variants: readonly string[]): Worded {
  const nearest = nearestName(variant, variants);
  return nearest === undefined
    ? say("drill-problem.variant-unknown-in-part-choice", {
        others: variants.slice(0, -1),
        last: variants.at(-1)!,
        variant,
      })
    : say("drill-problem.variant-unknown-in-part-remedy", { nearest, variant });
}
