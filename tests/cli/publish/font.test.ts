import { existsSync, writeFileSync } from "node:fs";
import { describe, expect, test } from "vitest";
import { openCourse } from "../../../lib/cli/input/courseFile.js";
import { openPublishFolder } from "../../../lib/cli/publish/folder.js";
import { publishPaper } from "../../../lib/cli/publish/paper.js";
import { publishPlan } from "../../../lib/cli/publish/plan.js";
import { openEngraver } from "../../../lib/cli/render/sheets.js";
import { loadWords } from "../../../lib/words/index.js";
import { useFolder } from "../said.js";
import { COURSE } from "./published.js";

// It has letters that the typefaces of the package lack: Armenian among them.
const FONT = "/usr/share/fonts/truetype/dejavu/DejaVuSans.ttf";
if (!existsSync(FONT)) console.log(`SKIPPED: sheets with a font of one's own, as ${FONT} is not installed`);

useFolder("leeway-publish-font-");

describe.runIf(existsSync(FONT))("publish --font", () => {
  test("prints letters that the typefaces of the package lack, and makes sheets anew when the font is another", async () => {
    writeFileSync("course.yaml", COURSE.replace('title: "Gehen & <Landen>"', "title: Քայլ առ քայլ"));
    const course = openCourse("course.yaml", new Map());
    const words = await loadWords("en");
    if (!course.ok || !words.ok) throw new Error("not opened");
    const printed = async (font: string | undefined) => {
      const asked = { as: ["mp3"], out: "out", paper: "a4", ...(font !== undefined && { font }) } as const;
      const plan = publishPlan(course.value, { file: "course.yaml", sum: "", address: undefined }, asked);
      const folder = await openPublishFolder("out");
      if (!plan.ok || !folder.ok) throw new Error("not planned");
      const { signal } = new AbortController();
      const made = await publishPaper(folder.value, plan.value, { words: words.value, signal, engraver: openEngraver });
      if (!made.ok) throw new Error(made.problems[0]!.message);
      return { codes: new Set(made.advice.map(({ code }) => code)), kept: folder.value.count.kept, files: made.value };
    };
    const none = await printed(undefined);
    expect(none.codes).toEqual(new Set(["LETTER_WITHOUT_GLYPH"]));
    const own = await printed(FONT);
    expect(own.codes).toEqual(new Set());
    const sheets = ({ files }: typeof own): readonly string[] =>
      files.filter(({ kind }) => kind === "sheet").map(({ sha256 }) => sha256);
    expect(sheets(own).length).toBeGreaterThan(1);
    // Its letters are drawn: no sheet is as it was without them.
    expect(sheets(own).filter((sum) => sheets(none).includes(sum))).toEqual([]);
    const again = await printed(FONT);
    expect(again.files.map(({ sha256 }) => sha256)).toEqual(own.files.map(({ sha256 }) => sha256));
  });

  test("a font that is not there stops before anything is made", async () => {
    writeFileSync("course.yaml", COURSE);
    const course = openCourse("course.yaml", new Map());
    const words = await loadWords("en");
    if (!course.ok || !words.ok) throw new Error("not opened");
    const asked = { as: ["mp3"], out: "none", paper: "a4", font: "none.ttf" } as const;
    const plan = publishPlan(course.value, { file: "course.yaml", sum: "", address: undefined }, asked);
    const folder = await openPublishFolder("none");
    if (!plan.ok || !folder.ok) throw new Error("not planned");
    const { signal } = new AbortController();
    const made = await publishPaper(folder.value, plan.value, { words: words.value, signal, engraver: openEngraver });
    expect(made).toMatchObject({ ok: false, problems: [{ code: "INPUT_NOT_FOUND" }] });
  });
});
