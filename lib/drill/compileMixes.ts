import type { Pattern } from "../pattern/index.js";
import type { MixDocument } from "../schema/index.js";
import { pointerTo } from "../schema/index.js";
import type { Collector } from "./collector.js";
import type { Mix } from "./model.js";
import { readName } from "./readSetting.js";

/** The mix of a drill that states none: the accompaniment drops, the student plays alone. */
const USUAL: Readonly<Record<string, MixDocument>> = { play: {} };

/** The mixes of a drill in the order written; parts they name must be the pattern's. */
export function compileMixes(
  documents: Readonly<Record<string, MixDocument>> | undefined,
  pattern: Pattern,
  found: Collector,
): readonly Mix[] {
  const known = pattern.parts.map(({ name }) => name);
  const written = Object.entries(documents ?? {});
  return (written.length > 0 ? written : Object.entries(USUAL)).map(([name, parts]) => {
    for (const part of Object.keys(parts)) {
      const question = { name: part, known, code: "PART_UNKNOWN", owner: `pattern ${pattern.name}` } as const;
      found.keep(readName(question), pointerTo(["mixes", name, part]));
    }
    return { name, parts };
  });
}
