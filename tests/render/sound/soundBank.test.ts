import { readFileSync } from "node:fs";
import fc from "fast-check";
import { BasicSoundBank } from "spessasynth_core";
import { describe, expect, test } from "vitest";
import type { Result } from "../../../lib/base/index.js";
import { readSoundBank, renderSound, type SoundBank } from "../../../lib/render/sound/index.js";
import { highest, jettyScore, made, only } from "./material.js";
import { DEBIAN_BANK, hasDebianBank } from "./programs.js";

/** A bank of one instrument that the synthesiser brings along; it has no percussion. */
const SMALL = new Uint8Array(BasicSoundBank.getSampleSoundBankFile());
const codes = (result: Result<unknown>): readonly string[] =>
  result.ok ? [] : result.problems.map(({ code }) => code);

const banks: (readonly [string, Uint8Array])[] = [["a bank of one instrument", SMALL]];
if (hasDebianBank("rendering with a General MIDI bank"))
  banks.push(["Debian's General MIDI bank", readFileSync(DEBIAN_BANK)]);

describe.each(banks)("renderSound() with %s", (_name, bytes) => {
  const bank = async (): Promise<SoundBank> => made(await readSoundBank(bytes));

  test("lets every note take effect the same number of samples after its time", async () => {
    const base = only(jettyScore({ dropout: undefined, tolerance: { steadiness: "30 ms" } }));
    // Far enough apart to die away, and on samples that are no multiple of anything.
    const times = [0.1001, 3.217, 6.0039, 9.7777];
    const notes = times.map((at) => ({ position: "0", length: "1/16", at, seconds: 0.05, pitch: "C4" }));
    const part = { name: "lead", instrument: "piano", does: "plays" as const, student: false, notes };
    const score = { ...base, countIn: 0, duration: 12, parts: [part] };
    const sound = made(renderSound(score, { bank: await bank() }));
    const delays = times.map((at) => {
      const due = sound.downbeat + Math.round(at * sound.rate);
      expect(highest(sound, due - 1000, due)).toBe(0);
      return sound.channels[0].findIndex((value, i) => i >= due && value !== 0) - due;
    });
    expect(new Set(delays).size, String(delays)).toBe(1);
    expect(delays[0]).toBeLessThanOrEqual(2);
  });

  test("has nothing left 10 ms into a silence, and returns on the sample of the landing", async () => {
    const score = jettyScore({}, "play");
    const sound = made(renderSound(score, { bank: await bank() }));
    for (const { from, to } of score.dropouts) {
      const [begins, ends] = [from, to].map((at) => sound.downbeat + Math.round(at * sound.rate)) as [number, number];
      expect(highest(sound, begins - 2000, begins)).toBeGreaterThan(0.001);
      expect(highest(sound, begins + Math.round(0.01 * sound.rate), ends)).toBe(0);
      expect(highest(sound, ends, ends + 500)).toBeGreaterThan(0.001);
    }
  });

  test("gives the same samples again, with the same bank and with one read anew", async () => {
    const score = jettyScore({ phrases: 1 }, "listen");
    const first = await bank();
    const [a, b, c] = [first, first, await bank()].map((each) => made(renderSound(score, { bank: each })));
    for (const other of [b!, c!]) {
      expect(a!.channels[0].findIndex((value, i) => value !== other.channels[0][i])).toBe(-1);
      expect(a!.channels[1].findIndex((value, i) => value !== other.channels[1][i])).toBe(-1);
    }
  });

  test("comes to the same loudness as the built-in voices", async () => {
    const sound = made(renderSound(jettyScore({}, "listen"), { bank: await bank() }));
    expect(sound.heldBack).toBe(false);
    expect(sound.loudness).toBeCloseTo(-23, 6);
  });
});

describe("readSoundBank()", () => {
  test("says which instruments a bank lacks, as advice", async () => {
    const bank = made(await readSoundBank(SMALL));
    const result = renderSound(jettyScore(), { bank });
    const advice = result.ok ? result.advice : [];
    expect(advice.map(({ code, severity }) => [code, severity])).toContainEqual([
      "SOUND_BANK_WITHOUT_INSTRUMENT",
      "advice",
    ]);
    expect(advice.some(({ message }) => message.includes("kit"))).toBe(true);
  });

  test.each([
    ["nothing", new Uint8Array(0)],
    ["three bytes", Uint8Array.of(82, 73, 70)],
    ["the letters RIFF alone", new TextEncoder().encode("RIFF")],
    ["text", new TextEncoder().encode("this is no sound bank, but a note to the caretaker of the boathouse")],
    ["a WAV file's beginning", new TextEncoder().encode("RIFF\x10\0\0\0WAVEfmt \0\0\0\0")],
    ["a bank cut in half", SMALL.slice(0, SMALL.length / 2)],
  ])("refuses %s as SOUND_BANK_NOT_READ", async (_name, bytes) => {
    expect(codes(await readSoundBank(bytes))).toEqual(["SOUND_BANK_NOT_READ"]);
  });

  test("never throws, whatever was done to the bytes of a bank", async () => {
    const place = fc.tuple(fc.nat(SMALL.length - 1), fc.nat(255));
    await fc.assert(
      fc.asyncProperty(fc.array(place, { maxLength: 20 }), fc.nat(SMALL.length), async (changes, length) => {
        const bytes = SMALL.slice(0, length);
        for (const [at, value] of changes) if (at < length) bytes[at] = value;
        const result = await readSoundBank(bytes);
        if (!result.ok) expect(codes(result)).toEqual(["SOUND_BANK_NOT_READ"]);
      }),
      { numRuns: 300 },
    );
  });

  test("is the only maker of banks", () => {
    expect(() => renderSound(jettyScore(), { bank: { kind: "sound bank", name: "", content: {} } })).toThrow(TypeError);
  });
});
