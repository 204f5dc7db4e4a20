import type { DrillDocument } from "../schema/index.js";
import type { Collector } from "./collector.js";
import type { Parameter, Settings } from "./model.js";
import { variantsOf } from "./notesOf.js";
import { type DrillNames, readSetting, type WrittenValue } from "./readSetting.js";

/** The settings a drill states and does not climb. One that a ladder decides is left out, with advice. */
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

/** Where a drill says a parameter: on its ladder, or as a fixed value. */
export function pointerOfSetting(document: DrillDocument, parameter: Parameter): string {
  const ladder = ladderIndex(document, parameter);
  if (ladder >= 0) return `/ladders/${ladder}/${parameter}`;
  return statedSettings(document).get(parameter)?.pointer ?? "";
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
  return (document.ladders ?? []).findIndex((ladder) => ladder[parameter] !== undefined);
}

function askForVariant({ pattern }: DrillNames, found: Collector): void {
  const part = pattern.parts.find((one) => variantsOf(one).length > 1);
  if (part === undefined) return;
  const variants = variantsOf(part);
  const message = `part ${part.name} has the variants ${variants.join(", ")}; the drill does not say which is played`;
  found.add("VARIANT_NOT_CHOSEN", message, "", `write variant: ${variants[0]}, or a ladder of variants`);
}
