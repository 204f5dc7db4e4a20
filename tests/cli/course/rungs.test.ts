import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, test } from "vitest";
import { saidBy } from "../said.js";

const folder = mkdtempSync(join(tmpdir(), "leeway-rungs-"));
afterAll(() => rmSync(folder, { force: true, recursive: true }));

const COURSE = `curriculum: open-quay
edition: 1.0.0
title: Open quay
patterns:
  mooring:
    meter: 4/4
    bars: 2
    key: D minor
    parts: { kit: { voices: { hat: "x-x-x-x- | same" } }, lead: { notes: "1/4 D4 F4 G4 F4 | D4 A4 G4 F4" } }
drills:
  away:
    pattern: mooring
    student: lead
    open: { bars: [2], scale: D minor pentatonic }
    dropout: {}
    ladders: [{ dropout: [1/2 bar, 1 bar, 1 1/2 bars] }]
    tempo: 90
    tolerance: { drift: 8 %, landing: 150 ms }
`;

test("leeway rungs shows where a silence lies under an open bar, column by column", async () => {
  const file = join(folder, "open.yaml");
  writeFileSync(file, COURSE);
  const { out, status } = await saidBy(["rungs", file, "away"]);
  expect(status).toBe(0);
  const rows = out.split("\n").slice(1, 7);
  const strips = rows.filter((_, i) => i % 2 === 0);
  expect(strips.map((row) => row.slice(row.indexOf("│"), row.lastIndexOf("│") + 1))).toEqual([
    "│━━━━│━━··│",
    "│━━━━│····│",
    "│━━··│····│",
  ]);
  // The four beats of bar 2 are open on every rung, whatever is silent there.
  const from = strips[0]!.indexOf("│", strips[0]!.indexOf("│") + 1) + 1;
  for (const row of rows.filter((_, i) => i % 2 === 1)) expect(row).toBe(`${" ".repeat(from)}~~~~`);
});
