import { describe, expect, test } from "vitest";
import { success } from "../../../../lib/base/index.js";
import { rememberingEngraver } from "../../../../lib/render/sheet/engraving/engraver.js";
import type { Engraver } from "../../../../lib/render/sheet/index.js";

/** An engraver that writes down what it was asked, and draws a hundred characters for everything. */
function countingEngraver(): { readonly asked: readonly string[]; readonly engraver: Engraver } {
  const asked: string[] = [];
  const engrave: Engraver["engrave"] = (musicXml, { width, systems }) => {
    asked.push(`${musicXml} ${width} ${systems}`);
    return success({ svg: musicXml.padEnd(100, "."), onsets: [] });
  };
  return { asked, engraver: { engrave } };
}

const ONE = { width: 40, systems: "one" } as const;

describe("rememberingEngraver()", () => {
  test("draws music once for each width and kind of systems, and gives the same again", () => {
    const { asked, engraver } = countingEngraver();
    const remembering = rememberingEngraver(engraver);
    const first = remembering.engrave("a", ONE);
    for (const layout of [ONE, { ...ONE, width: 41 }, { ...ONE, systems: "as written" } as const, ONE])
      remembering.engrave("a", layout);
    expect(remembering.engrave("a", ONE)).toBe(first);
    expect(asked).toEqual(["a 40 one", "a 41 one", "a 40 as written"]);
  });

  test("forgets what was not asked for for the longest time, when there is too much", () => {
    const { asked, engraver } = countingEngraver();
    // A hundred characters of each drawing and eight of what was asked: room for two.
    const remembering = rememberingEngraver(engraver, 250);
    for (const music of ["a", "b", "a", "c", "a", "b"]) remembering.engrave(music, ONE);
    expect(asked).toEqual(["a 40 one", "b 40 one", "c 40 one", "b 40 one"]);
  });

  test("keeps nothing that is larger than all it may keep", () => {
    const { asked, engraver } = countingEngraver();
    const remembering = rememberingEngraver(engraver, 50);
    for (const music of ["a", "a"]) expect(remembering.engrave(music, ONE).ok).toBe(true);
    expect(asked).toEqual(["a 40 one", "a 40 one"]);
  });
});
