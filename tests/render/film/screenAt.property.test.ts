import { readFileSync } from "node:fs";
import { join } from "node:path";
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { readCurriculum } from "../../../lib/curriculum/index.js";
import { rungs, scoreOf } from "../../../lib/drill/index.js";
import { screenAt } from "../../../lib/render/film/index.js";
import { ROOT } from "../../sources.js";

const courses = ["quayside-first-course", "quayside-odd-meters", "quayside-wind-and-brass"].map((name) => {
  const text = readFileSync(join(ROOT, `curricula/${name}.yaml`), "utf8");
  const read = readCurriculum(text, { file: name, readFile: () => undefined });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
});
const silent = courses.flatMap(({ drills }) => drills).filter(({ dropout }) => dropout !== undefined);

/** A score of a shipped drill with silences, and one of these. */
const silence = fc.nat().chain((n) => {
  const drill = silent[n % silent.length]!;
  return fc.record({ index: fc.nat(rungs(drill).count - 1), number: fc.nat() }).map(({ index, number }) => {
    const score = scoreOf(rungs(drill).at(index));
    return { score, dropout: score.dropouts[number % score.dropouts.length]! };
  });
});

describe("what the screen shows", () => {
  test("is the same at every moment of a silence, so that nothing there keeps time for the student", () => {
    fc.assert(
      fc.property(silence, fc.double({ min: 0, max: 0.999_999, noNaN: true }), ({ score, dropout }, share) => {
        const edge = screenAt(score, dropout.from, false);
        const within = screenAt(score, dropout.from + share * (dropout.to - dropout.from), false);
        expect(edge.phase).toBe(dropout.silent ? "silence" : "part");
        expect(within).toEqual(edge);
      }),
    );
  });

  test("comes back at the landing, and not before", () => {
    fc.assert(
      fc.property(silence, ({ score, dropout }) => {
        if (dropout.landing === null) return;
        expect(screenAt(score, dropout.landing - 1e-6, false).phase).toBe(dropout.silent ? "silence" : "part");
        expect(screenAt(score, dropout.landing, false)).toMatchObject({ phase: "band", at: dropout.landing });
      }),
    );
  });

  test("follows the music through a silence for who only listens", () => {
    fc.assert(
      fc.property(silence, ({ score, dropout }) => {
        const middle = (dropout.from + dropout.to) / 2;
        expect(screenAt(score, middle, true).at).toBe(middle);
      }),
    );
  });
});
