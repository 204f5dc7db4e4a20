import { expect, test } from "vitest";
import { writeProblem } from "../../lib/node/fileProblem.js";

test.each([
  ["ENOSPC", "OUTPUT_DISK_FULL"],
  ["EDQUOT", "OUTPUT_DISK_FULL"],
  ["EFBIG", "OUTPUT_DISK_FULL"],
  ["EACCES", "OUTPUT_NOT_ALLOWED"],
  ["EROFS", "OUTPUT_NOT_ALLOWED"],
  ["ENOENT", "OUTPUT_FOLDER_MISSING"],
  ["ENOTDIR", "OUTPUT_NAME_TAKEN"],
  ["EISDIR", "OUTPUT_NAME_TAKEN"],
  ["EIO", "OUTPUT_NOT_WRITTEN"],
])("the system's %s is %s, with the file and the system's word for it", (system, code) => {
  const problem = writeProblem("out/a.wav", Object.assign(new Error("no"), { code: system }));
  expect(problem).toMatchObject({ code, severity: "error", where: { file: "out/a.wav" } });
  if (system !== "ENOENT") expect(problem.message).toContain(system);
});

test("an error without a code is OUTPUT_NOT_WRITTEN, in its own words", () => {
  expect(writeProblem("a.wav", new Error("the cable is out"))).toMatchObject({
    code: "OUTPUT_NOT_WRITTEN",
    message: "cannot be written (the cable is out)",
  });
});
