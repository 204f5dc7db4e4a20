import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { rungs, scoreOf } from "../../lib/drill/index.js";
import { readyRecordings } from "../../lib/node/index.js";
import { layRecording, type ReadyRecording } from "../../lib/recording/index.js";
import { laidStretches } from "../../lib/render/sound/playRecorded.js";
import { recordedPieces } from "../../lib/render/sound/recordedPieces.js";
import { drumRecording, RATE, type RecordedCourse, recordedCourse } from "./recordedCourse.js";

const drums = drumRecording();
let played: RecordedCourse;
beforeAll(() => {
  const kit = `{ recording: kit.wav, tempo: 96, starts: ${drums.starts.toFixed(6)} s }`;
  played = recordedCourse(kit, { "kit.wav": drums.wav });
});
afterAll(() => played.remove());

async function scoreAt(index: number, mix?: string) {
  const score = scoreOf(rungs(played.course.drills[0]!).at(index), mix);
  const ready = await readyRecordings(score, { pathOf: () => `${played.folder}/kit.wav`, rate: RATE });
  if (!ready.ok) throw new Error(ready.problems[0]!.message);
  return { score, ready: ready.value };
}

describe("a recording in pieces, for a player", () => {
  test.each([
    [0, "play"],
    [2, "play"],
    [2, "listen"],
    [4, "play"],
  ])("adds up to what is rendered of it: rung %i, %s", async (index, mix) => {
    const { score, ready } = await scoreAt(index, mix);
    const length = Math.ceil(score.duration * RATE) + RATE;
    const [rendered, added] = [0, 1].map(() => [new Float32Array(length), new Float32Array(length)] as const);
    const { recorded } = score.parts.find(({ name }) => name === "kit")!;
    const round = { rate: RATE, origin: 0, round: undefined };
    layRecording([rendered![0], rendered![1]], laidStretches(recorded!, ready, RATE), round);
    const pieces = recordedPieces(score, ready).get("kit")!;
    expect(pieces.length).toBeGreaterThan(20);
    for (const { from, height, samples } of pieces)
      for (const [c, channel] of samples().entries()) {
        // A player that begins amid a piece is silent for the rest of it.
        expect(channel.length).toBeLessThan(0.26 * RATE);
        for (let k = Math.max(0, -from); k < channel.length; k++) added![c as 0 | 1][from + k]! += height * channel[k]!;
      }
    let [furthest, loudest] = [0, 0];
    for (let i = 0; i < length; i++) {
      furthest = Math.max(furthest, Math.abs(rendered![0][i]! - added![0][i]!));
      loudest = Math.max(loudest, Math.abs(rendered![0][i]!));
    }
    expect(loudest).toBeGreaterThan(0.05);
    expect(furthest).toBeLessThan(1e-6);
  });

  test("has each sound once, however often its bars come round", async () => {
    const { score, ready } = await scoreAt(2, "listen");
    const pieces = recordedPieces(score, ready).get("kit")!;
    const sounds = new Set(pieces.map(({ sound }) => sound));
    expect(sounds.size).toBeLessThan(0.7 * pieces.length);
  });

  test("is nothing where recordings were not given, and refuses two rates", async () => {
    const { score, ready } = await scoreAt(2);
    expect(recordedPieces(score, []).size).toBe(0);
    const other: ReadyRecording = { ...ready[0]!, rate: 48000 };
    expect(() => recordedPieces(score, [...ready, other])).toThrow(RangeError);
  });
});
