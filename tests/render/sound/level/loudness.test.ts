import { describe, expect, test } from "vitest";
import { integratedLoudness } from "../../../../lib/render/sound/index.js";
import { kWeighting } from "../../../../lib/render/sound/level/kWeighting.js";
import { joined } from "../../../joined.js";
import { RATES, sine } from "../material.js";

/**
 * Whole periods of 997 Hz in every block of 400 ms would need 0.4 * 997 = 398.8 periods; the 0.8 of a period that is left over changes the
 * power of a block by at most 1 / (2 * 2 pi * 398.8) = 0.0002, which is 0.0009 dB, and the filters' start by less.
 */
const TOLERANCE = 0.002;

describe.each(RATES)("integratedLoudness() at %i Hz", (rate) => {
  const tone = (level: number, seconds = 10): Float32Array => sine(997, { seconds, rate, level });

  test("gives -3.01 LKFS for 997 Hz at full scale in one channel (ITU-R BS.1770-4 Annex 1; -3.0103 computed from its coefficients)", () => {
    expect(Math.abs(integratedLoudness([tone(0)], rate)! - -3.0103)).toBeLessThan(TOLERANCE);
    expect(Math.abs(integratedLoudness([tone(0), new Float32Array(10 * rate)], rate)! - -3.0103)).toBeLessThan(
      TOLERANCE,
    );
  });

  test("gives 0 LKFS for the same in two channels, and -23 for -23 dBFS in stereo (EBU Tech 3341 case 1, from memory)", () => {
    expect(Math.abs(integratedLoudness([tone(0), tone(0)], rate)!)).toBeLessThan(TOLERANCE);
    expect(Math.abs(integratedLoudness([tone(-23), tone(-23)], rate)! + 23)).toBeLessThan(TOLERANCE);
  });

  test("leaves out what is 10 LU below the rest: -36, -23, -36 dBFS is -23 (EBU Tech 3341 case 3, from memory, +-0.1 LU)", () => {
    const whole = joined(tone(-36, 10), tone(-23, 60), tone(-36, 10));
    expect(Math.abs(integratedLoudness([whole, whole], rate)! + 23)).toBeLessThan(0.1);
  });

  test("leaves out what is below -70 LUFS (EBU Tech 3341 case 4 in part, from memory)", () => {
    const whole = joined(tone(-72, 10), tone(-36, 10), tone(-23, 60), tone(-36, 10), tone(-72, 10));
    expect(Math.abs(integratedLoudness([whole, whole], rate)! + 23)).toBeLessThan(0.1);
  });

  test("does not grow quieter by silence", () => {
    const whole = new Float32Array(40 * rate);
    whole.set(tone(-20, 10));
    // Of 97 blocks that are full, three more overlap the end: partly filled, two of them count, by 3/4 and 1/2.
    const lost = 10 * Math.log10((97 + 0.75 + 0.5 + 0.25) / 100);
    expect(Math.abs(integratedLoudness([whole], rate)! - (-23.0103 + lost))).toBeLessThan(0.02);
  });

  test("is unmeasured for silence, for nothing, and for less than a block", () => {
    expect(integratedLoudness([new Float32Array(5 * rate)], rate)).toBeUndefined();
    expect(integratedLoudness([], rate)).toBeUndefined();
    expect(integratedLoudness([tone(0, 0.39)], rate)).toBeUndefined();
  });
});

describe("kWeighting()", () => {
  test("has at 48 kHz the coefficients of ITU-R BS.1770-4 Annex 1, tables 1 and 2", () => {
    expect(kWeighting(48000)).toEqual([
      { b: [1.53512485958697, -2.69169618940638, 1.19839281085285], a: [-1.69065929318241, 0.73248077421585] },
      { b: [1, -2, 1], a: [-1.99004745483398, 0.99007225036621] },
    ]);
  });

  test("answers at 44.1 kHz as at 48 kHz, to 0.01 dB up to 5 kHz and 0.1 dB up to 15 kHz", () => {
    // The bilinear transform squeezes what is near half the rate, where nothing of a shelf is left to be squeezed.
    for (let hertz = 20; hertz <= 15000; hertz *= 1.05) {
      const difference = Math.abs(response(44100, hertz) - response(48000, hertz));
      expect(difference, `${hertz} Hz`).toBeLessThan(hertz <= 5000 ? 0.01 : 0.1);
    }
  });
});

/** Gain in dB of both filters, from the definition of the transfer function. */
function response(rate: number, hertz: number): number {
  const w = (2 * Math.PI * hertz) / rate;
  const power = (c: readonly number[]): number => {
    const re = c.reduce((sum, value, i) => sum + value * Math.cos(i * w), 0);
    const im = c.reduce((sum, value, i) => sum - value * Math.sin(i * w), 0);
    return re * re + im * im;
  };
  // The 48 kHz high pass has a gain slightly above 1 by its table; what is compared is the shape from 997 Hz.
  return kWeighting(rate).reduce((sum, { b, a }) => sum + 10 * Math.log10(power(b) / power([1, ...a])), 0);
}
