import { fraction } from "../base/index.js";
import { type Pattern, SCALES, scaleOf } from "../pattern/index.js";
import type { DrillDocument } from "../schema/index.js";
import { resolveSpan } from "../time/index.js";
import type { Collector } from "./collector.js";
import type { Drill } from "./model.js";
import { parseLength } from "./parseLength.js";

/** The subdivision of open bars that state none, as the schema says. */
const USUAL_SUBDIVISION = fraction(1, 8);

/** The scale and subdivision of a drill's open bars; `undefined` for a drill without any. */
export function compileOpen(document: DrillDocument, pattern: Pattern, found: Collector): Drill["open"] {
  const { open } = document;
  const climbs = (document.ladders ?? []).some((ladder) => ladder.open !== undefined);
  if (open === undefined && !climbs) return undefined;
  const { tonic, mode } = pattern.key;
  const own = { tonic, name: mode, steps: SCALES[mode] ?? SCALES.chromatic! };
  const scale = open?.scale === undefined ? own : (found.keep(scaleOf(open.scale), "/open/scale") ?? own);
  const written = open?.subdivision;
  const span = written === undefined ? undefined : found.keep(parseLength(written), "/open/subdivision");
  const subdivision = span === undefined ? USUAL_SUBDIVISION : resolveSpan(span, pattern.bars[0]!.meter);
  return { scale, subdivision };
}
