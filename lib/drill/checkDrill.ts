import type { DrillDocument } from "../schema/index.js";
import type { CheckContext } from "./checkContext.js";
import { checkEvidence } from "./checkEvidence.js";
import { checkMixes } from "./checkMixes.js";
import { checkPlace } from "./checkPlace.js";
import { checkRange } from "./checkRange.js";
import { checkTempo } from "./checkTempo.js";
import { checkTolerance } from "./checkTolerance.js";
import type { Collector } from "./collector.js";
import { pointerOfSetting } from "./compileFixed.js";
import { lengthsToCheck } from "./lengthsToCheck.js";
import type { Drill, Parameter } from "./model.js";
import { notesOf, variantsOf } from "./notesOf.js";
import { silenceCases } from "./silenceCases.js";
import { valuesInForce } from "./valuesInForce.js";

/**
 * Checks whether a drill can be played, heard and judged on all its rungs. What rests on a setting that could not be read is left
 * unchecked: its problem is known already.
 */
export function checkDrill(drill: Drill, document: DrillDocument, found: Collector): void {
  const context: CheckContext = { drill, found, pointerOf: (parameter) => pointerOfSetting(document, parameter) };
  const read = (...parameters: readonly Parameter[]): boolean =>
    parameters.every((parameter) => pointerOfSetting(document, parameter) === "" || isInForce(drill, parameter));
  if (read("variant")) checkVariants(context);
  if (read("dropout", "parts", "mix")) checkMixes(context);
  if (read("tempo")) checkTempo(context);
  const tested = read("dropout") ? lengthsToCheck(drill) : { lengths: [], complete: true };
  const fitting = checkPlace(context, tested.lengths);
  const judgeable = read("variant", "open") && studentPlays(drill);
  const { cases, complete } = silenceCases(drill, judgeable ? fitting : []);
  if (!complete || !tested.complete) {
    const message =
      "the lists of variants, open bars and lengths multiply to more combinations than are checked for notes to judge by";
    found.add("LADDERS_NOT_ALL_CHECKED", message, "/ladders", "use shorter lists, or several drills");
  }
  checkEvidence(context, cases);
  if (read("tempo")) checkTolerance(context, cases);
  if (read("key", "variant")) checkRange(context);
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
        const message = `part ${part.name} has the variants ${variantsOf(part).join(", ")}, and none called ${variant}`;
        found.add("VARIANT_UNKNOWN", message, pointerOf("variant"));
      }
      if (notes?.length === 0 && part.name === drill.student) {
        const which = variant === undefined ? "" : ` in variant ${variant}`;
        found.add(
          "STUDENT_PLAYS_NOTHING",
          `the student's part has notes; ${part.name} has none${which}`,
          pointerOf("variant"),
        );
      }
    }
  }
}
