import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Heard } from "../../lib/browser/index.js";
import { readCurriculum } from "../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import type { Score } from "../../lib/schema/index.js";
import { drumRecording, recordedCourse } from "../recording/recordedCourse.js";
import { isThere, type Served, serve } from "./chromium.js";

const FILE = "quayside-first-course.yaml";
const course = readCurriculum(readFileSync(`curricula/${FILE}`, "utf8"), { file: FILE, readFile: () => undefined });
if (!course.ok) throw new Error(JSON.stringify(course.problems));
const rung = rungs(course.value.drills.find(({ name }) => name === "half-bar")!).at(2);
const scores = ["play", "listen"].map((mix) => scoreOf(rung, mix));

/** The snare alone: no other sound is taken for it, and noise shows to the frame when it begins. */
function strokesOf(score: Score): Score {
  const kit = score.parts.find(({ name }) => name === "kit")!;
  return { ...score, parts: [{ ...kit, notes: kit.notes.filter(({ voice }) => voice === "snare") }] };
}

interface Busy {
  readonly off: readonly number[];
  readonly damage: readonly string[];
  readonly unrecorded: number;
}

describe.skipIf(!isThere)("a player in a browser", () => {
  let served: Served;
  beforeAll(async () => {
    served = await serve({
      script: "player.ts",
      scripts: { "/recorder.js": "tests/browser/pages/recorder.worklet.ts" },
    });
  });
  afterAll(() => served?.close());

  test("sounds every stroke on its frame, also while the page is busy for 150 ms at a time, and for 400 ms once", async () => {
    const busy = { blocked: 150, every: 200, seconds: 12 };
    const told = await served.call<Busy>("playBusily", strokesOf(scores[0]!), busy);
    expect(told.off.length, JSON.stringify(told)).toBeGreaterThan(5);
    // A frame either way: strokes are on the frame nearest to their time from bar 1, and bar 1 on any moment.
    for (const frames of told.off) expect(Math.abs(frames), JSON.stringify(told)).toBeLessThanOrEqual(1);
    expect(told.damage.filter((code) => code !== "SOUND_BROKEN_UP")).toEqual([]);
    expect(served.complaints).toEqual([]);
  });

  test("plays a recording in pieces that nobody can tell from the whole", async () => {
    const drums = drumRecording();
    const kit = `{ recording: kit.wav, tempo: 96, starts: ${drums.starts.toFixed(6)} s }`;
    const recorded = recordedCourse(kit, { "kit.wav": drums.wav });
    const score = scoreOf(rungs(recorded.course.drills[0]!).at(4), "play");
    recorded.remove();
    const parts = score.parts.filter(({ name }) => name === "kit");
    // Into the silence at the end of the first phrase, and out of it.
    const seconds = score.dropouts[0]!.to + 0.8;
    interface Played {
      readonly most: number;
      readonly height: number;
      readonly silent: boolean;
      readonly compared: number;
      readonly damage: number;
    }
    const play = (): Promise<Played> => served.call<Played>("playRecorded", { ...score, parts }, seconds);
    let told = await play();
    // A machine that does something else loses sound, and the player says so: then it is played once more.
    for (let again = 0; told.damage > 0 && again < 3; again++) told = await play();
    console.log(
      `a recording in pieces: at most ${told.most.toExponential(1)} from the whole, ${told.height.toFixed(2)} loud`,
    );
    expect(told.silent).toBe(true);
    expect(told.height).toBeGreaterThan(0.02);
    expect(told.compared).toBeGreaterThan(0.5);
    expect(told.most).toBeLessThan(1e-4);
  });

  test("says what is heard: places go on, stay when it pauses, and come again when phrases are repeated", async () => {
    const told = await served.call<Record<string, Heard> & { events: string[] }>("walkThrough", scores);
    const phrase = scores[0]!.phraseSeconds!;
    expect(told.before).toMatchObject({ state: "stopped", at: -scores[0]!.countIn });
    expect(told.counting).toMatchObject({ state: "counting in", bar: 0, phrase: 0 });
    expect(told.sought!.state).toBe("playing");
    expect(told.sought!.at).toBeGreaterThan(0.99);
    expect(told.sought!.at).toBeLessThan(1.6);
    // Past the end of the second phrase lies its beginning.
    expect(told.again).toMatchObject({ state: "playing", phrase: 2 });
    expect(told.again!.at).toBeGreaterThanOrEqual(phrase);
    expect(told.again!.at).toBeLessThan(phrase + 1);
    expect(told.paused!.state).toBe("paused");
    expect(told.stays).toEqual(told.paused);
    expect(told.on!.at).toBeGreaterThan(told.paused!.at - 0.01);
    expect(told.on!.at).toBeLessThan(told.paused!.at + 0.8);
    expect(told.stopped).toMatchObject({ state: "stopped", at: -scores[0]!.countIn });
    expect(told.events.filter((kind) => kind !== "damaged")).toEqual([
      "started",
      "mix",
      "paused",
      "started",
      "stopped",
    ]);
    expect(served.complaints).toEqual([]);
  });
});
