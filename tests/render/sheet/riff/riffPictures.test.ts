import { expect, test } from "vitest";
import { rungs } from "../../../../lib/drill/index.js";
import { formText, riffPictures } from "../../../../lib/render/sheet/index.js";
import { FONTS, HARD, openEngraver, SHIPPED } from "../material.js";

const engraver = await openEngraver();
const drills = [SHIPPED[0]!, HARD].flatMap((course) => course.drills);

test("every rung has a picture of its form, whose bars go from left to right inside it, at the width of a phone", () => {
  for (const drill of drills) {
    const player = drill.players[0];
    const pictures = riffPictures(drill, player, { engraver, fonts: FONTS, width: 328 });
    if (!pictures.ok) throw new Error(JSON.stringify(pictures.problems));
    const all = rungs(drill);
    for (const index of [0, Math.floor(all.count / 2), all.count - 1]) {
      const form = formText(all.at(index).settings);
      const picture = pictures.value.find((each) => each.form === form)!;
      expect(picture.bars.map(({ bar }) => bar)).toEqual(drill.pattern.bars.map(({ number }) => number));
      for (const { anchors, top, bottom } of picture.bars) {
        expect(anchors[0]![0]).toBe(0);
        expect(anchors.at(-1)![0]).toBe(1);
        for (const [i, [share, x]] of anchors.entries()) {
          if (i > 0) expect(share).toBeGreaterThan(anchors[i - 1]![0]);
          if (i > 0) expect(x).toBeGreaterThanOrEqual(anchors[i - 1]![1]);
          expect(x).toBeLessThan(picture.width);
        }
        expect(bottom).toBeGreaterThan(top);
        expect(bottom).toBeLessThan(picture.height);
      }
    }
  }
});

test("a picture names no colour for its black, so that it can stand on dark paper", () => {
  const pictures = riffPictures(SHIPPED[0]!.drills[0]!, undefined, { engraver, fonts: FONTS, width: 700 });
  if (!pictures.ok) throw new Error(JSON.stringify(pictures.problems));
  expect(pictures.value[0]!.svg).toContain('fill="currentColor"');
  expect(pictures.value[0]!.svg).not.toMatch(/#1a1a1a/i);
});
