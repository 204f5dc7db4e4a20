import type { Engraver } from "./engraver.js";

/** Most characters of engravings that are kept, with the music they are of: some hundreds of riffs. Our choice. */
const MOST = 32_000_000;

/** An engraver that gives equal music in an equal layout what it gave before, until `most` characters of later engravings have come since it was last asked for. */
export function rememberingEngraver(engraver: Engraver, most: number = MOST): Engraver {
  const known = new Map<string, { readonly made: ReturnType<Engraver["engrave"]>; readonly size: number }>();
  let held = 0;
  return {
    engrave(musicXml, layout) {
      const key = `${layout.width} ${layout.systems} ${musicXml}`;
      const found = known.get(key);
      const made = found?.made ?? engraver.engrave(musicXml, layout);
      const size = found?.size ?? key.length + (made.ok ? made.value.svg.length : 0);
      // A map is gone through in the order of insertion: the latest comes last.
      if (!known.delete(key)) held += size;
      known.set(key, { made, size });
      for (const [oldest, each] of known) {
        if (held <= most) break;
        known.delete(oldest);
        held -= each.size;
      }
      return made;
    },
  };
}
