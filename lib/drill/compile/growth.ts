import type { DrillDocument, GrowthDocument, SpanStepsDocument } from "../../schema/index.js";
import { type Span, spanText } from "../../time/index.js";
import { parseLength } from "../length.js";
import type { Drill, Ladder, Settings } from "../model.js";
import { parsePartsInTake, partsInTakeText } from "../partsInTake.js";
import { ladderValue } from "../rung/ladder.js";
import { say } from "../say.js";
import { grouped, MOST_PHRASES, parseSilenceLengths, silenceLengthsText } from "../silenceLengths.js";
import type { Collector } from "./collector.js";
import type { DrillNames, LadderPlace, WrittenGrowth } from "./place.js";
import { isGrowing, readSetting } from "./settings.js";
import { compileSpanSteps } from "./spanSteps.js";

/** Compiles silences that grow inside one take to the text of the setting; `undefined` when there are problems. */
function compileGrowth(written: WrittenGrowth, place: LadderPlace): string | undefined {
  const { found, pointer, names } = place;
  const document: GrowthDocument = isList(written) ? { lengths: written } : written;
  const each = readEach(document.each, place);
  const lengths = lengthsOf(document, isList(written) ? pointer : `${pointer}/lengths`, place);
  if (each === undefined || lengths === undefined) return undefined;
  if (lengths.length * each > MOST_PHRASES) {
    const message = say("drill-problem.growth-longer-than-take", {
      most: MOST_PHRASES,
      lengths: lengths.length,
      each,
      phrases: lengths.length * each,
    });
    found.add("GROWTH_LONGER_THAN_TAKE", message, pointer, say("drill-problem.growth-longer-than-take-remedy"));
    return undefined;
  }
  return found.keep(readSetting("dropout", silenceLengthsText(grouped(lengths, each)), names), pointer);
}

/** Compiles silences that grow in the same way on all rungs, unless a ladder says what they grow to, or how long they are. Nothing when there are problems. */
export function compileFixedGrowth(
  { dropout, ladders }: DrillDocument,
  names: DrillNames,
  found: Collector,
): Pick<Settings, "dropout"> {
  const grows = dropout?.grows;
  if (grows === undefined) return {};
  const pointer = "/dropout/grows";
  const over = (ladders ?? []).findIndex((ladder) => ladder.dropout !== undefined || ladder.grows !== undefined);
  if (dropout?.length !== undefined) {
    const remedy = say("drill-problem.dropout-length-twice-remedy");
    found.add("DROPOUT_LENGTH_TWICE", say("drill-problem.dropout-length-twice"), pointer, remedy);
  } else if (over < 0) {
    const text = compileGrowth(grows, { names, found, pointer });
    if (text !== undefined) return { dropout: text };
  } else if (ladders![over]!.dropout !== undefined || ("to" in grows && grows.to !== undefined)) {
    const unused = ladders![over]!.dropout !== undefined ? pointer : `${pointer}/to`;
    const message = say("drill-problem.setting-never-used-growth", { ladder: over + 1 });
    found.add("SETTING_NEVER_USED", message, unused, say("drill-problem.leave-it-out"));
  }
  return {};
}

/** Compiles parts that drop one after the other in the course of a take. Nothing when there are problems, or when a ladder says which parts drop. */
export function compilePartsGrowth(
  { dropout, ladders }: DrillDocument,
  names: DrillNames,
  found: Collector,
): Pick<Settings, "parts"> {
  const parts = dropout?.parts;
  if (!isGrowing(parts)) return {};
  const pointer = "/dropout/parts";
  const ladder = (ladders ?? []).findIndex((each) => each.parts !== undefined);
  if (ladder >= 0) {
    const message = say("drill-problem.setting-never-used", { parameter: "parts", ladder: ladder + 1 });
    found.add("SETTING_NEVER_USED", message, pointer, say("drill-problem.leave-it-out"));
    return {};
  }
  const each = readEach(parts.each, { names, found, pointer });
  const sets = parts.grows.map((set, i) => found.keep(readSetting("parts", set, names), `${pointer}/grows/${i}`));
  const read = sets.flatMap((set) => (set === undefined ? [] : [parsePartsInTake(set).sets[0]!]));
  if (each === undefined || read.length < sets.length) return {};
  const lost = read.findIndex((set, i) => i > 0 && !read[i - 1]!.every((part) => set.includes(part)));
  if (lost > 0) {
    const before = read[lost - 1]!;
    const message = say("drill-problem.silences-shrink-parts", {
      parts: before.filter((part) => !read[lost]!.includes(part)),
    });
    const remedy = say("drill-problem.silences-shrink-parts-remedy", {
      parts: [...new Set([...before, ...read[lost]!])],
    });
    found.add("SILENCES_SHRINK", message, `${pointer}/grows/${lost}`, remedy);
    return {};
  }
  if (read.length * each > MOST_PHRASES) {
    const given = { most: MOST_PHRASES, lengths: read.length, each, phrases: read.length * each };
    const message = say("drill-problem.growth-longer-than-take-parts", given);
    found.add("GROWTH_LONGER_THAN_TAKE", message, pointer, say("drill-problem.growth-longer-than-take-remedy"));
    return {};
  }
  return { parts: partsInTakeText({ sets: read, each }) };
}

/** Compiles a ladder over what the silences grow to: the texts of its values, easiest first; `undefined` when there are problems. */
export function compileReach(
  written: SpanStepsDocument | readonly string[],
  place: LadderPlace,
): readonly string[] | undefined {
  const { found, pointer, names } = place;
  const { grows } = names;
  if (grows === undefined || isList(grows) || grows.from === undefined || grows.by === undefined) {
    const example = "grows: { from: 1/2 bar, by: 1/2 bar, each: 2 phrases }";
    const remedy = say("drill-problem.growth-without-start-remedy", { example });
    found.add("GROWTH_WITHOUT_START", say("drill-problem.growth-without-start"), pointer, remedy);
    return undefined;
  }
  const ends = isList(written) ? written : endsOf(written, place);
  const pointerOf = (i: number): string => (isList(written) ? `${pointer}/${i}` : pointer);
  const start = "/dropout/grows";
  const steps = [
    found.keep(parseLength(grows.from), `${start}/from`),
    found.keep(parseLength(grows.by), `${start}/by`),
    readEach(grows.each, { ...place, pointer: start }),
  ];
  if (steps.includes(undefined)) {
    ends?.forEach((to, i) => void found.keep(parseLength(to), pointerOf(i)));
    return undefined;
  }
  const texts = ends?.map((to, i) => compileGrowth({ ...grows, to }, { ...place, pointer: pointerOf(i) }));
  return texts?.every((text) => text !== undefined) ? texts : undefined;
}

/** The number of phrases after which nothing grows any more, and with which every step holds as long as it should: the most of all rungs; `undefined` when nothing grows. */
export function phrasesToGrow({
  fixed,
  ladders,
}: Pick<Drill, "fixed" | "ladders">): { readonly least: number; readonly whole: number } | undefined {
  const ladder = ladders.find(({ parameter }) => parameter === "dropout")?.values;
  const texts = ladder?.kind === "list" ? ladder.texts : [fixed.dropout ?? ""];
  const grown = texts.flatMap((text) => {
    const read = parseSilenceLengths(text);
    return read.ok ? [{ count: read.value.lengths.length, each: read.value.each }] : [];
  });
  const { sets, each } = parsePartsInTake(fixed.parts ?? "");
  const growing = [...grown, { count: sets.length, each }].filter(({ count }) => count > 1);
  if (growing.length === 0) return undefined;
  return {
    least: Math.max(...growing.map(({ count, each }) => (count - 1) * each + 1)),
    whole: Math.max(...growing.map(({ count, each }) => count * each)),
  };
}

function lengthsOf(document: GrowthDocument, listPointer: string, place: LadderPlace): readonly Span[] | undefined {
  const { found, pointer } = place;
  const { from, to, by, lengths } = document;
  const isRange = from !== undefined || to !== undefined || by !== undefined;
  if (isRange === (lengths !== undefined) || (isRange && !(from && to && by))) {
    const keys = Object.keys(document).filter((key) => key !== "each");
    const message =
      keys.length === 0 ? say("drill-problem.growth-form-none") : say("drill-problem.growth-form", { keys });
    const example = "{ from: 1/2 bar, to: 2 bars, by: 1/2 bar, each: 2 phrases }";
    found.add("GROWTH_FORM", message, pointer, say("drill-problem.write-for-instance", { example }));
    return undefined;
  }
  if (lengths !== undefined) {
    const read = lengths.map((text, i) => found.keep(parseLength(text), `${listPointer}/${i}`));
    return read.every((length) => length !== undefined) ? read : undefined;
  }
  const steps = compileSpanSteps({ from: from!, to: to!, by: by! }, place);
  if (steps === undefined) return undefined;
  if (steps.count <= MOST_PHRASES) return spansOf(steps);
  const message = say("drill-problem.growth-longer-than-take-steps", {
    most: MOST_PHRASES,
    by: by!,
    from: from!,
    to: to!,
    lengths: steps.count,
  });
  found.add("GROWTH_LONGER_THAN_TAKE", message, pointer, say("drill-problem.larger-steps"));
  return undefined;
}

/** What the silences grow to, on each value of a ladder written in steps. */
function endsOf(document: SpanStepsDocument, place: LadderPlace): readonly string[] | undefined {
  const steps = compileSpanSteps(document, place);
  if (steps === undefined || steps.count <= MOST_PHRASES) return steps && spansOf(steps).map(spanText);
  const message = say("drill-problem.growth-longer-than-take-values", { most: MOST_PHRASES, values: steps.count });
  place.found.add("GROWTH_LONGER_THAN_TAKE", message, place.pointer, say("drill-problem.larger-steps"));
  return undefined;
}

function spansOf(steps: Pick<Ladder, "count" | "values">): readonly Span[] {
  const ladder: Ladder = { parameter: "dropout", ...steps, restart: "bottom" };
  return Array.from({ length: steps.count }, (_, k) => {
    const span = parseLength(ladderValue(ladder, k));
    if (!span.ok) throw new RangeError(`not a length: ${ladderValue(ladder, k)}`);
    return span.value;
  });
}

function readEach(written: string | undefined, { found, pointer }: LadderPlace): number | undefined {
  if (written === undefined) return 1;
  const each = Number(/^(\d{1,2})(?: phrases?)?$/.exec(written.trim())?.[1]);
  if (each >= 1) return each;
  const message = say("drill-problem.each-not-read", { found: JSON.stringify(written.slice(0, 40)) });
  const remedy = say("drill-problem.write-for-instance", { example: "each: 2 phrases" });
  found.add("EACH_NOT_READ", message, `${pointer}/each`, remedy);
  return undefined;
}

function isList(written: GrowthDocument | SpanStepsDocument | readonly string[]): written is readonly string[] {
  return Array.isArray(written);
}
