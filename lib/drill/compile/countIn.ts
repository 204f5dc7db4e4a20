import { ZERO } from "../../base/index.js";
import { type Pattern, PERCUSSION, unknownVoice } from "../../pattern/index.js";
import type { DrillDocument } from "../../schema/index.js";
import { resolveSpan, type Span } from "../../time/index.js";
import { parseLength } from "../length.js";
import type { Drill } from "../model.js";
import type { Collector } from "./collector.js";

/** Defaults of the schema. */
const USUAL = { length: "1 bar", sound: "click" } as const;

/** Compiles the count-in of a drill: how long it is, in the meter of bar 1, and with what voice. */
export function countIn(
  document: DrillDocument,
  pattern: Pattern,
  found: Collector,
): Pick<Drill, "countIn" | "countInVoice"> {
  const { length, voice } = readCountIn(document, found);
  return {
    countIn: length === undefined ? ZERO : resolveSpan(length, pattern.bars[0]!.meter),
    ...(voice === undefined ? {} : { countInVoice: voice }),
  };
}

/** Reads a count-in without its pattern: no length for none and for one with problems, no voice for the usual click. */
export function readCountIn(
  document: DrillDocument,
  found: Collector,
): { readonly length: Span | undefined; readonly voice: string | undefined } {
  const written = document["count-in"] ?? {};
  const isText = typeof written === "string";
  const { length = USUAL.length, sound = USUAL.sound } = isText ? { length: written } : written;
  const pointer = isText || document["count-in"] === undefined ? "/count-in" : "/count-in/length";
  if (!PERCUSSION.has(sound)) found.addAll([unknownVoice(sound, "")], "/count-in/sound");
  return {
    length: length.trim() === "none" ? undefined : found.keep(parseLength(length), pointer),
    voice: sound === USUAL.sound || !PERCUSSION.has(sound) ? undefined : sound,
  };
}
