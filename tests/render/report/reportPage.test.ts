import { XmlDocument } from "libxml2-wasm";
import { describe, expect, test } from "vitest";
import { driftChart, placesChart, reportChart } from "../../../lib/render/chart/index.js";
import { reportPage } from "../../../lib/render/report/index.js";
import { openReport } from "../../../lib/report/index.js";
import type { Report } from "../../../lib/schema/index.js";
import { timeOf } from "../../progress/course.js";
import { FIRST, letteringOf, termOf } from "../chart/material.js";

const HOSTILE = `<script>alert("1")</script>&'\u0000\u202e\ud800]]><img src=x onerror=y> ${"quay".repeat(60)}`;
const NOW = timeOf(86_400 * 80);

function reportOf(student: string, takes = 120, within = 0.7): Report {
  const report = openReport({ at: NOW });
  report.add({ student, curriculum: FIRST.name, events: termOf(takes, within), courseOf: () => FIRST });
  return report.close();
}

/** The report with every text a person or a file gave replaced. */
function spoilt(report: Report, name: string): Report {
  return JSON.parse(JSON.stringify(report), (key, value: unknown) =>
    ["student", "drill", "title", "curriculum", "rung", "length", "edition"].includes(key) ? name : value,
  ) as Report;
}

/** Marks of an element by name, comments and text left out. */
const tagsIn = (page: string): readonly string[] => [...page.matchAll(/<([a-z][a-z0-9]*)\b/gi)].map(([, tag]) => tag!);

describe("reportPage()", () => {
  test("is a page of its own: no script, nothing fetched, a policy that forbids both", () => {
    const page = reportPage(reportOf("tern"), { climbs: [{ course: FIRST, events: termOf(120) }] });
    expect(page).toMatch(/^<!doctype html>\n<html lang="en">/);
    expect(tagsIn(page)).not.toContain("script");
    expect(page).not.toMatch(/\b(?:src|href|action|on\w+)\s*=|@import|url\(/i);
    expect(page).toContain(`content="default-src 'none'; style-src 'unsafe-inline'"`);
    // Each chart once for phones and once for everything else.
    expect(page.split("<svg ").length - 1).toBe(4);
  });

  test("escapes whatever names there are: hostile ones bring no element with them", () => {
    const plain = tagsIn(reportPage(spoilt(reportOf("tern", 40, 0.2), "x")));
    const page = reportPage(spoilt(reportOf("tern", 40, 0.2), HOSTILE));
    expect(new Set(tagsIn(page))).toEqual(new Set(plain));
    expect(page).toContain("&lt;script&gt;alert(&quot;1&quot;)&lt;/script&gt;&amp;&#39;···]]&gt;");
    expect(page).not.toMatch(/[\u0000\u202e]/);
  });

  test("has every student, and says who is stuck and on what in words", () => {
    const report = openReport({ at: NOW });
    const names = ["tern", "gull", "knot"];
    for (const student of names) {
      const events = termOf(60, 0.05).map((event) => ({ ...event, student }));
      report.add({ student, curriculum: FIRST.name, events, courseOf: () => FIRST });
    }
    const page = reportPage(report.close());
    for (const name of names) expect(page.split(`<tr><td><bdi>${name}</bdi>`).length - 1).toBe(1);
    expect(page).toMatch(/<div class="stuck"><strong><bdi>gull<\/bdi>.*?<li>[^<]+takes/s);
  });

  test("has the landings after silences of each length, week by week, with their side", () => {
    const driftMs = { median: 0, low: 0, high: 0 };
    const figures = { takes: 2, measured: 3, unmeasured: 0, driftMs, driftPercent: driftMs };
    const ms = { median: -12, low: -40, high: 5 };
    const weeks = [
      { week: "2026-03-02", ...figures, landings: { measured: 3, ms } },
      { week: "2026-03-09", ...figures },
    ];
    const drift = [{ length: "1 bar", told: "each silence" as const, ...figures, weeks }];
    const page = reportPage({ version: 2, at: NOW, students: [], courses: [], drift });
    expect(page).toContain("<th>Landing</th>");
    const cells = Array.from(page.matchAll(/<td data-is="landing">([^<]*)<\/td>/g), ([, cell]) => cell);
    expect(cells).toEqual(["12 ms early (40 to 5 late)", "unmeasured"]);
  });

  test("is written for nobody, too", () => {
    expect(reportPage({ version: 2, at: NOW, students: [], courses: [], drift: [] })).toContain(
      "Nobody is enrolled yet.",
    );
  });
});

describe("charts of a report", () => {
  const hostile = spoilt(reportOf("tern", 60, 0.2), HOSTILE);

  test.each([
    ["placesChart", placesChart(hostile, { width: 360 })],
    ["driftChart", driftChart(hostile, { width: 360 })],
    ["reportChart", reportChart(hostile, { width: 360 })],
  ])("%s stays well-formed and keeps its lettering inside when all names are hostile", (_name, svg) => {
    expect(tagsIn(svg)).not.toContain("script");
    XmlDocument.fromString(svg).dispose();
    for (const { left, right } of letteringOf(svg)) {
      expect(left).toBeGreaterThanOrEqual(0);
      expect(right).toBeLessThanOrEqual(360);
    }
  });

  test("tell somebody who is stuck apart by shape, with every colour taken away", () => {
    const stuck = reportOf("tern", 60, 0.05);
    const free = spoilt(stuck, "x");
    const going: Report = {
      ...free,
      courses: free.courses.map((course) => ({
        ...course,
        drills: course.drills.map((drill) => ({ ...drill, places: drill.places.map((at) => ({ ...at, stuck: 0 })) })),
      })),
    };
    const shapes = (report: Report): readonly string[] =>
      [...placesChart(report).matchAll(/<rect [^>]*>/g)].map(([rect]) => rect.replaceAll(/#[0-9a-f]{6}/g, "grey"));
    expect(shapes(free)).not.toEqual(shapes(going));
    expect(shapes(free).some((rect) => rect.includes("stroke="))).toBe(true);
    expect(shapes(going).some((rect) => rect.includes("stroke="))).toBe(false);
  });
});
