import { type Instrument, instrumentNamed, unknownInstrument } from "../pattern/index.js";
import type { DrillDocument } from "../schema/index.js";
import type { Collector } from "./collector.js";
import type { Drill } from "./model.js";

/** Who the student's part is for, those whose instrument is known. */
export function compilePlayers(
  document: DrillDocument,
  own: Readonly<Record<string, Instrument>>,
  found: Collector,
): Drill["players"] {
  return (document.players ?? []).flatMap((written, i) => {
    const { instrument: name, octave } = typeof written === "string" ? { instrument: written, octave: 0 } : written;
    const instrument = instrumentNamed(name, own);
    if (instrument !== undefined) return [{ instrument, octave }];
    const pointer = typeof written === "string" ? `/players/${i}` : `/players/${i}/instrument`;
    found.addAll([{ ...unknownInstrument(name, own), where: {} }], pointer);
    return [];
  });
}
