import { createHash } from "node:crypto";
import { readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { describe, expect, test } from "vitest";
import { writing } from "../pages/writing.js";
import { ROOT } from "../sources.js";
import { doorReports } from "./doorReports.js";

const nameOf = (door: string): string => `${door.replace(/^\.$/, "leeway").replace("./", "").replaceAll("/", "-")}.txt`;

describe("what applications can import", () => {
  const reports = doorReports();
  const written = readdirSync(import.meta.dirname).filter((name) => name.endsWith(".txt"));

  test("is as it was, door by door", () => {
    if (writing) {
      for (const name of written) rmSync(join(import.meta.dirname, name));
      for (const [door, report] of reports) writeFileSync(join(import.meta.dirname, nameOf(door)), report);
    } else {
      expect(written.toSorted()).toEqual([...reports.keys()].map(nameOf).toSorted());
      for (const [door, report] of reports)
        expect(report, door).toBe(readFileSync(join(import.meta.dirname, nameOf(door)), "utf8"));
    }
  });

  test("has not changed without a look at the list of changes, which says of which doors it speaks", () => {
    const digest = createHash("sha256")
      .update([...reports.values()].join(""))
      .digest("hex")
      .slice(0, 12);
    const page = readFileSync(join(ROOT, "lib", "CHANGELOG.md"), "utf8");
    expect(/^Doors: `([0-9a-f]+)`$/m.exec(page)?.[1], "say what changed under Unreleased, and there write Doors").toBe(
      digest,
    );
  });
});
