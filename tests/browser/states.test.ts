import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { type ClockedContext, contextClock } from "../../lib/browser/clock/contextClock.js";
import type { Damage } from "../../lib/browser/damage.js";
import { type LatencyBook, latencyBook, outputAdvice } from "../../lib/browser/index.js";
import { lostSound } from "../../lib/browser/input/lostSound.js";
import { watchContext } from "../../lib/browser/player/watchContext.js";

/** A context whose clock a test moves, in seconds, beside moments in milliseconds. */
function madeUpContext() {
  const leaving: (() => void)[] = [];
  const context = {
    currentTime: 0,
    state: "running",
    outputLatency: 0.02,
    playbackStats: { underrunEvents: 0 },
    addEventListener: (_: string, listener: () => void) => void leaving.push(listener),
    removeEventListener: () => undefined,
  };
  return { context, moment: { now: 5000 }, suspend: () => leaving.forEach((each) => void each()) };
}

describe("a context clock", () => {
  test("tells what is heard by the median of readings that bounce, and never what has not been put out", () => {
    const chance = random("bounce");
    let now = 1000;
    const context = {
      state: "running",
      currentTime: 1,
      outputLatency: 0.03,
      getOutputTimestamp: () => ({
        contextTime: context.currentTime - 0.03 + 0.004 * (chance.uniform() - 0.5),
        performanceTime: now,
      }),
    };
    const clock = contextClock(context, () => now);
    const offs: number[] = [];
    for (let tick = 0; tick < 200; tick++) {
      now += 50;
      context.currentTime += 0.05;
      clock.read();
      if (tick > 40) offs.push(clock.heardAt() - (context.currentTime - 0.03));
    }
    // Readings bounce by 2 ms either way; the median of 31 of them has a standard error of 0.25 ms.
    for (const off of offs) expect(Math.abs(off)).toBeLessThan(0.001);
    expect(clock.heardAt(now + 1000)).toBe(context.currentTime);
    expect(clock.momentOf(clock.heardAt(now - 500))).toBeCloseTo(now - 500, 6);
  });

  test("falls back to the time of the context less its output latency, and says when that is unknown", () => {
    const context: ClockedContext = { state: "running", currentTime: 2, outputLatency: 0.05 };
    const clock = contextClock(context, () => 3000);
    expect(clock.heardAt()).toBeCloseTo(1.95, 9);
    expect(outputAdvice(clock)).toEqual([]);
    for (const outputLatency of [0, 7, Number.NaN]) {
      const silent = contextClock({ ...context, outputLatency }, () => 3000);
      expect(outputAdvice(silent).map(({ code }) => code)).toEqual(["OUTPUT_LATENCY_UNKNOWN"]);
    }
    const wireless = contextClock({ ...context, outputLatency: 0.18 }, () => 3000);
    expect(outputAdvice(wireless)).toMatchObject([{ code: "OUTPUT_LATE", message: expect.stringContaining("180 ms") }]);
  });
});

describe("a watch over a context", () => {
  const watched = () => {
    const { context, moment, suspend } = madeUpContext();
    const told: Damage[] = [];
    const watch = watchContext(
      context as unknown as AudioContext,
      (each) => told.push(each),
      () => moment.now,
    );
    const pass = (real: number, sounded: number): void => {
      moment.now += 1000 * real;
      context.currentTime += sounded;
      watch.look();
    };
    return { context, told, pass, suspend };
  };

  test("says nothing of looks that come late while sound goes on", () => {
    const { told, pass } = watched();
    for (const late of [0.05, 0.4, 3, 0.05]) pass(late, late * (1 + 2e-4));
    expect(told).toEqual([]);
  });

  test("tells that the clock stood still, which stops a take", () => {
    const { told, pass } = watched();
    pass(0.05, 0.05);
    pass(0.6, 0.1);
    expect(told).toMatchObject([{ stops: true, problem: { code: "CLOCK_STOPPED", severity: "error" } }]);
    expect(told[0]!.problem.message).toContain("500 ms");
  });

  test("tells of sound that was not ready in time, which a take goes on with, and of a context that was suspended", () => {
    const { context, told, pass, suspend } = watched();
    context.playbackStats.underrunEvents = 1;
    pass(0.05, 0.05);
    context.state = "suspended";
    suspend();
    expect(told.map(({ stops, problem }) => [stops, problem.code])).toEqual([
      [false, "SOUND_BROKEN_UP"],
      [true, "SOUND_SUSPENDED"],
    ]);
  });
});

describe("lost sound", () => {
  const RATE = 48_000;
  /** Blocks of 1024 frames of hiss with a stretch replaced. */
  const blocks = (seconds: number, change: (samples: Float32Array) => void = () => undefined) => {
    const chance = random("hiss");
    const samples = Float32Array.from({ length: seconds * RATE }, () => 0.002 * (chance.uniform() - 0.5) || 1e-4);
    change(samples);
    const all: { frame: number; samples: Float32Array }[] = [];
    for (let frame = 0; frame < samples.length; frame += 1024)
      all.push({ frame: frame + 7000, samples: samples.slice(frame, frame + 1024) });
    return all;
  };

  test("is told when frames are missing, and silence is put in so that later sound keeps its time", () => {
    const finder = lostSound(RATE);
    // 200 ms are 9600 frames; whole blocks of them are 9216.
    const [all, missing] = [blocks(1), 9];
    const kept = all.filter((_, i) => i < 20 || i >= 20 + missing);
    const found = kept.map((each) => finder.push(each));
    expect(found.flatMap(({ lost }) => lost)).toEqual([
      { from: (7000 + 20 * 1024) / RATE, to: (7000 + (20 + missing) * 1024) / RATE },
    ]);
    expect(found[20]!.block).toMatchObject({ frame: 7000 + 20 * 1024, filled: missing * 1024 });
    let next = 7000;
    for (const { block } of found) {
      expect(block.frame).toBe(next);
      next += block.samples.length;
    }
  });

  test("is told when exact zeros stand in for the hiss, to the frame", () => {
    const finder = lostSound(RATE);
    const found = blocks(1, (samples) => samples.fill(0, 20_000, 29_600)).flatMap((each) => finder.push(each).lost);
    expect(found).toEqual([{ from: 27_000 / RATE, to: 36_600 / RATE }]);
  });

  test("is not what stands between the beeps of a device that sends zeros else, nor behind a gate that opens for notes", () => {
    // As Chromium's own made-up microphone sends it, measured in it: beeps of 19 ms every half second, and 481 ms of exact zeros up to the next.
    for (const [beep, every] of [
      [0.02, 0.5],
      [0.15, 0.5],
      [0.2, 1],
    ] as const) {
      const finder = lostSound(RATE);
      const found = blocks(6, (samples) => {
        for (let i = 0; i < samples.length; i++)
          samples[i] = (i / RATE) % every < beep ? 0.4 * Math.sin(i / 20 + 0.3) : 0;
      }).flatMap((each) => finder.push(each).lost);
      expect(found, `${beep} s of ${every} s`).toEqual([]);
    }
  });

  test("is not what a microphone without hiss sends when nothing sounds", () => {
    const finder = lostSound(RATE);
    const found = blocks(1, (samples) => {
      for (let i = 0; i < samples.length; i++)
        samples[i] = Math.round(32_768 * 0.3 * Math.sin(i / 20) * Math.exp(-(i % 24_000) / 1500)) / 32_768;
    }).flatMap((each) => finder.push(each).lost);
    expect(found).toEqual([]);
  });
});

describe("a book of latencies", () => {
  const loop = {
    kind: "microphone",
    latencyMs: 61,
    latencyStandardErrorMs: 3,
    onsets: 40,
    measured: "2026-03-02T17:30:00Z",
  } as const;

  test("keeps the last latency of each device, and reads it again", () => {
    const texts = new Map<string, string>();
    const storage = {
      getItem: (name: string) => texts.get(name) ?? null,
      setItem: (name: string, text: string) => void texts.set(name, text),
    };
    const book: LatencyBook = latencyBook(storage);
    book.keep({ ...loop, device: "pier" });
    book.keep({ ...loop, device: "quay" });
    book.keep({ ...loop, device: "pier", latencyMs: 58 });
    const again = latencyBook(storage);
    expect(again.of("microphone", "pier")).toMatchObject({ latencyMs: 58, latencyStandardErrorMs: 3 });
    expect(again.of("taps", "pier")).toBeUndefined();
    expect(again.all).toHaveLength(2);
  });

  test("is empty where something else is kept, and forgets where nothing can be", () => {
    const none = {
      getItem: () => '[null, 3, {"kind":"taps"}]',
      setItem: () => {
        throw new Error("full");
      },
    };
    const book = latencyBook(none);
    expect(book.all).toEqual([]);
    book.keep({ ...loop, device: "pier" });
    expect(book.of("microphone", "pier")?.latencyMs).toBe(61);
    expect(latencyBook({ ...none, getItem: () => "{" }).all).toEqual([]);
  });
});
