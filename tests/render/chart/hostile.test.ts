import fc from "fast-check";
import { XmlDocument } from "libxml2-wasm";
import { describe, expect, test } from "vitest";
import { PLAYERS, playTake } from "../../../lib/rehearsal/index.js";
import { climbChart, ladderChart, stripChart, takeChart } from "../../../lib/render/chart/index.js";
import { decimal, escapeText } from "../../../lib/render/chart/svg.js";
import type { Score } from "../../../lib/schema/index.js";
import { assess } from "../../../lib/take/index.js";
import { drillIn, FIRST, letteringOf, scoreAt, termOf } from "./material.js";

const half = scoreAt(drillIn(FIRST, "half-bar"));

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
