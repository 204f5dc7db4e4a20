import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { isThere, type Served, serve } from "./chromium.js";
import { score } from "./simulatedStudent.js";

describe.skipIf(!isThere)("hands in a browser", () => {
  let served: Served;
  const open = (policy?: string): Promise<Served> =>
    serve({
      script: "faults.ts",
      scripts: {
        "/capture.js": "lib/browser/input/capture.worklet.ts",
        "/failing.js": "tests/browser/pages/failing.worker.ts",
      },
      ...(policy === undefined ? {} : { policy }),
    });
  beforeAll(async () => {
    served = await open();
  });
  afterAll(() => served?.close());

  test("a microphone tells of a browser that changes its sound, of another rate, and of its end; without HTTPS there is none", async () => {
    expect(await served.call("troubles")).toEqual({
      codes: ["MICROPHONE_ALTERED"],
      damage: ["RATE_CHANGED true", "MICROPHONE_ENDED true"],
      states: ["waiting", "closed"],
      without: "MICROPHONE_NOT_HERE",
    });
  });

  test("a browser that keeps sound back is said to", async () => {
    expect(await served.call("heldBack", score)).toBe("SOUND_NOT_ALLOWED");
  });

  test("notes that a page was too busy for are left out and told of, and the take goes on", async () => {
    const damage = await served.call<[string, boolean][]>("tooBusy", score);
    expect(damage).toContainEqual(["BAND_LATE", false]);
  });

  test("a take whose listener fails says so", async () => {
    expect(await served.call("deaf", score)).toBe("LISTENING_FAILED");
  });

  test("a loop is measured to 5 ms, with the worklet as an address that holds it", async () => {
    const loose = await open("");
    const CLICKS = 16;
    const near = await loose.call<{ latencyMs: number; onsets: number; told: number }>("loopOf", 0.05, CLICKS);
    const far = await loose.call<{ latencyMs: number; latencyStandardErrorMs: number }>("loopOf", 0.17, CLICKS);
    await loose.close();
    console.log("loops", JSON.stringify({ near, far }));
    expect(near.onsets).toBe(CLICKS);
    expect(near.told).toBe(CLICKS);
    // The way through the browser is the same in both.
    expect(Math.abs(far.latencyMs - near.latencyMs - 120)).toBeLessThan(5);
    expect(far.latencyStandardErrorMs).toBeLessThan(5);
  });

  test("taps are measured by tapping along, with what people are early or late in the error", async () => {
    const told = await served.call<{
      measured: { latencyMs: number; latencyStandardErrorMs: number };
      stopped: string;
    }>("tappingAlong", 35, 16);
    expect(Math.abs(told.measured.latencyMs - 35)).toBeLessThan(5);
    expect(told.measured.latencyStandardErrorMs).toBeGreaterThan(20);
    expect(told.stopped).toBe("LATENCY_STOPPED");
  });
});
