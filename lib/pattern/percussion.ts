/**
 * Percussion voices: keys of the General MIDI level 1 percussion map (MMA0007/RP003) and their names. Keys below 35: General MIDI level 2,
 * documentation of the library DryWetMIDI (names) and a public key file for GM2 sound modules (numbers). Keys 35 to 40, 42, 44, 46, 49, 51, 53,
 * 54, 56, 75 to 77, 80 and 81: documentation of the Rust crate midi-msg. The other keys: from memory.
 * The first name of a key is the one used when a file is read.
 */
const TABLE: readonly (readonly [key: number, ...names: string[]])[] = [
  [36, "kick", "bass drum"],
  [35, "low kick"],
  [38, "snare"],
  [40, "high snare"],
  [37, "side stick", "rim"],
  [42, "hat", "closed hat"],
  [44, "pedal hat"],
  [46, "open hat"],
  [51, "ride"],
  [59, "second ride"],
  [53, "ride bell"],
  [49, "crash"],
  [57, "second crash"],
  [55, "splash"],
  [52, "china"],
  [41, "floor tom"],
  [43, "high floor tom"],
  [45, "low tom"],
  [47, "mid tom", "tom"],
  [48, "high mid tom"],
  [50, "high tom"],
  [39, "clap"],
  [54, "tambourine"],
  [56, "cowbell"],
  [58, "vibraslap"],
  [60, "high bongo", "bongo"],
  [61, "low bongo"],
  [62, "muted conga"],
  [63, "conga", "high conga"],
  [64, "low conga"],
  [65, "timbale", "high timbale"],
  [66, "low timbale"],
  [67, "agogo", "high agogo"],
  [68, "low agogo"],
  [69, "cabasa"],
  [70, "maracas", "shaker"],
  [73, "guiro", "short guiro"],
  [74, "long guiro"],
  [75, "claves"],
  [76, "wood block", "high wood block"],
  [77, "low wood block"],
  [80, "muted triangle"],
  [81, "triangle", "open triangle"],
  [31, "sticks"],
  [33, "click"],
  [34, "high click"],
];

/** The voices of the table, each once: its name, its other names, its General MIDI key. */
export const KNOWN_VOICES: readonly {
  readonly name: string;
  readonly otherNames: readonly string[];
  readonly key: number;
}[] = TABLE.map(([key, name = "", ...otherNames]) => ({ name, otherNames, key }));

/** Voice name -> General MIDI key. */
export const PERCUSSION: ReadonlyMap<string, number> = new Map(
  TABLE.flatMap(([key, ...names]) => names.map((name) => [name, key] as const)),
);

/** Keys of voices that level 1 of General MIDI does not have, with the nearest sound that it has: side stick and wood blocks. For files that any player of level 1 should sound. */
export const LEVEL_ONE_KEYS: ReadonlyMap<number, number> = new Map([
  [31, 37],
  [33, 77],
  [34, 76],
]);

/** The name of the voice on a General MIDI percussion key; `undefined` when the table has none. */
export function voiceOn(key: number): string | undefined {
  return TABLE.find(([known]) => known === key)?.[1];
}
