import { expect, test, vi } from "vitest";
import { renderSheet } from "../../../lib/render/sheet/index.js";
import { courseFrom, courseText } from "../../curriculum/courses.js";

vi.mock("../../../lib/base/ifInstalled.js", () => ({ ifInstalled: async () => undefined }));

test("renderSheet() names the packages to install when they are not there", async () => {
  const [drill] = courseFrom(courseText()).drills;
  const sheet = await renderSheet(drill!, undefined, {} as never);
  expect(sheet).toMatchObject({
    ok: false,
    problems: [{ code: "SHEET_PACKAGE_MISSING", remedy: "npm install fontkit pdfkit" }],
  });
});
