import { describe, expect, test } from "vitest";
import type { Score } from "../../../lib/schema/index.js";
import { saidBy } from "../said.js";

const RUNG = ["curricula/quayside-first-course.yaml", "one-bar", "1"] as const;
const score = JSON.parse((await saidBy(["score", ...RUNG, "--json"])).out) as Score;
/** Takes in which the player drags less and less. */
const takes = [4, 3, 2, 1].map((percent, k) => ({
  onsets: score.expected.map(({ at }) => {
    const lost = score.dropouts.map(({ from, to }) => (at > from && at <= to ? ((at - from) * percent) / 100 : 0));
    return at + lost.reduce((sum, each) => sum + each, 0);
  }),
  zero: "bar-1",
  id: `evening-${k}`,
}));
const linesOf = (count: number): string =>
  takes
    .slice(0, count)
    .map((take) => JSON.stringify(take))
    .join("\n");
const assessed = (count: number, ...options: string[]): Promise<{ out: string }> =>
  saidBy(["assess", ...RUNG, "-", ...options], { input: linesOf(count) });

describe("leeway assess", () => {
  test("of three takes or more says how the drift changed over them", async () => {
    const { out } = await assessed(4);
    expect(out).toMatch(
      /Over 4 takes with [\d.]+ s of silence your drift went from \d\.\d % slow to \d\.\d % slow: closer to the tempo/,
    );
  });

  test("of fewer takes, and as JSON, says nothing of a change", async () => {
    expect((await assessed(2)).out).not.toContain("Over 2 takes");
    const lines = (await assessed(4, "--json")).out.trim().split("\n");
    expect(lines.map((line) => JSON.parse(line).take)).toEqual(takes.map(({ id }) => id));
  });
});

describe("leeway assess of what is another rung", () => {
  test("names the variant that was played instead, which it knows from the course", async () => {
    const rung = ["curricula/quayside-first-course.yaml", "one-bar"] as const;
    const plain = JSON.parse(
      (await saidBy(["score", ...rung, "tempo=84,dropout=1 bar,parts=bass+kit,variant=plain", "--json"])).out,
    ) as Score;
    const input = JSON.stringify({ zero: "bar-1", onsets: plain.expected.map(({ at, pitch }) => ({ at, pitch })) });
    const busy = "tempo=84,dropout=1 bar,parts=bass+kit,variant=busy";
    const { out } = await saidBy(["assess", ...rung, busy, "-"], { input });
    expect(out).toContain("What was played is not this riff (riff busy) but another one (riff plain).");
  });
});
