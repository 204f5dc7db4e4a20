import { existsSync, readdirSync, readFileSync, statSync } from "node:fs";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { describe, expect, test } from "vitest";
import { failure } from "../../../lib/base/index.js";
import { coursesWithRiffs } from "../../../lib/cli/page/courseRiffs.js";
import { engraveRiffs } from "../../../lib/cli/page/engraveRiffs.js";
import { pageParts } from "../../../lib/cli/page/pageParts.js";
import { openCourse } from "../../../lib/curriculum/index.js";
import { serveFiles } from "../../../lib/node/index.js";
import { builtEntry } from "../../built.js";
import { FONTS, SHIPPED } from "../../render/sheet/material.js";
import { ROOT } from "../../sources.js";
import { markedWords } from "../../words/marked.js";
import { saidBy, useFolder } from "../said.js";

const folder = useFolder("leeway-page-");
const WORDS = markedWords();
const COURSE = join(ROOT, "curricula/quayside-first-course.yaml");

describe("leeway page", () => {
  test("writes a folder that holds the course, its sheets for each reader, and what keeps it for when there is no network", async () => {
    builtEntry();
    const said = await saidBy(["page", COURSE, "--out", "site", "--json"]);
    expect(said.err).toBe("");
    const { files } = JSON.parse(said.out) as { files: readonly string[] };
    for (const path of files) expect(statSync(join(folder, "site", path)).size).toBeGreaterThan(0);
    const index = JSON.parse(readFileSync(join(folder, "site/page.json"), "utf8"));
    const opened = openCourse(readFileSync(join(folder, "site", index.courses[0].file), "utf8"));
    if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
    const sheets = JSON.parse(readFileSync(join(folder, "site", index.courses[0].sheets), "utf8"));
    for (const drill of opened.value.drills)
      expect(Object.keys(sheets[drill.name])).toEqual([
        ...drill.players.map(({ instrument }) => instrument.name),
        "concert pitch",
      ]);
    expect(files).toContain("service-worker.js");
  });

  test("writes one file with --single", async () => {
    const said = await saidBy(["page", COURSE, "--single", "--out", "hand-out.html"]);
    expect(said.status).toBe(0);
    expect(readFileSync(join(folder, "hand-out.html"), "utf8")).toContain("<title>Quayside first course</title>");
  });

  test("asks where the page is to go", async () => {
    const said = await saidBy(["page", COURSE]);
    expect(said).toMatchObject({ status: 2, err: expect.stringContaining("--out") });
  });

  test("says when its port is taken", async () => {
    const other = await serveFiles(new Map());
    const { port } = new URL(other.address);
    const said = await saidBy(["page", "--open", "--port", port]);
    await other.close();
    expect(said.status).toBe(1);
    expect(said.err).toBe(
      `PORT_NOT_OPENED  port ${port} of this machine is taken by another program\n    -> leave --port out to have any that is free, or name another from 1024 on\n`,
    );
  });

  test("refuses two courses of one name, which students could not be told apart by", async () => {
    const said = await saidBy(["page", COURSE, COURSE, "--out", "twice", "--json"]);
    expect(JSON.parse(said.out).problems[0].code).toBe("PAGE_COURSE_TWICE");
    expect(existsSync(join(folder, "twice"))).toBe(false);
  });

  test("says what to do where the scripts of the page are not built", async () => {
    const parts = await pageParts("en", pathToFileURL(join(folder, "page.json.br")));
    expect(parts.ok ? [] : parts.problems).toMatchObject([{ code: "PAGE_PARTS_MISSING", remedy: "run npm run build" }]);
  });

  test("makes a page without notes, and says so, where the engraver is not installed", async () => {
    const without = await coursesWithRiffs(SHIPPED, { engraver: failure(), fonts: FONTS, words: WORDS });
    expect(without.problems).toMatchObject([{ code: "PAGE_WITHOUT_SHEETS", severity: "advice" }]);
    expect(without.courses.map(({ sheets }) => sheets)).toEqual(SHIPPED.map(() => undefined));
  });

  test("goes on without a riff that cannot be engraved, and tells why", async () => {
    const problem = { code: "ENGRAVING_FAILED", severity: "error", message: "no", where: {} } as const;
    const riffs = await engraveRiffs(SHIPPED[0]!, {
      engraver: { engrave: () => failure(problem) },
      fonts: FONTS,
      words: WORDS,
    });
    expect(riffs.sheets).toEqual([]);
    expect(new Set(riffs.problems.map(({ code }) => code))).toEqual(new Set(["ENGRAVING_FAILED"]));
  });
});

describe("serveFiles()", () => {
  test("answers with the files it was given and nothing else, on loopback alone", async () => {
    const serving = await serveFiles(new Map([["index.html", new TextEncoder().encode("<p>page</p>")]]));
    expect(new URL(serving.address).hostname).toBe("127.0.0.1");
    const page = await fetch(serving.address);
    expect([page.status, await page.text(), page.headers.get("content-type")]).toEqual([
      200,
      "<p>page</p>",
      "text/html; charset=utf-8",
    ]);
    for (const path of ["other.html", "..%2f..%2fetc/passwd", "%E0%A4%A", "constructor"])
      expect((await fetch(`${serving.address}${path}`)).status).toBe(404);
    expect((await fetch(serving.address, { method: "POST" })).status).toBe(405);
    await serving.close();
    expect(readdirSync(folder)).not.toContain("index.html");
  });
});
