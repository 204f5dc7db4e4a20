import { describe, expect, test } from "vitest";
import { beginUpDown, midRuns, settlesAt, stepUpDown, type UpDownRule } from "../bench/upDown.js";

function runOf(letters: string, rule: UpDownRule): ReturnType<typeof beginUpDown> {
  return [...letters].reduce((run, letter) => stepUpDown(run, letter === "C", rule), beginUpDown(0));
}

describe("stepUpDown()", () => {
  // Levitt 1971, JASA 49, 467-477, figures 4 and 5 (read in the tests of another program, traced by hand). There a correct answer lowers the
  // level; here a clean take raises it, so that the signs are the other way round.
  const figures = [
    ["figure 4", "CCIIIICCIIICCCCCIIICCIII", 1, [3, 7, 9, 12, 17, 20, 22], [-2, 2, 0, 3, -2, 1, -1], [0, 1.5, -0.5]],
    ["figure 5", "CCCCICIICICCCCCIIICCCCCC", 2, [5, 12, 16, 20], [-2, 2, 0, 3], [0, 1.5]],
  ] as const;
  test.each(figures)("goes through Levitt's %s", (_name, letters, clean, trials, levels, estimates) => {
    const run = runOf(letters, { clean, up: 1, down: 1 });
    expect(run.turns.map(({ trial }) => trial)).toEqual(trials);
    expect(run.turns.map(({ level }) => 0 - level)).toEqual(levels.map((level) => 0 + level));
    // Every second run, as he takes them.
    expect(
      midRuns(run)
        .filter((_, i) => i % 2 === 0)
        .map((middle) => 0 - middle),
    ).toEqual(estimates);
  });

  test("gives the middle of every run of figure 5: 0, 1, 1.5", () => {
    expect(
      midRuns(runOf("CCCCICIICICCCCCIIICCCCCC", { clean: 2, up: 1, down: 1 })).map((middle) => 0 - middle),
    ).toEqual([0, 1, 1.5]);
  });
});

describe("settlesAt()", () => {
  // Levitt 1971: .5^(1/n). García-Pérez 1998, Vision Res. 38, 1861-81 (abstract): down / up .2845 .5488 .7393 .8415 with 1 to 4 in a row
  // settle at 77.85 80.35 83.15 85.84 %; there `down` is the step to the harder side. Kaernbach 1991: 3, 4, 17/3 give 75, 80, 85 %.
  test.each([
    [1, 0.5],
    // biome-ignore lint/suspicious/noApproximativeNumericConstant: as printed
    [2, 0.70711],
    [3, 0.7937],
    [4, 0.8409],
  ])("equal steps, %i in a row: %f", (clean, wanted) => {
    // Half a unit in the last of the five digits printed.
    expect(Math.abs(settlesAt({ clean, up: 1, down: 1 }) - wanted)).toBeLessThanOrEqual(5e-6);
  });
  test.each([
    [1, 0.2845, 77.85],
    [2, 0.5488, 80.35],
    [3, 0.7393, 83.15],
    [4, 0.8415, 85.84],
  ])("%i in a row, steps as 1 to %f: %f %%", (clean, up, percent) => {
    expect(Math.abs(100 * settlesAt({ clean, up, down: 1 }) - percent)).toBeLessThanOrEqual(0.0051);
  });
  test.each([
    [3, 0.75],
    [4, 0.8],
    [17 / 3, 0.85],
  ])("down %f times up, one clean take: %f", (down, wanted) => {
    expect(settlesAt({ clean: 1, up: 1, down })).toBeCloseTo(wanted, 12);
  });
});
