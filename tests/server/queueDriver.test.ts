import { expect, test, vi } from "vitest";
import { openHearingQueue } from "../../lib/server/index.js";

vi.mock("pg-boss", () => {
  throw new Error("Cannot find package 'pg-boss'");
});
// What the runner throws in place of that error has another text; `tests/base/notInstalled.test.ts` reads the errors of Node and of bundlers.
vi.mock("../../lib/base/notInstalled.js", () => ({ notInstalled: () => undefined }));

test("openHearingQueue() says what to install where there is no queue of jobs", async () => {
  expect(await openHearingQueue("postgresql://school@127.0.0.1:1/leeway")).toMatchObject({
    ok: false,
    problems: [{ code: "HEARING_QUEUE_DRIVER_MISSING", remedy: expect.stringContaining("pg-boss") }],
  });
});
