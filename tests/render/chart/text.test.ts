import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { stringify } from "yaml";
import { readCurriculum } from "../../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { PLAYERS, playTake } from "../../../lib/rehearsal/index.js";
import { driftGauge, textStrip, textStripKey, textTake } from "../../../lib/render/chart/index.js";
import { assess } from "../../../lib/take/index.js";
import { drillOf, jetty } from "../../drill/material.js";
import { drillIn, FIRST, scoreAt, WIND } from "./material.js";

const half = scoreAt(drillIn(FIRST, "half-bar"));

describe("textStrip()", () => {
  test("has a line for each phrase, four cells a bar, and open bars below", () => {
    expect(textStrip(half).split("\n")[0]).toBe("  phrase 1  │━━━━│━━━━│━━━━│━━··│");
    expect(textStrip(half).split("\n").length - 1).toBe(5);
    const open = scoreAt(drillIn(WIND, "tidewater-open"), 8);
    expect(textStrip(open).split("\n")[1]).toBe("                       ~~~~ ~~~~");
    expect(textStripKey(open)).toContain("~ yours to improvise");
    expect(textStripKey(half)).not.toContain("~");
  });

  test("draws no silence in a mix in which every part plays on through it", () => {
    const own = scoreAt(drillOf(jetty({ mixes: { own: { kit: "plays", bass: "plays", lead: "off" } } })));
    expect(own.dropouts.length).toBeGreaterThan(0);
    expect(textStrip(own)).not.toMatch(/[─·]/);
    expect(textStripKey(own)).toBe("  ━ everything sounds\n");
  });

  test("does not say that everything sounds where some of the band is off, and marks the bar and more that a click leaves empty", () => {
    const mixes = { alone: { kit: "off", click: "plays", lead: "off" }, band: { kit: "plays", click: "plays" } };
    const clicked = (sticks: string, mix: string) => {
      const course = stringify({
        curriculum: "clicks",
        edition: "1.0.0",
        title: "Clicks",
        patterns: {
          riff: {
            meter: "4/4",
            bars: 2,
            parts: {
              kit: { voices: { hat: "xxxx | same" } },
              click: { voices: { sticks } },
              lead: { notes: "1/4 D4 E4 F4 G4 | same" },
            },
          },
        },
        drills: {
          hold: {
            pattern: "riff",
            student: "lead",
            tempo: 90,
            dropout: { length: "1 bar", parts: ["kit"] },
            mixes,
            tolerance: { drift: "8 %", landing: "120 ms" },
            gate: { clean: 3, of: 4 },
          },
        },
      });
      const read = readCurriculum(course, { file: "clicks.yaml", readFile: () => undefined });
      if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join("\n"));
      const score = scoreOf(rungs(read.value.drills[0]!).at(0), mix);
      return [textStrip(score).split("\n")[0], textStripKey(score).trim()];
    };
    expect(clicked("x--- | ----", "alone")).toEqual(["  phrase 1  │━╌╌╌│╌╌╌╌│", "━ sounds   ╌ the band rests"]);
    expect(clicked("x--- | x---", "alone")).toEqual(["  phrase 1  │━━━━│━━━━│", "━ sounds"]);
    expect(clicked("x--- | ----", "band")).toEqual(["  phrase 1  │━━━━│━━━━│", "━ everything sounds"]);
  });
});

describe("textTake()", () => {
  test("stays within 80 columns and says verdict, drift and landing of each silence", () => {
    const score = scoreAt(drillIn(FIRST, "two-bars"), 5);
    const { take } = playTake(score, PLAYERS.wild, "columns");
    const lines = textTake(score, assess(score, take)).split("\n");
    for (const line of lines) expect([...line].length).toBeLessThanOrEqual(80);
    expect(lines.filter((line) => /(?:within|beyond|unclear) .*ms/.test(line)).length).toBe(4);
  });

  test("a landing beyond its limit says the limit, so that a drift within the brackets explains itself", () => {
    const strict = {
      ...half,
      tolerance: { ...half.tolerance, landingMs: 90 as typeof half.tolerance.landingMs },
    } as typeof half;
    const finding = assess(strict, playTake(strict, PLAYERS.able, "limit").take);
    const dropouts = finding.dropouts.map((each, i) => ({
      ...each,
      driftMs: 60,
      landing: { ms: i === 0 ? -91 : 89, standardErrorMs: 3 },
    }));
    const lines = textTake(strict, { ...finding, dropouts }).split("\n");
    expect(lines[1]).toMatch(/^ +landed 91 ms early \(limit 90\)$/);
    expect(lines[3]).toMatch(/^ +landed 89 ms late$/);
  });

  test("a reason that would steer the terminal is made harmless", () => {
    const finding = assess(half, { onsets: [] });
    const dropouts = finding.dropouts.map((each) => ({ ...each, driftMs: { unmeasured: "\u001b[31mred\u0007" } }));
    expect(textTake(half, { ...finding, dropouts })).not.toMatch(/[\u001b\u0007]/);
  });
});

describe("driftGauge()", () => {
  test("shows a drift between the brackets when it is within the limit and outside when it is not, on its own side", () => {
    fc.assert(
      fc.property(
        fc.double({ min: -1e4, max: 1e4, noNaN: true }),
        fc.double({ min: 1, max: 1e3, noNaN: true }),
        (drift, limit) => {
          const gauge = driftGauge(drift, limit);
          const place = gauge.search(/[●◂▸]/);
          expect([...gauge].length).toBe(7);
          expect(place > gauge.indexOf("[") && place < gauge.indexOf("]")).toBe(Math.abs(drift) <= limit);
          if (Math.abs(drift) > limit) expect(place < gauge.indexOf("[")).toBe(drift < 0);
        },
      ),
    );
  });
});
