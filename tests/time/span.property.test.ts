import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { compare, equals, fraction, multiply } from "../../lib/base/index.js";
import {
  barLength,
  decimalText,
  meterText,
  parseDecimal,
  parseMeter,
  parseSpan,
  parseSwing,
  parseTempo,
  resolveSpan,
  spanEnd,
  spanStart,
  spanText,
  swingText,
  tempoText,
} from "../../lib/time/index.js";
import { barsOf, must } from "./shorthand.js";

const counts = fc
  .tuple(fc.integer({ min: 1, max: 400 }), fc.constantFrom(1, 2, 3, 4, 8, 16))
  .map(([n, d]) => fraction(n, d));
const spans = fc.record({ count: counts, unit: fc.constantFrom("bar" as const, "beat" as const, "note" as const) });
const groups = fc.array(fc.integer({ min: 1, max: 7 }), { minLength: 1, maxLength: 5 });
const lowers = fc.constantFrom(1, 2, 4, 8, 16, 32, 64);
const meters = fc.tuple(groups, lowers).map(([g, lower]) => `${g.join("+")}/${lower}`);

describe("parse and print are inverse", () => {
  test("for spans", () => {
    fc.assert(
      fc.property(spans, (span) => {
        expect(must(parseSpan(spanText(span)))).toEqual(span);
      }),
    );
  });
  test("for meters", () => {
    fc.assert(
      fc.property(meters, (text) => {
        const meter = must(parseMeter(text));
        expect(must(parseMeter(meterText(meter)))).toEqual(meter);
      }),
    );
  });
  test("for swings", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 9 }),
        fc.integer({ min: 1, max: 9 }),
        fc.constantFrom(4, 8, 16),
        (a, b, d) => {
          const swing = must(parseSwing(`${a}:${b} 1/${d} note`));
          expect(must(parseSwing(swingText(swing)))).toEqual(swing);
          expect(swing.first * b).toBe(swing.second * a);
        },
      ),
    );
  });
  test("for tempi and decimals", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 100, max: 100_000 }),
        fc.constantFrom("", " of 1/4", " of 3/8", " of 1/2"),
        (cents, of) => {
          const text = `${decimalText(fraction(cents, 100))}${of}`;
          const tempo = must(parseTempo(text));
          expect(tempo.perMinute).toEqual(fraction(cents, 100));
          expect(tempoText(tempo)).toBe(text);
          expect(parseDecimal(decimalText(tempo.perMinute))).toEqual(tempo.perMinute);
        },
      ),
    );
  });
});

describe("spans", () => {
  test("resolve to bars in proportion to the bar", () => {
    fc.assert(
      fc.property(counts, meters, (count, text) => {
        const meter = must(parseMeter(text));
        expect(resolveSpan({ count, unit: "bar" }, meter)).toEqual(multiply(count, barLength(meter)));
      }),
    );
  });

  test("spanStart() undoes spanEnd(), and both agree with resolveSpan() in one meter", () => {
    const starts = fc.integer({ min: -64, max: 256 }).map((n) => fraction(n, 32));
    const changes = fc.array(fc.constantFrom("4/4", "7/8", "3/4", "12/8", "5/16"), { minLength: 1, maxLength: 6 });
    fc.assert(
      fc.property(spans, starts, changes, (span, from, written) => {
        const bars = barsOf(...written);
        const end = spanEnd(span, from, bars);
        expect(compare(end, from)).toBeGreaterThan(0);
        expect(equals(spanStart(span, end, bars), from)).toBe(true);
      }),
    );
  });
});
