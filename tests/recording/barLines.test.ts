import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { assess } from "../../lib/index.js";
import { barLinesHeard } from "../../lib/recording/index.js";
import type { Score } from "../../lib/schema/index.js";
import { saidBy } from "../cli/said.js";
import { drumRecording, lagOf, RATE, type RecordedCourse, recordedCourse } from "./recordedCourse.js";

/** Seconds of a bar of four beats at 96. */
const BAR = 2.5;
/** A drummer who drags over two bars, hurries over four, and drags again: 70 ms late at the third bar line, 70 ms early at the seventh. */
const plays = (at: number): number => at + 0.07 * Math.sin((Math.PI / 4) * (at / BAR));
const LINES = Array.from({ length: 9 }, (_, bar) => plays(bar * BAR));

const drums = drumRecording(96, plays);
const placed = LINES.map((at) => (drums.starts + at).toFixed(3));
const kit = (lines: string): string => `{ recording: kit.wav, tempo: 96, bars: 1-8, ${lines} }`;

let course: RecordedCourse;
let even: RecordedCourse;
beforeAll(() => {
  course = recordedCourse(kit(`bar-lines: [${placed.join(", ")}]`), { "kit.wav": drums.wav });
  even = recordedCourse(kit(`starts: ${drums.starts.toFixed(3)} s`), { "kit.wav": drums.wav });
});
afterAll(() => {
  course.remove();
  even.remove();
});

const scoreAt = ({ course: { drills } }: RecordedCourse, index: number, mix?: string): Score =>
  scoreOf(rungs(drills[0]!).at(index), mix);

describe("a grid that follows a recording", () => {
  test("has bars, silences and what is expected where the drummer plays them, phrase by phrase", () => {
    // The third rung is at 96, as recorded.
    const score = scoreAt(course, 2);
    expect(score.bars.slice(0, 8).map(({ at }) => at)).toEqual(LINES.slice(0, 8).map((at) => expect.closeTo(at, 2.9)));
    expect(score.dropouts.map(({ from, to }) => [from, to])).toEqual([
      [expect.closeTo(LINES[3]!, 2.9), expect.closeTo(LINES[4]!, 2.9)],
      [expect.closeTo(LINES[7]!, 2.9), expect.closeTo(LINES[8]!, 2.9)],
    ]);
    for (const { at, position } of score.expected) {
      const [n, d = 1] = position.split("/").map(Number) as [number, number?];
      // The outro plays bar 1 of the recording again. A bar is straight here and bends in the playing: by an eighth of 0.07 (pi / 4)^2 s.
      if (n / d < 8) expect(Math.abs(at - plays((n / d) * BAR))).toBeLessThan(0.006);
    }
  });

  test.each([0, 2, 4])(
    "sounds at rung %i as it was played, faster or slower as a whole, with its landing on the bar line",
    async (index) => {
      const score = scoreAt(course, index);
      const speed = score.parts[0]!.recorded![0]!.speed;
      expect(new Set(score.parts[0]!.recorded!.map((stretch) => stretch.speed))).toEqual(new Set([speed]));
      expect(speed).toBeCloseTo([72, 84, 96, 108, 120][index]! / 96, 8);
      const { sound } = await course.render([72, 84, 96, 108, 120][index]!);
      const from = Math.round((drums.starts + LINES[4]!) * RATE);
      const stroke = drums.sound.channels[0].slice(from, from + 1200);
      const at = sound.downbeat + Math.round(score.dropouts[0]!.landing! * RATE);
      const lag = lagOf(stroke, sound.channels[0], { at, reach: 600 });
      // Bar lines are written to the millisecond; stretched attacks are held to 5 ms (tests/recording/stretched.test.ts).
      expect(Math.abs(lag) / RATE).toBeLessThan(index === 2 ? 0.001 : 0.005);
    },
  );

  test("measures a student against the drummer: who goes with the drums is on time, who keeps an even tempo is not", () => {
    const [followed, straight] = [scoreAt(course, 2), scoreAt(even, 2)];
    const take = (onsets: Score["expected"]) => ({
      version: 1 as const,
      zero: "bar-1" as const,
      onsets: onsets.map(({ at }) => ({ at })),
    });
    const withDrums = assess(followed, take(followed.expected));
    expect(withDrums.verdict).toBe("within");
    for (const { driftMs } of withDrums.dropouts) expect(Math.abs(driftMs as number)).toBeLessThan(1);
    const evenly = assess(followed, take(straight.expected));
    const apart = evenly.dropouts.map(({ driftMs }) => Math.abs(driftMs as number));
    // Over bar 4 the drummer hurries by 49 ms, over bar 8 he drags by as much.
    for (const ms of apart) expect(ms).toBeGreaterThan(25);
  });
});

describe("leeway check on a drummer who drifts", () => {
  const checked = async ({ folder }: RecordedCourse) => {
    const said = await saidBy(["check", join(folder, "course.yaml"), "--json"]);
    const { problems } = JSON.parse(said.out) as { problems: readonly { code: string; remedy?: string }[] };
    return problems.filter(({ code }) => /^RECORD|^BAR/.test(code));
  };

  test("prints the bar lines it hears, and has nothing to say of a course that has them", async () => {
    const [said] = (await checked(even)).filter(({ code }) => code === "RECORDED_TEMPO_WAVERS");
    const [, lines] = /bar-lines: \[(.*)\]/.exec(said!.remedy!)!;
    const heard = lines!.split(", ").map(Number);
    expect(heard).toHaveLength(9);
    const off = heard.map((at, i) => Math.abs(at - drums.starts - LINES[i]!));
    console.log(`bar lines heard: at most ${(1000 * Math.max(...off)).toFixed(1)} ms off`);
    // A line through half a bar of this bend lies off by a sixteenth of 0.07 (pi / 4)^2 s, 2.7 ms; onsets are heard to 5 ms.
    expect(Math.max(...off)).toBeLessThan(0.0077);
    const mended = recordedCourse(kit(`bar-lines: [${lines}]`), { "kit.wav": drums.wav });
    expect(await checked(mended)).toEqual([]);
    mended.remove();
  });

  test("says of bar lines that lie elsewhere in the recording where they should be", async () => {
    const moved = placed.map((at, i) => (i === 3 ? (Number(at) + 0.06).toFixed(3) : at));
    const wrong = recordedCourse(kit(`bar-lines: [${moved.join(", ")}]`), { "kit.wav": drums.wav });
    const said = await checked(wrong);
    expect(said.map(({ code }) => code)).toEqual(["RECORDED_TEMPO_WAVERS"]);
    wrong.remove();
  });
});

test("barLinesHeard() follows strokes through 7 % of drift, and tells nothing where there are none", () => {
  const eighth = 0.3;
  const bend = (at: number): number => at + 0.004 * at * at;
  const strokes = Array.from({ length: 72 }, (_, i) => bend(i * eighth));
  const given = { eighth, beat: 2 * eighth, bar: 8 * eighth, bars: 8 };
  const heard = barLinesHeard(strokes, given)!;
  heard.forEach((at, bar) => {
    // A straight line through a bend of 0.008 s/s over a bar either way lies off by less than its sagitta.
    expect(Math.abs(at - bend(bar * 8 * eighth))).toBeLessThan(0.004 * (8 * eighth) ** 2);
  });
  expect(barLinesHeard(strokes.slice(0, 20), given)).toBeUndefined();
});
