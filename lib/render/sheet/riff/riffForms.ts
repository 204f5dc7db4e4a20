import { type Drill, ladderValue, odometer, type Parameter, type Settings } from "../../../drill/index.js";
import { type KeyPlace, type Pattern, readKeyPlace, transposePattern } from "../../../pattern/index.js";
import { isOfBand, type SheetReader } from "../sheetReader.js";

/** A form of the riff in a drill: a variant, a key, and the open bars. */
export interface Form {
  readonly settings: Partial<Settings>;
  /** The pattern in the key of the form. */
  readonly pattern: Pattern;
  /** Name of the variant in the student's part. */
  readonly variant: string;
  readonly openBars: readonly number[];
}

const SHAPING: readonly Parameter[] = ["variant", "key", "open"];

/** The distinct forms of the riff over all rungs of a drill, in order of first occurrence. */
export function formsOf(drill: Drill): readonly Form[] {
  return combinations(drill, SHAPING).map((settings) => {
    const place = settings.key === undefined ? undefined : placeIn(settings.key);
    const pattern = place === undefined ? drill.pattern : transposePattern(drill.pattern, place.key, place.octaves);
    const part = pattern.parts.find(({ name }) => name === drill.student);
    if (part === undefined) throw new RangeError(`drill ${drill.name} has no part ${drill.student}`);
    const openBars =
      settings.open === undefined || settings.open === "none" ? [] : settings.open.split("+").map(Number);
    const variant = settings.variant ?? Object.keys(part.variants)[0] ?? "";
    return { settings, pattern, variant, openBars };
  });
}

/** The forms that a reader's sheet shows: those of the drill for the student and on a score; for others those in which their own notes differ, without open bars. */
export function formsFor(drill: Drill, reader: SheetReader): readonly Form[] {
  if (!isOfBand(reader) || reader === "score") return formsOf(drill);
  const own = drill.pattern.parts.filter(({ name }) => name === reader.part);
  const varies = (variant: string): boolean => own.some(({ variants }) => Object.hasOwn(variants, variant));
  const distinct = new Map<string, Form>();
  for (const { settings, ...form } of formsOf(drill)) {
    const { key, variant } = settings;
    const shown = {
      ...(key === undefined ? {} : { key }),
      ...(variant !== undefined && varies(variant) ? { variant } : {}),
    };
    const name = formText(shown);
    if (!distinct.has(name)) distinct.set(name, { ...form, settings: shown, openBars: [] });
  }
  return [...distinct.values()];
}

/** Says which form of the riff a rung has: "variant=busy,key=G dorian". Equal forms of a drill have equal texts. */
export function formText(settings: Partial<Settings>): string {
  return SHAPING.flatMap((name) => (settings[name] === undefined ? [] : [`${name}=${settings[name]}`])).join(",");
}

/** The combinations of values of some parameters over all rungs, fixed values included, in order of first occurrence. */
export function combinations(drill: Drill, parameters: readonly Parameter[]): readonly Partial<Settings>[] {
  const fixed = Object.fromEntries(
    Object.entries(drill.fixed).filter(([name]) => parameters.includes(name as Parameter)),
  );
  const ladders = drill.ladders.filter(({ parameter }) => parameters.includes(parameter));
  const order = odometer(
    ladders.map(({ count, restart }) => ({
      count,
      revisited: restart === "bottom" ? count : Math.min(restart + 1, count),
    })),
  );
  return Array.from({ length: order.count }, (_, i) => {
    const climbed = order.at(i).map((digit, k) => [ladders[k]!.parameter, ladderValue(ladders[k]!, digit)]);
    return { ...fixed, ...Object.fromEntries(climbed) };
  });
}

function placeIn(text: string): KeyPlace {
  const place = readKeyPlace(text);
  if (place === undefined) throw new RangeError(`not a key: ${text}`);
  return place;
}
