import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { reportCsv } from "../../lib/report/index.js";
import type { Report } from "../../lib/schema/index.js";
import { timeOf } from "../progress/course.js";
import { classOf, pupilOf, reportOf } from "./journals.js";

/** Reads CSV by the grammar of RFC 4180, section 2: records ended by CR LF, fields quoted or plain, quotes doubled. */
function readCsv(text: string): readonly (readonly string[])[] {
  const records: string[][] = [];
  let at = 0;
  while (at < text.length) {
    const record: string[] = [];
    for (;;) {
      const quoted = /"((?:[^"]|"")*)"/y;
      const plain = /[^",\r\n]*/y;
      quoted.lastIndex = at;
      plain.lastIndex = at;
      const match = quoted.exec(text);
      record.push(match === null ? plain.exec(text)![0] : match[1]!.replaceAll('""', '"'));
      at = match === null ? plain.lastIndex : quoted.lastIndex;
      if (text[at] !== ",") break;
      at++;
    }
    if (text.slice(at, at + 2) !== "\r\n")
      throw new Error(`no line end at ${at}: ${JSON.stringify(text.slice(at, at + 20))}`);
    at += 2;
    records.push(record);
  }
  return records;
}

const tableOf = (report: Report, table: "students" | "drift"): readonly (readonly string[])[] =>
  readCsv([...reportCsv(report, table)].join(""));
const NOW = timeOf(90 * 86_400);

/** Characters that cannot be seen are masked: a table may be shown in a terminal. */
const masked = (name: string): string => name.replaceAll(/[\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Cs}]/gu, "·");

describe("reportCsv()", () => {
  test("is CSV by RFC 4180, each record as long as the header, each student in it", () => {
    fc.assert(
      fc.property(classOf, (pupils) => {
        const report = reportOf(pupils, { at: NOW });
        for (const table of ["students", "drift"] as const) {
          const [header, ...records] = tableOf(report, table);
          expect(new Set(header).size).toBe(header!.length);
          for (const record of records) expect(record).toHaveLength(header!.length);
        }
        const names = new Set(
          tableOf(report, "students")
            .slice(1)
            .map(([name]) => name!.replace(/^'/, "")),
        );
        expect(names).toEqual(new Set(pupils.map(({ student }) => masked(student))));
      }),
      { numRuns: 15 },
    );
  });

  test("gives names back as they were, except that no spreadsheet takes one for a formula", () => {
    const name = fc.oneof(
      fc.string({ unit: "binary", minLength: 1, maxLength: 40 }),
      fc.string({ unit: fc.constantFrom(..."=+-@\t\r\n\" ,';1A＝＋－＠"), minLength: 1, maxLength: 12 }),
    );
    fc.assert(
      fc.property(name, (student) => {
        const report = reportOf([pupilOf("tern", [])], { at: NOW });
        const renamed = { ...report, students: report.students.map((one) => ({ ...one, student })) };
        const [, record] = tableOf(renamed, "students");
        const [found] = record!;
        expect([masked(student), `'${masked(student)}`]).toContain(found);
        expect(found!).not.toMatch(/^[\s·]*[=+\-@＝＋－＠]/);
      }),
      {
        numRuns: 500,
        examples: [
          ["=cmd|' /C calc'!A0"],
          [" =1+1"],
          ["@SUM(A1)"],
          ['"=1"'],
          ["-2"],
          ["\r=1"],
          ["\u200b=1"],
          ["\u001b[2J"],
        ],
      },
    );
  });

  test("leaves numbers numbers: a negative drift is no formula", () => {
    const drift = [
      {
        length: "1 bar",
        told: "each silence" as const,
        takes: 1,
        measured: 1,
        unmeasured: 0,
        weeks: [
          {
            week: "2026-03-02",
            takes: 1,
            measured: 1,
            unmeasured: 0,
            driftMs: { median: -38, low: -38, high: -38 },
            driftPercent: { median: -1.6, low: -1.6, high: -1.6 },
            landings: { measured: 3, ms: { median: -12, low: -40, high: 5 } },
          },
          { week: "2026-03-09", takes: 1, measured: 0, unmeasured: 1 },
        ],
      },
    ];
    const report: Report = { version: 2, at: NOW, students: [], courses: [], drift };
    expect([...reportCsv(report, "drift")].join("")).toBe(
      "silence,told,week,takes,measured,unmeasured,drift_late_ms_median,drift_late_ms_low,drift_late_ms_high,drift_slow_percent_median,drift_slow_percent_low,drift_slow_percent_high,landings,landing_late_ms_median,landing_late_ms_low,landing_late_ms_high\r\n" +
        "1 bar,each silence,2026-03-02,1,1,0,-38,-38,-38,-1.6,-1.6,-1.6,3,-12,-40,5\r\n" +
        "1 bar,each silence,2026-03-09,1,0,1,,,,,,,0,,,\r\n",
    );
  });
});
