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

describe("leeway assess of open bars", () => {
  const rung = ["curricula/quayside-wind-and-brass.yaml", "tidewater-open"] as const;
  /** What it says of open bars in a take with so many eighth notes improvised in each stretch, by its number. */
  async function openBarsOf(settings: string, improvised: (stretch: number) => number): Promise<readonly string[]> {
    const asked = ["score", ...rung, settings, "--json"];
    const { expected, open } = JSON.parse((await saidBy(asked)).out) as Score;
    const free = open.flatMap(({ from, subdivision }, k) =>
      Array.from({ length: improvised(k + 1) }, (_, n) => ({ at: from + n * subdivision, pitch: 65 })),
    );
    const written = expected.map(({ at, pitch }) => ({ at, pitch }));
    const onsets = [...written, ...free].sort((one, other) => one.at - other.at);
    const input = JSON.stringify({ zero: "bar-1", onsets });
    const { out } = await saidBy(["assess", ...rung, settings, "-"], { input });
    return out.split("\n").filter((line) => line.startsWith("  open bars"));
  }

  test("says which phrase each is in, and once what several showed", async () => {
    const found = await openBarsOf("2", (phrase) => (phrase === 2 ? 8 : 0));
    expect(found).toEqual([
      expect.stringMatching(/^ {2}open bars {5}phrases 1, 3, 4: 0 notes, /),
      expect.stringMatching(/^ {2}open bars {5}phrase 2: 8 notes, drift .* % of the notes in the scale$/),
    ]);
    expect(await openBarsOf("2", () => 0)).toEqual([expect.stringContaining("phrases 1, 2, 3,")]);
  });
});
