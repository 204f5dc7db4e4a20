import { failure, nearestName, renamedTo, resultOf, success, type Worded } from "../../base/index.js";
import type { Pattern } from "../../pattern/index.js";
import type { DrillDocument, PartsGrowthDocument } from "../../schema/index.js";
import { type Span, spanText } from "../../time/index.js";
import { drillProblem } from "../codes.js";
import { onlyMeter } from "../length.js";
import type { Parameter, Settings } from "../model.js";
import { partsInTakeText } from "../partsInTake.js";
import type { Problem, Result } from "../problem.js";
import { canonicalSetting, openText } from "../rung/settings.js";
import { say } from "../say.js";
import { firstThatShrinks, parseSilenceLengths, silenceLengthsText } from "../silenceLengths.js";
import { variantsOf } from "../variants.js";
import type { Collector } from "./collector.js";
import type { DrillNames } from "./place.js";

/** A value in a document: a text, a tempo, part names or bar numbers. */
export type WrittenValue = string | number | readonly string[] | readonly number[];

/** Reads a value, fixed or on a ladder, to its canonical text. It is checked against the pattern and the mixes. */
export function readSetting(parameter: Parameter, written: WrittenValue, names: DrillNames): Result<string> {
  switch (parameter) {
    case "parts":
      return readParts(written as readonly string[], names);
    case "open":
      return readOpen(written as readonly number[], names.pattern);
    case "variant": {
      const known = new Set(names.pattern.parts.flatMap(variantsOf));
      return readName({
        name: String(written),
        known,
        code: "VARIANT_UNKNOWN",
        pattern: names.pattern.name,
      });
    }
    case "dropout":
      return readDropout(String(written), names.pattern);
    case "mix":
      return readName({ name: String(written), known: names.mixes, code: "MIX_UNKNOWN" });
    default:
      return canonicalSetting(parameter, String(written));
  }
}

/** The name when it is known, else a problem with the nearest name as remedy. */
export function readName(question: NameQuestion): Result<string> {
  const { name, code } = question;
  const names = [...question.known];
  if (names.includes(name)) return success(name);
  const nearest = nearestName(name, names) ?? renamedTo(name, names);
  const remedy = nearest === undefined ? choiceOf(names) : say("drill-problem.write", { text: nearest });
  return failure(drillProblem(code, unknownName(question, names), {}, remedy));
}

/** Most names listed in a message. Our choice: about one line. */
const MOST_NAMES = 12;

function unknownName({ name, code, pattern = "" }: NameQuestion, names: readonly string[]): Worded {
  const found = JSON.stringify(name.slice(0, 80));
  const some = names.slice(0, MOST_NAMES);
  const ending = names.length === 0 ? "-none" : names.length > MOST_NAMES ? "-more" : "";
  switch (code) {
    case "PART_UNKNOWN":
      return say(`drill-problem.part-unknown${ending}`, { found, pattern, parts: some });
    case "VARIANT_UNKNOWN":
      return say(`drill-problem.variant-unknown${ending}`, { found, pattern, variants: some });
    case "MIX_UNKNOWN":
      return say(`drill-problem.mix-unknown${ending}`, { found, mixes: some });
    case "PATTERN_UNKNOWN":
      return say(`drill-problem.pattern-unknown${ending}`, { found, patterns: some });
  }
}

function choiceOf(names: readonly string[]): Worded {
  if (names.length === 0) return say("drill-problem.leave-it-out");
  if (names.length === 1) return say("drill-problem.write", { text: names[0]! });
  return names.length > MOST_NAMES
    ? say("drill-problem.write-one-of-more", { names: names.slice(0, MOST_NAMES) })
    : say("drill-problem.write-one-of", { names });
}

/** Compiles the settings that a drill states and does not climb. A setting that is on a ladder too is left out, with advice. */
export function compileFixed(document: DrillDocument, names: DrillNames, found: Collector): Partial<Settings> {
  const fixed: { -readonly [P in Parameter]?: string } = {};
  for (const [parameter, { written, pointer }] of statedSettings(document)) {
    const ladder = ladderIndex(document, parameter);
    if (ladder >= 0) {
      const message = say("drill-problem.setting-never-used", { parameter, ladder: ladder + 1 });
      found.add("SETTING_NEVER_USED", message, pointer, say("drill-problem.leave-it-out"));
      continue;
    }
    const text = found.keep(readSetting(parameter, written, names), pointer);
    if (text !== undefined) fixed[parameter] = text;
  }
  if (document.tempo === undefined && ladderIndex(document, "tempo") < 0) {
    const remedy = say("drill-problem.write-for-instance", { example: "tempo: 88" });
    found.add("TEMPO_MISSING", say("drill-problem.tempo-missing"), "", remedy);
  }
  if (document.variant === undefined && ladderIndex(document, "variant") < 0) askForVariant(names, found);
  return fixed as Partial<Settings>;
}

/** The JSON pointer to a parameter in a drill document: its ladder, or its fixed value; "" when it is not written. */
export function pointerOfSetting(document: DrillDocument, parameter: Parameter): string {
  const ladder = ladderIndex(document, parameter);
  if (ladder >= 0 && parameter === "dropout" && document.ladders![ladder]!.dropout === undefined)
    return `/ladders/${ladder}/grows`;
  if (ladder >= 0) return `/ladders/${ladder}/${parameter}`;
  if (parameter === "dropout" && document.dropout?.length === undefined && document.dropout?.grows !== undefined)
    return "/dropout/grows";
  if (parameter === "parts" && isGrowing(document.dropout?.parts)) return "/dropout/parts";
  return statedSettings(document).get(parameter)?.pointer ?? "";
}

interface NameQuestion {
  readonly name: string;
  readonly known: Iterable<string>;
  readonly code: "VARIANT_UNKNOWN" | "MIX_UNKNOWN" | "PART_UNKNOWN" | "PATTERN_UNKNOWN";
  /** The pattern that parts and variants are of. */
  readonly pattern?: string;
}

function readParts(parts: readonly string[], { pattern, student }: DrillNames): Result<string> {
  if (parts.length === 0) {
    const remedy = say("drill-problem.dropping-parts-empty-remedy");
    return failure(drillProblem("DROPPING_PARTS_EMPTY", say("drill-problem.dropping-parts-empty"), {}, remedy));
  }
  const known = pattern.parts.map(({ name }) => name);
  const problems = parts.flatMap((name, i): readonly Problem[] => {
    const pointer = `/${i}`;
    if (name === student) {
      const message = say("drill-problem.student-among-dropping-parts", { part: name });
      const remedy = say("drill-problem.student-among-dropping-parts-remedy", { part: name });
      return [drillProblem("STUDENT_AMONG_DROPPING_PARTS", message, { pointer }, remedy)];
    }
    const found = readName({ name, known, code: "PART_UNKNOWN", pattern: pattern.name });
    return found.ok ? [] : found.problems.map((problem) => ({ ...problem, where: { pointer } }));
  });
  return resultOf(partsInTakeText({ sets: [parts], each: 1 }), problems);
}

/** Reads lengths of silence. Those of one take never get shorter, and over a pattern that changes its meter they have one unit, so that they can be compared. */
function readDropout(written: string, pattern: Pattern): Result<string> {
  const lengths = parseSilenceLengths(written);
  if (!lengths.ok) return lengths;
  const units = new Set(lengths.value.lengths.map(({ unit }) => unit));
  if (units.size > 1 && onlyMeter(pattern) === undefined) {
    const [first, second] = [...units] as [Span["unit"], Span["unit"]];
    const message =
      units.size > 2
        ? say("drill-problem.ladder-units-differ-growth-all")
        : say("drill-problem.ladder-units-differ-growth", { first, second });
    const remedy = say("drill-problem.ladder-units-differ-growth-remedy", { unit: first });
    return failure(drillProblem("LADDER_UNITS_DIFFER", message, {}, remedy));
  }
  const shorter = firstThatShrinks(lengths.value, pattern);
  if (shorter < 0) return success(silenceLengthsText(lengths.value));
  const [before, after] = [shorter - 1, shorter].map((i) => spanText(lengths.value.lengths[i]!));
  const message = say("drill-problem.silences-shrink", { after: after!, before: before! });
  return failure(drillProblem("SILENCES_SHRINK", message, {}, say("drill-problem.silences-shrink-remedy")));
}

function readOpen(bars: readonly number[], pattern: Pattern): Result<string> {
  const last = pattern.bars.length;
  const problems = bars.flatMap((bar, i) => {
    if (bar >= 1 && bar <= last) return [];
    const message = say("drill-problem.open-bar-outside-pattern", { pattern: pattern.name, last, found: String(bar) });
    const remedy = say("drill-problem.write-bar", { last: String(last) });
    return [drillProblem("OPEN_BAR_OUTSIDE_PATTERN", message, { pointer: `/${i}` }, remedy)];
  });
  return resultOf(openText(bars), problems);
}

function statedSettings(document: DrillDocument): ReadonlyMap<Parameter, { written: WrittenValue; pointer: string }> {
  const { dropout, open, tempo, rise, variant, key } = document;
  const stated: readonly [Parameter, WrittenValue | undefined, string][] = [
    ["dropout", dropout?.length, "/dropout/length"],
    ["parts", isGrowing(dropout?.parts) ? undefined : dropout?.parts, "/dropout/parts"],
    ["open", open?.bars, "/open/bars"],
    ["tempo", tempo, "/tempo"],
    ["rise", rise, "/rise"],
    ["variant", variant, "/variant"],
    ["key", key, "/key"],
  ];
  return new Map(
    stated.flatMap(([parameter, written, pointer]) =>
      written === undefined ? [] : [[parameter, { written, pointer }]],
    ),
  );
}

/** Whether more parts drop as a take goes on. */
export function isGrowing(parts: NonNullable<DrillDocument["dropout"]>["parts"]): parts is PartsGrowthDocument {
  return parts !== undefined && !Array.isArray(parts);
}

function ladderIndex(document: DrillDocument, parameter: Parameter): number {
  return (document.ladders ?? []).findIndex(
    (ladder) => ladder[parameter] !== undefined || (parameter === "dropout" && ladder.grows !== undefined),
  );
}

function askForVariant({ pattern }: DrillNames, found: Collector): void {
  const part = pattern.parts.find((one) => variantsOf(one).length > 1);
  if (part === undefined) return;
  const variants = variantsOf(part);
  const message = say("drill-problem.variant-not-chosen", { part: part.name, variants });
  found.add(
    "VARIANT_NOT_CHOSEN",
    message,
    "",
    say("drill-problem.variant-not-chosen-remedy", { variant: variants[0]! }),
  );
}
