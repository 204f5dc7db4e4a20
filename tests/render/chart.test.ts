import fc from "fast-check";
import { XmlDocument } from "libxml2-wasm";
import { describe, expect, test } from "vitest";
import { rungs } from "../../lib/drill/index.js";
import { PLAYERS, playTake } from "../../lib/rehearsal/index.js";
import {
  climbChart,
  driftGauge,
  ladderChart,
  stripChart,
  takeChart,
  textStrip,
  textStripKey,
  textTake,
} from "../../lib/render/chart/index.js";
import { lanesOf } from "../../lib/render/chart/ladderLanes.js";
import { slants, stillness } from "../../lib/render/chart/marks.js";
import { INK } from "../../lib/render/chart/palette.js";
import { alikePasses, passesOf } from "../../lib/render/chart/passes.js";
import { decimal, escapeText } from "../../lib/render/chart/svg.js";
import { bandIn, takeRows } from "../../lib/render/chart/takeRows.js";
import type { Score } from "../../lib/schema/index.js";
import { assess, traceTake } from "../../lib/take/index.js";
import { plainScore, slowerInSilence, takeOf } from "../take/scores.js";
import { drillIn, FIRST, HUGE, LONG, letteringOf, scoreAt, termOf, WIND } from "./chartMaterial.js";

const half = scoreAt(drillIn(FIRST, "half-bar"));
const count = (text: string, piece: string): number => text.split(piece).length - 1;
/** The flag of a re-entry. */
const FLAG = "l7 4l-7 4z";

describe("texts from outside", () => {
  const hostile = `<script>alert("1")</script>&'\u0000\u202e\ud800]]>`;

  test("are escaped: what cannot stand in XML or would turn other text around is shown as a dot", () => {
    expect(escapeText(hostile)).toBe("&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt;&amp;&#39;···]]&gt;");
  });

  test("any text becomes character data that an XML parser reads back as what is visible of it", () => {
    fc.assert(
      fc.property(fc.string({ unit: "binary", maxLength: 60 }), (text) => {
        const document = XmlDocument.fromString(`<t a="${escapeText(text)}">.${escapeText(text)}</t>`);
        expect(escapeText(document.root.content)).toBe(`.${escapeText(text)}`);
        document.dispose();
      }),
    );
  });

  test("every chart stays well-formed and keeps its lettering inside when all its names are hostile", () => {
    const name = `${hostile} ${"quay".repeat(60)}`;
    const score: Score = {
      ...half,
      drill: name,
      rung: `variant=${name}`,
      mix: name,
      parts: half.parts.map((part) => ({ ...part, name: `${part.name}${name}` })),
      dropouts: half.dropouts.map((dropout) => ({ ...dropout, parts: dropout.parts.map((part) => `${part}${name}`) })),
      open: [{ from: 0, to: 3, bars: [1], scale: name, pitchClasses: [0], subdivision: 0.5 }],
    };
    const { take } = playTake(score, PLAYERS.able, "hostile");
    const drill = { ...drillIn(FIRST, "two-bars"), name, title: name };
    const renamed = termOf(40).map((event) => ({
      ...event,
      student: name,
      ...("drill" in event ? { drill: name } : {}),
    }));
    for (const svg of [
      stripChart(score, { width: 360 }),
      takeChart(score, take, { ...assess(score, take), take: name, sentence: name }, { width: 360 }),
      ladderChart(drill, { width: 360, at: 1 }),
      climbChart({ name, drills: [drill] }, renamed as never, { width: 360 }),
    ]) {
      expect(svg).not.toContain("<script");
      for (const { left, right } of letteringOf(svg)) {
        expect(left).toBeGreaterThanOrEqual(0);
        expect(right).toBeLessThanOrEqual(360);
      }
    }
  });

  test("a number that is not finite is refused rather than drawn", () => {
    expect(() => decimal(Number.NaN)).toThrow(RangeError);
  });
});

describe("widths", () => {
  test.each([0, 279, 2001, Number.NaN, Number.POSITIVE_INFINITY])("%d px is refused", (width) => {
    for (const draw of [
      () => stripChart(half, { width }),
      () => ladderChart(drillIn(FIRST, "half-bar"), { width }),
      () => takeChart(half, { onsets: [] }, assess(half, { onsets: [] }), { width }),
      () => climbChart(FIRST, [], { width }),
    ])
      expect(draw).toThrow(RangeError);
  });
});

describe("hatching", () => {
  test("stays inside its box, and is drawn for each silence", () => {
    const box = fc.record({
      x: fc.double({ min: 0, max: 500, noNaN: true }),
      y: fc.double({ min: 0, max: 500, noNaN: true }),
      width: fc.double({ min: 0, max: 300, noNaN: true }),
      height: fc.double({ min: 0, max: 300, noNaN: true }),
    });
    fc.assert(
      fc.property(box, (each) => {
        const numbers = (slants(each, 6).match(/-?[\d.]+/g) ?? []).map(Number);
        numbers.forEach((value, i) => {
          const [from, to] = i % 2 === 0 ? [each.x, each.x + each.width] : [each.y, each.y + each.height];
          // Two decimals are written.
          expect(value).toBeGreaterThanOrEqual(from - 0.01);
          expect(value).toBeLessThanOrEqual(to + 0.01);
        });
      }),
    );
    expect(stillness({ x: 0, y: 0, width: 20, height: 10 })).toContain(INK.hatch);
  });
});

describe("alikePasses()", () => {
  test("tells every pass once, in order, and the landing apart", () => {
    for (const score of [half, scoreAt(drillIn(WIND, "tidewater-dropouts"), 35), LONG, plainScore()]) {
      const numbers = alikePasses(score).flatMap(({ pass, last }) =>
        Array.from({ length: last - pass.number + 1 }, (_, i) => pass.number + i),
      );
      expect(numbers).toEqual(passesOf(score).map(({ number }) => number));
    }
    expect(alikePasses(half).map(({ pass, last }) => [pass.number, last, pass.isLanding])).toEqual([
      [1, 4, false],
      [5, 5, true],
    ]);
  });

  test("a pass with another note, silence or open bar is drawn on its own", () => {
    const third = half.bars.find(({ phrase }) => phrase === 3)!.at;
    const without: Score = { ...half, expected: half.expected.filter(({ at }) => Math.abs(at - third) > 1e-6) };
    const opened: Score = {
      ...half,
      open: [{ from: third, to: third + 1, bars: [9], scale: "D dorian", pitchClasses: [2], subdivision: 0.5 }],
    };
    const louder: Score = {
      ...half,
      dropouts: half.dropouts.map((each, i) => (i === 2 ? { ...each, parts: ["kit"] } : each)),
    };
    for (const score of [without, opened, louder]) {
      expect(alikePasses(score).map(({ pass, last }) => [pass.number, last])).toEqual([
        [1, 2],
        [3, 3],
        [4, 4],
        [5, 5],
      ]);
    }
  });
});

describe("stripChart()", () => {
  const svg = stripChart(half);

  test("names every part that is heard, hatches each part that drops, and flags the re-entry", () => {
    const texts = letteringOf(svg).map(({ text }) => text);
    for (const part of ["kit", "bass", "you", "count", "landing"]) expect(texts).toContain(part);
    // Four alike passes are drawn once, two parts drop in them; one more hatching and flag in the key.
    expect(count(svg, INK.hatch)).toBe(2 + 1);
    expect(count(svg, FLAG)).toBe(1 + 1);
    expect(svg).toContain("<title>Nothing sounds for half a bar, 4\u00a0times; back on the next downbeat.</title>");
  });

  test("draws a stroke for every onset expected in the passes it draws", () => {
    // Strokes of the first pass and the landing start at distinct pixels in this riff; the key has two more.
    const expected = half.expected.filter(({ bar }) => bar <= 4 || bar > 16).length;
    const strokes = [...svg.matchAll(/<path d="([^"]+)"[^>]*stroke="#0a5a78"/g)].reduce(
      (sum, [, d]) => sum + count(d!, "M"),
      0,
    );
    expect(strokes).toBe(expected + 2);
  });

  test("a mix in which a part plays on hatches only what falls silent, and says who", () => {
    const listen = scoreAt(drillIn(FIRST, "half-bar"), 0, "listen");
    expect(stripChart(listen)).toContain("<title>Bass and kit fall silent for half a bar");
  });

  test("a score without dropouts says that everything sounds", () => {
    expect(stripChart(scoreAt(drillIn(FIRST, "steady")))).toContain(
      "<title>Everything sounds from beginning to end.</title>",
    );
  });
});

describe("lanesOf()", () => {
  test("with a column for each rung, shows every ladder's value on every rung", () => {
    for (const drill of [...FIRST.drills, ...WIND.drills]) {
      const all = rungs(drill);
      lanesOf(drill, all.count).forEach((lane, i) => {
        const { parameter } = drill.ladders[i]!;
        const values = Array.from({ length: all.count }, (_, index) => all.at(index).settings[parameter]);
        // Equal steps on equal values, and only there.
        const named = new Map(lane.steps!.map((step, index) => [step, values[index]]));
        expect(lane.steps!.map((step) => named.get(step))).toEqual(values);
        expect(new Set(named.values()).size).toBe(named.size);
      });
    }
  });

  test("of 701 299 000 rungs, only the ladder slow enough for the columns is drawn in steps, and it never falls", () => {
    const lanes = lanesOf(HUGE, 300);
    expect(lanes.map(({ steps }) => steps !== undefined)).toEqual([false, false, true]);
    const slow = lanes[2]!.steps!;
    expect(slow.length).toBe(300);
    for (let i = 1; i < slow.length; i++) expect(slow[i]).toBeGreaterThanOrEqual(slow[i - 1]!);
    expect(lanes[0]!.rounds).toBe(Math.round(rungs(HUGE).count / 1000));
  });
});

describe("ladderChart()", () => {
  const drill = drillIn(FIRST, "two-bars");

  test("says what comes next, and is the same by index and by settings", () => {
    const byIndex = ladderChart(drill, { at: 2 });
    expect(byIndex).toContain("<title>3\u00a0rungs to go; next: dropout 2 bars.</title>");
    expect(ladderChart(drill, { at: "dropout=1 1/2 bars,parts=bass+kit,tempo=84,variant=plain" })).toBe(byIndex);
    expect(ladderChart(drill, { at: 5 })).toContain("<title>On the top rung of 6: Two bars of silence.</title>");
  });

  test.each([-1, 6, 0.5, "tempo=1", "nonsense"])("refuses %s, which is no rung of the drill", (at) => {
    expect(() => ladderChart(drill, { at })).toThrow(RangeError);
  });
});

describe("takeChart()", () => {
  const score = plainScore({ tolerance: { driftPercent: 4, reentryMs: 60 } });
  const take = takeOf(score, slowerInSilence(score, 0.03));
  const finding = assess(score, take);
  const svg = takeChart(score, take, finding);
  /** Centres of the notes drawn. */
  const notes = (text: string): [number, number][] =>
    [...text.matchAll(/M([\d.]+) ([\d.]+)a2 2/g)].map(([, x, y]) => [Number(x) + 2, Number(y)]);

  test("titles itself with the finding's sentence", () => {
    expect(svg).toContain(`<title>${escapeText(finding.sentence)}</title>`);
  });

  test("has a note for every pair, to the right with time, and up where it is late", () => {
    const drawn = notes(svg);
    expect(drawn.length).toBe(finding.pairs.length);
    drawn.forEach(([x, y], i) => {
      if (i > 0 && score.expected[i]!.at - score.expected[i - 1]!.at > 0.1) expect(x).toBeGreaterThan(drawn[i - 1]![0]);
      const late = 1000 * ((take.onsets[i] as number) - score.expected[i]!.at);
      // The whole drawing is moved down by its heading; within a row the order of heights is that of lateness.
      const other = drawn.findIndex(([, oy]) => oy !== y);
      const otherLate = 1000 * ((take.onsets[other] as number) - score.expected[other]!.at);
      if (Math.abs(late - otherLate) > 10) expect(Math.sign(y - drawn[other]![1])).toBe(Math.sign(otherLate - late));
    });
  });

  test("hatches each silence and flags each re-entry", () => {
    expect(count(svg, INK.hatch)).toBe(score.dropouts.length + 1);
    expect(count(svg, FLAG)).toBe(score.dropouts.length + 1);
  });

  test("marks what was left out and what was added, each once", () => {
    const played = takeOf(score, (at) => at).onsets as number[];
    const onsets = [...played.filter((_, i) => i !== 5 && i !== 9), 0.77, 3.31].sort((a, b) => a - b);
    const other = { onsets, zero: "bar-1" as const };
    const found = assess(score, other);
    expect([found.missed.length, found.added.length]).toEqual([2, 2]);
    const drawing = takeChart(score, other, found);
    // One more of each in the key.
    expect(count(drawing, "h5v5h-5z")).toBe(2 + 1);
    expect(count(drawing, "v6")).toBeGreaterThanOrEqual(2 + 1);
    const texts = letteringOf(drawing).map(({ text }) => text);
    expect(texts.filter((text) => text === "left out").length).toBe(2);
    expect(texts.filter((text) => text === "added").length).toBe(2);
  });

  test("nothing is drawn outside the plot: a tolerance far beyond the play is cut", () => {
    const wide = { ...score, tolerance: { driftPercent: 90, reentryMs: 5000 } };
    const drawing = takeChart(wide, take, assess(wide, take));
    const height = Number(/viewBox="0 0 \d+ (\d+)"/.exec(drawing)![1]);
    const dashed = [...drawing.matchAll(/<path d="([^"]+)"[^>]*dasharray="4 2.5"/g)].flatMap(([, d]) =>
      [...d!.matchAll(/[ML][\d.-]+ ([\d.-]+)/g)].map(([, y]) => Number(y)),
    );
    expect(dashed.length).toBeGreaterThan(0);
    for (const y of dashed) {
      expect(y).toBeGreaterThanOrEqual(0);
      expect(y).toBeLessThan(height);
    }
  });

  test("a take of hundreds of bars is drawn in six rows at most", () => {
    expect(takeRows(LONG, 300).length).toBeLessThanOrEqual(6);
    expect(takeRows(LONG, 300)[0]!.from).toBe(0);
    expect(takeRows(LONG, 300).at(-1)!.to).toBe(LONG.duration);
  });

  test("a finding of another take is refused", () => {
    expect(() => takeChart(score, { onsets: [] }, finding)).toThrow(RangeError);
  });
});

describe("bandIn()", () => {
  const trace = traceTake(half, playTake(half, PLAYERS.able, "band").take);

  test("rows that follow each other meet in the same point", () => {
    const [a, b] = [
      { from: 0, to: 7.3 },
      { from: 7.3, to: 20 },
    ].map((row) => bandIn(trace, row, 400));
    expect(a!.at(-1)!.at).toBeCloseTo(7.3, 9);
    expect(b![0]!.mean).toBeCloseTo(a!.at(-1)!.mean, 9);
    expect(b![0]!.high).toBeCloseTo(a!.at(-1)!.high, 9);
  });

  test("with few columns, has one point in each and keeps the widest of the band", () => {
    const thin = bandIn(trace, { from: 0, to: half.duration }, 10);
    expect(thin.length).toBeLessThanOrEqual(10);
    const all = bandIn(trace, { from: 0, to: half.duration }, 1e6);
    expect(Math.max(...thin.map(({ high }) => high))).toBe(Math.max(...all.map(({ high }) => high)));
    expect(Math.min(...thin.map(({ low }) => low))).toBe(Math.min(...all.map(({ low }) => low)));
  });
});

describe("climbChart()", () => {
  const journal = termOf(120);

  test("is the same in whatever order and however often the events come", () => {
    const svg = climbChart(FIRST, journal);
    expect(climbChart(FIRST, [...journal].reverse())).toBe(svg);
    expect(climbChart(FIRST, [...journal, ...journal.slice(10, 40)])).toBe(svg);
  });

  test("says how the takes went, as the journal has them", () => {
    const takes = journal.filter((event) => event.kind === "take assessed");
    const within = takes.filter(({ verdict }) => verdict === "within").length;
    expect(climbChart(FIRST, journal).replaceAll("\u00a0", " ")).toContain(
      `${takes.length} takes: ${within} within tolerance`,
    );
  });

  test("draws only drills the journal tells of, and names those this edition does not have", () => {
    const less = { name: FIRST.name, drills: FIRST.drills.slice(1) };
    const svg = climbChart(less, journal);
    const texts = letteringOf(svg).map(({ text }) => text);
    expect(texts).not.toContain("Steady on the quay");
    expect(texts.join(" ")).toContain("Not in this edition: steady.");
  });

  test("an empty journal is said to be empty", () => {
    expect(climbChart(FIRST, [])).toContain("<title>Nothing is in the journal yet.</title>");
  });
});

describe("textStrip()", () => {
  test("has a line for each pass, four cells a bar, and open bars below", () => {
    expect(textStrip(half).split("\n")[0]).toBe("  pass 1    │━━━━│━━━━│━━━━│━━··│");
    expect(textStrip(half).split("\n").length - 1).toBe(5);
    const open = scoreAt(drillIn(WIND, "tidewater-open"), 8);
    expect(textStrip(open).split("\n")[1]).toBe("                       ~~~~ ~~~~");
    expect(textStripKey(open)).toContain("~ yours to improvise");
    expect(textStripKey(half)).not.toContain("~");
  });
});

describe("textTake()", () => {
  test("stays within 80 columns and says verdict, drift and re-entry of each silence", () => {
    const score = scoreAt(drillIn(FIRST, "two-bars"), 5);
    const { take } = playTake(score, PLAYERS.wild, "columns");
    const lines = textTake(score, assess(score, take)).split("\n");
    for (const line of lines) expect([...line].length).toBeLessThanOrEqual(80);
    expect(lines.filter((line) => /(?:within|beyond|unclear) .*ms/.test(line)).length).toBe(4);
  });

  test("a re-entry beyond its limit says the limit, so that a drift within the brackets explains itself", () => {
    const finding = assess(half, playTake(half, PLAYERS.able, "limit").take);
    const dropouts = finding.dropouts.map((each, i) => ({ ...each, driftMs: 60, reentryMs: i === 0 ? -91 : 89 }));
    const lines = textTake(half, { ...finding, dropouts }).split("\n");
    expect(lines[0]).toMatch(/; back -91 > 90$/);
    expect(lines[1]).toMatch(/; back \+89$/);
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
