import { describe, expect, test } from "vitest";
import { toNumber } from "../../../lib/base/index.js";
import { PERCUSSION } from "../../../lib/pattern/index.js";
import { clicksOf } from "../../../lib/render/clicks.js";
import { beatUnitOf } from "../../../lib/render/scoreTime.js";
import { integratedLoudness, renderSound, truePeak } from "../../../lib/render/sound/index.js";
import { timeline } from "../../../lib/render/sound/timeline.js";
import type { Score } from "../../../lib/schema/index.js";
import { highest, jettyScore, made, only, RATES } from "./material.js";

/** Seconds within which what rings has to be gone when its part falls silent: as asked of the renderer, not as it is built. */
const FADE = 0.01;

describe.each(RATES)("renderSound() at %i Hz", (rate) => {
  test("puts every click of the count-in within 1 sample of its time, found as the first sample above a tenth of the click", () => {
    // 97 beats a minute do not fall on samples; without parts nothing else is heard.
    const score = only(jettyScore({ tempo: 97, "count-in": "2 bars" }));
    const sound = made(renderSound(score, { rate }));
    const perWhole = score.beat / toNumber(beatUnitOf(score));
    const clicks = clicksOf(score);
    expect(clicks).toHaveLength(8);
    for (const { position } of clicks) {
      const due = sound.downbeat + toNumber(position) * perWhole * rate;
      const from = Math.round(due - 0.02 * rate);
      const height = highest(sound, from, from + Math.round(0.1 * rate));
      const onset = sound.channels[0].findIndex((value, i) => i >= from && Math.abs(value) > height / 10);
      expect(Math.abs(onset - due), `click at ${position.n}/${position.d}`).toBeLessThanOrEqual(1);
    }
  });

  test.each(["sticks", "hat"])(
    "counts in with %s on the samples of the click, struck as the voice sounds in a part",
    (sound) => {
      const score = only(jettyScore({ tempo: 97, "count-in": { length: "3 beats", sound } }));
      const counted = made(renderSound(score, { rate }));
      const click = made(renderSound({ ...score, countInVoice: "click" }, { rate }));
      expect(counted.downbeat).toBe(click.downbeat);
      const due = [3, 2, 1].map((beats) => counted.downbeat - Math.round(beats * score.beat * rate));
      for (const at of due) {
        expect(highest(counted, at - 400, at - 2)).toBeLessThan(0.02 * highest(counted, at, at + 400));
        expect(highest(counted, at, at + 400)).toBeGreaterThan(0.01);
      }
      const alike = counted.channels[0].every((value, i) => value === click.channels[0][i]);
      expect(alike, "another sound than the click").toBe(false);
    },
  );

  test("starts every note of the kit within 1 sample of its time, swing included", () => {
    const score = only(
      jettyScore({ pattern: "shuffle", variant: undefined, dropout: undefined, tolerance: { steadiness: "30 ms" } }),
      "kit",
    );
    const sound = made(renderSound(score, { rate }));
    const notes = score.parts[0]!.notes;
    expect(notes.length).toBeGreaterThan(8);
    for (const { at } of notes) {
      const due = sound.downbeat + at * rate;
      // Just before, the hit before has died away further than a hundredth of a new one.
      const before = highest(sound, Math.round(due) - 20, Math.round(due) - 1);
      const after = highest(sound, Math.round(due) - 1, Math.round(due) + 2);
      expect(after, `${at}`).toBeGreaterThan(5 * before + 1e-4);
    }
  });

  test("has nothing left 10 ms into a silence, up to the sample of the landing", () => {
    const score = jettyScore({}, "play");
    const sound = made(renderSound(score, { rate }));
    expect(score.dropouts.length).toBeGreaterThan(0);
    for (const { from, to } of score.dropouts) {
      const begins = sound.downbeat + Math.round(from * rate);
      const ends = sound.downbeat + Math.round(to * rate);
      expect(highest(sound, begins - Math.round(0.05 * rate), begins)).toBeGreaterThan(0.001);
      expect(highest(sound, begins + Math.round(FADE * rate), ends)).toBe(0);
      expect(highest(sound, ends, ends + 100)).toBeGreaterThan(0.01);
    }
  });

  test("keeps what is let ring sounding in a silence, and fades the rest", () => {
    const changes = { phrases: 1, dropout: { length: "3/4 bar" } };
    const cut = made(renderSound(jettyScore(changes, "play"), { rate }));
    const score = jettyScore({ ...changes, dropout: { ...changes.dropout, "let-ring": ["bass"] } }, "play");
    const rung = made(renderSound(score, { rate }));
    const [{ from, to }] = score.dropouts as [Score["dropouts"][number]];
    const sample = (at: number): number => rung.downbeat + Math.round(at * rate);
    // A2 is held for a beat of the silence, as written, and then let go.
    const middle = [sample(from + 0.2), sample(from + 0.5)] as const;
    expect(highest(cut, ...middle)).toBe(0);
    expect(highest(rung, ...middle)).toBeGreaterThan(0.01);
    expect(highest(rung, sample(to - 0.05), sample(to))).toBeLessThan(0.001);
    const kit = made(renderSound(only(score, "kit"), { rate }));
    expect(highest(kit, ...middle)).toBe(0);
  });

  test("returns after a silence at full level: the samples of the same bar without a silence before it, at one gain", () => {
    // What rings over from before is there only without the silence; a kit of short strikes leaves none after half a bar.
    const dropping = only(jettyScore({}, "play"), "kit");
    const steady = only(jettyScore({ dropout: undefined, tolerance: { steadiness: "30 ms" } }, "play"), "kit");
    const [a, b] = [made(renderSound(dropping, { rate })), made(renderSound(steady, { rate }))];
    const gain = 10 ** ((a.gain - b.gain) / 20);
    const at = a.downbeat + Math.round(dropping.dropouts[0]!.landing! * rate);
    for (let i = at; i < at + 2000; i++)
      expect(Math.abs(a.channels[0][i]! - gain * b.channels[0][i]!)).toBeLessThan(2e-3);
    expect(highest(a, at, at + 2000)).toBeGreaterThan(0.05);
  });

  test("brings every mix to -23 LUFS and at most -1 dBTP, and says what it measured", () => {
    for (const mix of ["play", "listen"]) {
      const sound = made(renderSound(jettyScore({}, mix), { rate }));
      expect(sound.heldBack).toBe(false);
      // 32-bit samples round by 2^-25 of themselves.
      expect(Math.abs(integratedLoudness(sound.channels, rate)! + 23)).toBeLessThan(1e-4);
      expect(sound.loudness).toBeCloseTo(-23, 6);
      const peak = 20 * Math.log10(truePeak(sound.channels));
      expect(peak).toBeLessThanOrEqual(-1);
      expect(sound.peak).toBeCloseTo(peak, 3);
    }
  });

  test("reaches -14 LUFS by turning down the highest peaks alone: silences stay digital zero, and no note begins elsewhere", () => {
    const score = jettyScore({}, "play");
    const [soft, loud] = [made(renderSound(score, { rate })), made(renderSound(score, { rate, loudness: -14 }))];
    expect(loud.heldBack).toBe(false);
    expect(Math.abs(integratedLoudness(loud.channels, rate)! + 14)).toBeLessThan(0.05);
    expect(20 * Math.log10(truePeak(loud.channels))).toBeLessThanOrEqual(-1);
    // One positive gain at a time for both channels: never more than the gain of the whole, never another sign, zero where it was zero.
    const most = 10 ** ((loud.gain - soft.gain) / 20) * (1 + 1e-5);
    let lowered = 0;
    soft.channels.forEach((channel, c) => {
      for (let i = 0; i < channel.length; i++) {
        const [before, after] = [channel[i]!, loud.channels[c]![i]!];
        if (before === 0 ? after !== 0 : after / before > most || after / before < 0.2) throw new Error(`sample ${i}`);
        if (after / before < 0.98 * most) lowered++;
      }
    });
    expect(lowered).toBeGreaterThan(0);
    for (const { from, to } of score.dropouts)
      expect(
        highest(loud, loud.downbeat + Math.round((from + FADE) * rate), loud.downbeat + Math.round(to * rate)),
      ).toBe(0);
  });

  test("stays below a loudness for which peaks would have to come down by more than 12 dB, and says so", () => {
    const score = jettyScore({}, "play");
    const clicks = {
      ...score,
      parts: only(score, "kit").parts.map((part) => ({ ...part, notes: part.notes.slice(0, 1) })),
    };
    const sound = made(renderSound(clicks, { rate, loudness: -10 }));
    expect(sound.heldBack).toBe(true);
    expect(sound.loudness!).toBeLessThan(-10);
    const peak = 20 * Math.log10(truePeak(sound.channels));
    expect(peak).toBeLessThanOrEqual(-1);
    expect(peak).toBeGreaterThan(-1.2);
  });
});

describe("renderSound()", () => {
  test("gives the same samples for the same score", () => {
    const [a, b] = [made(renderSound(jettyScore())), made(renderSound(jettyScore()))];
    expect(a.channels[0].length).toBe(b.channels[0].length);
    for (const side of [0, 1] as const) {
      expect(a.channels[side].findIndex((value, i) => !Object.is(value, b.channels[side][i]))).toBe(-1);
    }
  });

  test("lets a part that plays throughout sound in the silences of the others", () => {
    const score = jettyScore({}, "listen");
    const sound = made(renderSound(score));
    const { from } = score.dropouts[0]!;
    const begins = sound.downbeat + Math.round(from * sound.rate);
    expect(highest(sound, begins + 1000, begins + 10000)).toBeGreaterThan(0.001);
  });

  test("sounds every percussion voice there is, each its own way, and never beyond full scale", () => {
    const heard = new Map<string, string>();
    for (const [voice, key] of PERCUSSION) {
      const note = { position: "0", length: "1/4", at: 0, seconds: 0.5, voice };
      const base = only(jettyScore({ dropout: undefined, tolerance: { steadiness: "30 ms" } }));
      const score = {
        ...base,
        countIn: 0,
        duration: 1,
        parts: [{ name: "kit", does: "plays" as const, student: false, notes: [note] }],
      };
      const sound = made(renderSound(score));
      const samples = sound.channels[0].slice(sound.downbeat, sound.downbeat + 2000);
      expect(highest(sound, sound.downbeat, sound.downbeat + 100), voice).toBeGreaterThan(0.001);
      expect(sound.channels.every((channel) => channel.every((value) => Math.abs(value) <= 1))).toBe(true);
      const print = samples.slice(0, 500).join(",");
      // Two names of one key are one voice; two keys are two.
      if (!heard.has(String(key))) expect([...heard.values()], voice).not.toContain(print);
      heard.set(String(key), print);
    }
  });

  test("says of silence that it cannot be measured, and leaves it silent", () => {
    const sound = made(renderSound({ ...only(jettyScore()), countIn: 0 }));
    expect(sound.loudness).toBeUndefined();
    expect(sound.peak).toBeUndefined();
    expect(highest(sound, 0, sound.channels[0].length)).toBe(0);
  });

  test("refuses a take of more than half an hour", () => {
    const result = renderSound({ ...jettyScore(), duration: 1800 });
    expect(result.ok ? [] : result.problems.map(({ code }) => code)).toEqual(["SOUND_TOO_LONG"]);
  });

  test("throws for options outside their range", () => {
    const score = jettyScore();
    expect(() => renderSound(score, { rate: 22050 as 44100 })).toThrow(RangeError);
    expect(() => renderSound(score, { loudness: 0 })).toThrow(RangeError);
    expect(() => renderSound(score, { loudness: Number.NaN })).toThrow(RangeError);
    expect(() => renderSound(score, { peak: 0 })).toThrow(RangeError);
  });
});

describe("timeline()", () => {
  test("makes room for a pick-up that is longer than the count-in", () => {
    const score = jettyScore({
      pattern: "shuffle",
      variant: undefined,
      "count-in": "1/4 note",
      dropout: undefined,
      tolerance: { steadiness: "30 ms" },
    });
    const line = timeline(score, 48000);
    for (const { notes } of line.tracks) for (const { from } of notes) expect(from).toBeGreaterThanOrEqual(0);
    for (const { from } of line.clicks) expect(from).toBeGreaterThanOrEqual(0);
  });

  test("counts every time from the sample of the downbeat of bar 1", () => {
    const score = jettyScore({ tempo: 97 });
    const { downbeat, tracks } = timeline(score, 44100);
    const kit = score.parts.find(({ name }) => name === "kit")!;
    expect(tracks[0]!.notes.map(({ from }) => from)).toEqual(
      kit.notes.map(({ at }) => downbeat + Math.round(at * 44100)),
    );
  });
});
