import { failure, nearestName, type Problem, type Result, resultOf, success } from "../../base/index.js";
import type { Pattern } from "../../pattern/index.js";
import type { DrillDocument } from "../../schema/index.js";
import { spanText } from "../../time/index.js";
import { drillProblem } from "../codes.js";
import { onlyMeter } from "../length.js";
import type { Parameter, Settings } from "../model.js";
import { canonicalSetting, openText, partsText } from "../rung/settings.js";
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
        owner: `pattern ${names.pattern.name}`,
      });
    }
    case "dropout":
      return readDropout(String(written), names.pattern);
    case "mix":
      return readName({ name: String(written), known: names.mixes, code: "MIX_UNKNOWN", owner: "the drill" });
    default:
      return canonicalSetting(parameter, String(written));
  }
}

/** The name when it is known, else a problem with the nearest name as remedy. */
export function readName({ name, known, code, owner }: NameQuestion): Result<string> {
  const names = [...known];
  if (names.includes(name)) return success(name);
  const thing = code.slice(0, code.indexOf("_")).toLowerCase();
  const nearest = nearestName(name, names);
  const has = names.length === 0 ? `${owner} has no ${thing}s` : `${owner} has ${shown(names)}`;
  const message = `no ${thing} is called ${JSON.stringify(name.slice(0, 80))}; ${has}`;
  const choice =
    names.length === 0 ? "leave it out" : `write ${names.length === 1 ? names[0] : `one of ${shown(names)}`}`;
  return failure(drillProblem(code, message, {}, nearest === undefined ? choice : `write ${nearest}`));
}

/** Compiles the settings that a drill states and does not climb. A setting that is on a ladder too is left out, with advice. */
export function compileFixed(document: DrillDocument, names: DrillNames, found: Collector): Partial<Settings> {
  const fixed: { -readonly [P in Parameter]?: string } = {};
  for (const [parameter, { written, pointer }] of statedSettings(document)) {
    const ladder = ladderIndex(document, parameter);
    if (ladder >= 0) {
      const message = `${parameter} climbs on ladder ${ladder + 1}, so that the value stated here is never used`;
      found.add("SETTING_NEVER_USED", message, pointer, "leave it out");
      continue;
    }
    const text = found.keep(readSetting(parameter, written, names), pointer);
    if (text !== undefined) fixed[parameter] = text;
  }
  if (document.tempo === undefined && ladderIndex(document, "tempo") < 0)
    found.add(
      "TEMPO_MISSING",
      "a drill has a tempo, or a ladder of tempi; found neither",
      "",
      "write for instance tempo: 88",
    );
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
  return statedSettings(document).get(parameter)?.pointer ?? "";
}

interface NameQuestion {
  readonly name: string;
  readonly known: Iterable<string>;
  readonly code: "VARIANT_UNKNOWN" | "MIX_UNKNOWN" | "PART_UNKNOWN" | "PATTERN_UNKNOWN";
  /** Owner of the names, for the message: "pattern dockside". */
  readonly owner: string;
}

function readParts(parts: readonly string[], { pattern, student }: DrillNames): Result<string> {
  if (parts.length === 0) {
    const remedy = "name at least one part; for a drill without silences leave the dropout out";
    return failure(
      drillProblem("DROPPING_PARTS_EMPTY", "at least one part falls silent; the list is empty", {}, remedy),
    );
  }
  const known = pattern.parts.map(({ name }) => name);
  const problems: Problem[] = parts.flatMap((name, i) => {
    const pointer = `/${i}`;
    if (name === student) {
      const message = `the parts that fall silent are accompaniment; ${name} is the student's part`;
      const remedy = `leave ${name} out; the mixes say what it does`;
      return [drillProblem("STUDENT_AMONG_DROPPING_PARTS", message, { pointer }, remedy)];
    }
    const found = readName({ name, known, code: "PART_UNKNOWN", owner: `pattern ${pattern.name}` });
    return found.ok ? [] : found.problems.map((problem) => ({ ...problem, where: { pointer } }));
  });
  return resultOf(partsText(parts), problems);
}

/** Reads lengths of silence. Those of one take never get shorter, and over a pattern that changes its meter they have one unit, so that they can be compared. */
function readDropout(written: string, pattern: Pattern): Result<string> {
  const lengths = parseSilenceLengths(written);
  if (!lengths.ok) return lengths;
  const units = new Set(lengths.value.lengths.map(({ unit }) => unit));
  if (units.size > 1 && onlyMeter(pattern) === undefined) {
    const message = `over a pattern that changes meter silences that grow keep to one unit; found ${[...units].join("s and ")}s`;
    return failure(drillProblem("LADDER_UNITS_DIFFER", message, {}, `write all in ${[...units][0]}s`));
  }
  const shorter = firstThatShrinks(lengths.value, pattern);
  if (shorter < 0) return success(silenceLengthsText(lengths.value));
  const [before, after] = [shorter - 1, shorter].map((i) => spanText(lengths.value.lengths[i]!));
  const message = `silences that grow never get shorter; ${after} comes after ${before}`;
  return failure(drillProblem("SILENCES_SHRINK", message, {}, "write the shorter lengths first"));
}

function readOpen(bars: readonly number[], pattern: Pattern): Result<string> {
  const last = pattern.bars.length;
  const problems = bars.flatMap((bar, i) => {
    if (bar >= 1 && bar <= last) return [];
    const message = `pattern ${pattern.name} has bars 1 to ${last}; found ${bar}`;
    return [drillProblem("OPEN_BAR_OUTSIDE_PATTERN", message, { pointer: `/${i}` }, `write a bar from 1 to ${last}`)];
  });
  return resultOf(openText(bars), problems);
}

function shown(names: readonly string[]): string {
  const some = names.slice(0, 12).join(", ");
  return names.length > 12 ? `${some}, ...` : some;
}

function statedSettings(document: DrillDocument): ReadonlyMap<Parameter, { written: WrittenValue; pointer: string }> {
  const { dropout, open, tempo, variant, key } = document;
  const stated: readonly [Parameter, WrittenValue | undefined, string][] = [
    ["dropout", dropout?.length, "/dropout/length"],
    ["parts", dropout?.parts, "/dropout/parts"],
    ["open", open?.bars, "/open/bars"],
    ["tempo", tempo, "/tempo"],
    ["variant", variant, "/variant"],
    ["key", key, "/key"],
  ];
  return new Map(
    stated.flatMap(([parameter, written, pointer]) =>
      written === undefined ? [] : [[parameter, { written, pointer }]],
    ),
  );
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
  const message = `part ${part.name} has the variants ${variants.join(", ")}; the drill does not say which is played`;
  found.add("VARIANT_NOT_CHOSEN", message, "", `write variant: ${variants[0]}, or a ladder of variants`);
}
