import { existsSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { expect, test, vi } from "vitest";
import { openSqlite } from "../../lib/store/sqlite/index.js";

vi.mock("better-sqlite3", () => {
  throw new Error("Could not locate the bindings file");
});

vi.mock("../../lib/store/sqlite/nodeDriver.js", () => ({ nodeDriver: () => undefined }));

test("openSqlite() says how to install the driver when it is not there, and makes no file", async () => {
  const path = join(tmpdir(), `leeway-driver-${process.pid}.sqlite`);
  const store = await openSqlite(path, { create: true });
  expect(store).toMatchObject({
    ok: false,
    problems: [{ code: "STORE_DRIVER_MISSING", remedy: expect.stringContaining("npm install better-sqlite3") }],
  });
  expect(existsSync(path)).toBe(false);
});
