import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import type { Finding, PlayedOnset, Take } from "../../lib/schema/index.js";
import { assess } from "../../lib/take/index.js";
import { wavBytes } from "../formats/sound/soundFiles.js";
import { isThere, type Served, serve } from "./chromium.js";
import { RATE, recordingOf, score, takeOf, UNTIL_COUNT_IN } from "./simulatedStudent.js";

/** Delay of the made-up loop from loudspeaker to microphone, ms. */
const LATENCY = 40;
const SCRIPTS = {
  "/capture.js": "lib/browser/input/capture.worklet.ts",
  "/hearing.js": "lib/browser/take/hearing.worker.ts",
};

interface Heard {
  readonly problems: readonly string[];
  readonly finding: Finding;
  readonly take: Take;
  readonly damage: readonly string[];
  readonly advice: readonly string[];
  readonly followed: number;
  readonly waited: number;
  readonly longest: number;
}

const verdicts = ({ dropouts }: Finding): readonly string[] => dropouts.map(({ verdict }) => verdict);
const drifts = ({ dropouts }: Finding): readonly number[] =>
  dropouts.map(({ driftMs }) => (typeof driftMs === "number" ? driftMs : Number.NaN));

describe.skipIf(!isThere)("takes in a browser", () => {
  const folder = mkdtempSync(join(tmpdir(), "leeway-takes-"));
  const opened: Served[] = [];
  afterAll(async () => {
    for (const each of opened) await each.close();
    rmSync(folder, { force: true, recursive: true });
  });
  const open = async (options: Partial<Parameters<typeof serve>[0]> = {}): Promise<Served> => {
    const served = await serve({ script: "takes.ts", scripts: SCRIPTS, ...options });
    opened.push(served);
    return served;
  };
  const withMicrophone = async (name: string, samples: Float32Array): Promise<Served> => {
    const file = join(folder, `${name}.wav`);
    writeFileSync(file, wavBytes({ samples: [samples], rate: RATE }));
    return open({ microphone: file });
  };

  /** A stretch of the first phrase, well before its silence, that the microphone loses. */
  const GAP = { from: score.countIn + 3.9, to: score.countIn + 4.1 };

  // A machine with more to do than it has time for loses sound of its own at the same place: such a run is played again.
  test.each([
    { way: "with headphones, 200 ms lost", bleed: undefined, gap: GAP },
    { way: "with the band in the room 12 dB below", bleed: -12, gap: undefined },
  ])("what a microphone hears $way is the finding of what was played", { retry: 2 }, async ({ bleed, gap }) => {
    const played = takeOf("quay");
    const onsets = (played.onsets as readonly PlayedOnset[]).filter(({ at }) => !(gap && at > gap.from && at < gap.to));
    const truth = assess(score, { ...played, onsets });
    const served = await withMicrophone(
      `take ${bleed}`,
      recordingOf(played, { bleed, ...(gap === undefined ? {} : { gap }) }),
    );
    const heard = await served.call<Heard>("hearTake", score, {
      headphones: bleed === undefined,
      untilCountIn: UNTIL_COUNT_IN,
      hearing: "/hearing.js",
      latencyMs: LATENCY,
    });
    expect(heard.problems).toEqual([]);
    expect(verdicts(heard.finding)).toEqual(verdicts(truth));
    for (const [i, drift] of drifts(truth).entries())
      expect(Math.abs(drifts(heard.finding)[i]! - drift)).toBeLessThan(3);
    expect(heard.followed).toBeGreaterThan(10);
    if (gap !== undefined) {
      // What was lost is told, and the take carries it wherever it goes. A browser that is busy may lose more.
      const lost = heard.take.advice?.filter(({ code }) => code === "SOUND_LOST").map(({ message }) => message) ?? [];
      expect(
        lost.some((message) => Math.abs(Number(/^\d+/.exec(message)) - 200) < 10),
        String(lost),
      ).toBe(true);
    }
    expect(served.complaints).toEqual([]);
  });

  describe("by hand", () => {
    let served: Served;
    beforeAll(async () => {
      served = await open();
    });

    test.each(["taps", "midi"])("%s give the finding of what was played", async (kind) => {
      const played = takeOf("pier");
      const onsets = (played.onsets as readonly PlayedOnset[]).map(({ at }) => ({ at }));
      const truth = assess(score, { onsets });
      const { finding, take } = await served.call<Heard>("playTake", score, onsets, kind);
      expect(take.onsets.length).toBe(onsets.length);
      expect(verdicts(finding)).toEqual(verdicts(truth));
      for (const [i, drift] of drifts(truth).entries()) expect(Math.abs(drifts(finding)[i]! - drift)).toBeLessThan(3);
      expect(take).toMatchObject({ drill: "half-bar", mix: "play", zero: "count-in" });
      expect(served.complaints).toEqual([]);
    });

    test("MIDI tells of devices that come and go, of drums without pitch, and of browsers without it", async () => {
      expect(await served.call("plugMidi")).toEqual({
        states: ["listening", "waiting", "listening"],
        notes: [{ at: expect.any(Number), velocity: 70 }],
        damage: ["DEVICE_CHANGED"],
        without: "MIDI_WITHOUT_DEVICE",
        codes: ["MIDI_REFUSED", "MIDI_NOT_HERE"],
      });
    });

    test("a take ends with its reason when it is broken off, the page is hidden or the sound is suspended", async () => {
      expect(await served.call("brokenTakes", score)).toEqual(["TAKE_BROKEN_OFF", "TAB_HIDDEN", "SOUND_SUSPENDED"]);
    });

    test("each way in which a microphone cannot be had is a code of its own", async () => {
      const names = ["NotAllowedError", "NotFoundError", "OverconstrainedError", "NotReadableError"];
      const codes = await served.call<string[]>("refusals", names);
      expect(codes).toEqual([
        "MICROPHONE_REFUSED",
        "MICROPHONE_MISSING",
        "MICROPHONE_MISSING",
        "MICROPHONE_BUSY",
        "WORKLET_NOT_LOADED",
      ]);
    });
  });
});
