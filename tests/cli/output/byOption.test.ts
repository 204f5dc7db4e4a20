import { expect, test } from "vitest";
import { problemsIn } from "../../../lib/base/index.js";
import { byOption } from "../../../lib/cli/output/byOption.js";
import { enrol, findJournal } from "../../../lib/practice/index.js";
import { memoryStore } from "../../../lib/store/index.js";
import { quay } from "../../practice/quay.js";
import { timeOf } from "../../progress/course.js";
import { expectWorded } from "../../words/problemWords.js";

test("the option of the command line stands beside the remedy of the library, in words too", async () => {
  const store = memoryStore();
  await enrol(store, "tern", { course: quay(), at: timeOf(0) });
  await enrol(store, "tern", { course: { ...quay(), name: "pier" }, at: timeOf(0) });
  const [problem] = problemsIn(await findJournal(store, "tern"));
  expect(problem).toMatchObject({ code: "COURSE_NOT_CHOSEN", remedy: "name the course" });
  expect(byOption(problem!).remedy).toBe("name the course (--course)");
  expect(expectWorded(byOption(problem!))).toContain("--course");
});

test("a problem that no option mends stays as it is", () => {
  const problem = { code: "INPUT_NOT_FOUND", severity: "error", message: "", where: {}, remedy: "look" } as const;
  expect(byOption(problem)).toBe(problem);
});
