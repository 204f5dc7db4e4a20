import { describe, expect, test } from "vitest";
import { type Drill, type Ladder, rungNumber, rungs, type Settings, settingsText } from "../../../lib/drill/index.js";
import { drillOf, jetty } from "../material.js";

const ladders = [
  { dropout: { from: "1/2 bar", to: "2 bars", by: "1/2 bar" } },
  { tempo: { from: 84, to: 112, by: 4 } },
];
const small = drillOf(jetty({ tempo: undefined, dropout: {}, ladders }));

/** The drill with every reading of its ladders counted. */
function counted(drill: Drill): { drill: Drill; readings: () => number } {
  let readings = 0;
  const watched = drill.ladders.map(
    (ladder) =>
      new Proxy(ladder, {
        get: (target, key) => {
          readings++;
          return target[key as keyof Ladder];
        },
      }),
  );
  return { drill: { ...drill, ladders: watched }, readings: () => readings };
}

describe("rungs()", () => {
  test("climbs the first ladder to its top before the second climbs one step", () => {
    const all = rungs(small);
    expect(all.count).toBe(4 * 8);
    expect([0, 1, 3, 4].map((i) => settingsText(all.at(i).settings))).toEqual([
      "dropout=1/2 bar,tempo=84,variant=plain",
      "dropout=1 bar,tempo=84,variant=plain",
      "dropout=2 bars,tempo=84,variant=plain",
      "dropout=1/2 bar,tempo=88,variant=plain",
    ]);
  });

  test("starts a ladder again some rungs back where the author says so", () => {
    const back = drillOf(
      jetty({ tempo: undefined, dropout: {}, ladders: [{ ...ladders[0]!, restart: "1 rung back" }, ladders[1]!] }),
    );
    const all = rungs(back);
    // 4 lengths at the first tempo, then 2 at each of the 7 others.
    expect(all.count).toBe(4 + 2 * 7);
    expect(all.at(4).settings).toMatchObject({ dropout: "1 1/2 bars", tempo: "88" });
    expect(all.indexOf({ dropout: "1/2 bar", tempo: "88", variant: "plain" })).toBeUndefined();
  });

  test("finds each rung by its settings, and none by settings with one missing, added or changed", () => {
    const all = rungs(small);
    for (let i = 0; i < all.count; i++) expect(all.indexOf(all.at(i).settings)).toBe(i);
    const { settings } = all.at(5);
    const { variant: _, ...less } = settings;
    expect(all.indexOf(less)).toBeUndefined();
    expect(all.indexOf({ ...settings, key: "D dorian" })).toBeUndefined();
    expect(all.indexOf({ ...settings, variant: "busy" })).toBeUndefined();
    expect(all.indexOf({ ...settings, tempo: "85" })).toBeUndefined();
  });

  test("takes a fixed setting for one that another must not stand for", () => {
    const all = rungs(small);
    const { tempo: _, ...rest } = all.at(5).settings;
    // As many settings as the drill has, one of them a stranger to it.
    expect(all.indexOf({ ...rest, key: "D dorian" } as Settings)).toBeUndefined();
  });

  test("counts for people from 1", () => {
    expect(rungNumber(rungs(small).at(0))).toBe(1);
    expect(rungNumber({ index: 31 })).toBe(32);
  });

  test("starts a ladder again no further back than its bottom", () => {
    const [lengths] = small.ladders;
    const far: Drill = { ...small, ladders: [{ ...lengths!, restart: 9 }, small.ladders[1]!] };
    expect(rungs(far).count).toBe(rungs(small).count);
  });

  test("knows its neighbours, and none beyond its ends", () => {
    const all = rungs(small);
    expect(all.next(all.at(3))?.index).toBe(4);
    expect(all.previous(all.at(4))?.index).toBe(3);
    expect(all.next(all.at(all.count - 1))).toBeUndefined();
    expect(all.previous(all.at(0))).toBeUndefined();
  });

  test("has one rung without ladders", () => {
    expect(rungs(drillOf(jetty())).count).toBe(1);
  });

  test("opens a thousand million rungs with as many readings of its ladders as thirty", () => {
    const huge: Drill = {
      ...small,
      ladders: small.ladders.map((ladder) =>
        ladder.parameter === "tempo" ? { ...ladder, count: 250_000_000 } : ladder,
      ),
    };
    const work = [small, huge].map((drill) => {
      const watched = counted(drill);
      const all = rungs(watched.drill);
      const { settings } = all.at(7);
      all.next(all.at(7));
      expect(all.indexOf(settings)).toBe(7);
      return { count: all.count, readings: watched.readings() };
    });
    expect(work.map(({ count }) => count)).toEqual([32, 1_000_000_000]);
    expect(work[1]!.readings).toBe(work[0]!.readings);
  });
});
