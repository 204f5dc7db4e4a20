import { beforeAll, describe, expect, test } from "vitest";
import { columnsOf, padColumns } from "../../../lib/base/index.js";
import { table } from "../../../lib/cli/output/textTable.js";
import { reportText } from "../../../lib/cli/report/text.js";
import { planText } from "../../../lib/plan/index.js";
import { textStrip, textTake } from "../../../lib/render/chart/index.js";
import { openReport } from "../../../lib/report/index.js";
import { assess } from "../../../lib/take/index.js";
import { listLanguages, loadWords, type Words } from "../../../lib/words/index.js";
import { pythonWith, saidBy } from "../../python.js";
import { drillIn, FIRST, LONG, scoreAt, termOf } from "../../render/chart/material.js";
import { slowerInSilence, takeOf } from "../../take/scores.js";

const python = pythonWith("unicodedata");
const measured = (texts: readonly string[]): readonly number[] =>
  saidBy<readonly number[]>(python!, "cli/output/columns.py", texts);

describe.skipIf(python === undefined)("columns, read by Python's tables of Unicode", () => {
  test("columnsOf() of words of every language", () => {
    const texts = [
      "kit",
      "休憩",
      "フレーズ 12",
      "é",
      "e\u0301",
      "│━━·│",
      "ＡＢ",
      "ｶﾅ",
      "− ± ● ◂",
      "슈",
      "中央の50 %",
      "",
    ];
    expect(texts.map(columnsOf)).toEqual(measured(texts));
  });

  test("padColumns() never cuts", () => {
    expect(measured([padColumns("休憩", 6), padColumns("休憩", 3), padColumns("", 2)])).toEqual([6, 4, 2]);
  });
});

describe.skipIf(python === undefined).each(listLanguages())("in $name", ({ tag }) => {
  let words: Words;
  beforeAll(async () => {
    const loaded = await loadWords(tag);
    if (!loaded.ok) throw new Error(tag);
    words = loaded.value;
  });

  /** The column at which a mark stands in each line that has it. */
  const columnsAt = (text: string, mark: string | RegExp): ReadonlySet<number> => {
    const before = text.split("\n").flatMap((line) => {
      const at = typeof mark === "string" ? line.indexOf(mark) : line.search(mark);
      return at < 0 ? [] : [line.slice(0, at)];
    });
    expect(before.length).toBeGreaterThan(1);
    return new Set(measured(before));
  };

  test("the bars of a strip stand below each other, from its first phrase to its hundredth", () => {
    expect(columnsAt(textStrip(LONG, { words }), "│").size).toBe(1);
  });

  test("what a take's silences show stands in one column", () => {
    const score = scoreAt(drillIn(FIRST, "two-bars"));
    const text = textTake(score, assess(score, takeOf(score, slowerInSilence(score, 0.03))), words);
    expect(columnsAt(text, /[ ◂●][[●][·●][│●]/).size).toBe(1);
  });

  test("tables of a report have their columns below each other", () => {
    const report = openReport({ at: "2026-06-30T18:00:00Z" });
    for (const [student, takes] of [["tern", 120] as const, ["かもめ", 11] as const])
      report.add({ student, curriculum: FIRST.name, events: termOf(takes), courseOf: () => FIRST });
    const text = [...reportText(report.close(), words)].join("");
    // The last row of figures in each block ends where its right-aligned heading ends.
    const rows = text.split("\n").filter((line) => /^ {2}(?:tern|かもめ) /.test(line));
    expect(rows.length).toBeGreaterThan(1);
    const seconds = rows.map((row) => row.slice(0, row.search(/(?<=^ {2}\S+ +)\S/)));
    expect(new Set(measured(seconds)).size).toBe(1);
  });

  test("cells of a table are aligned, those of numbers at their right", () => {
    const text = table(
      [words.say("plan.kind", { kind: "review" }), " n"],
      [
        ["休憩", "7"],
        ["rest", "1234"],
      ],
    );
    const lines = text.trimEnd().split("\n");
    expect(new Set(measured(lines)).size).toBe(1);
  });

  test("the kinds of a plan's lines leave the same room", () => {
    const rest = { kind: "rest" as const, from: 0, seconds: 60, because: "" };
    const play = {
      kind: "review" as const,
      title: "X",
      takes: 1,
      mix: "play",
      number: 1,
      rung: "tempo=80",
      follows: [],
    };
    const base = {
      student: "tern",
      today: "2026-03-12",
      minutes: 20,
      seconds: 60,
      cautions: [],
      advice: [],
      messages: [],
    };
    const lines = ["warm-up", "new work", "build-up", "preparation", "review"].map((kind) => ({
      ...play,
      ...rest,
      kind,
      followMessages: [],
    }));
    const text = planText({ ...base, lines } as never, words);
    expect(columnsAt(text, "X").size).toBe(1);
  });
});
