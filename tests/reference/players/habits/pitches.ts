import type { Score } from "../../../../lib/schema/index.js";

/** The pitches of the riff, each once, from the lowest written name on; C4 alone for a line without pitches. */
export function pitchesOf({ expected }: Score): readonly string[] {
  const names = [...new Set(expected.flatMap(({ pitch }) => (pitch === undefined ? [] : [pitch])))].sort();
  return names.length > 0 ? names : ["C4"];
}
