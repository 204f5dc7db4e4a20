import { expect, test } from "vitest";
import { ifInstalled } from "../../lib/base/index.js";

test("ifInstalled() gives what is loaded, and undefined for a package that is not there", async () => {
  expect(await ifInstalled(async () => 7)).toBe(7);
  // The code Node gives (https://nodejs.org/api/errors.html#err_module_not_found).
  const missing = Object.assign(new Error("Cannot find package"), { code: "ERR_MODULE_NOT_FOUND" });
  expect(await ifInstalled(() => Promise.reject(missing))).toBeUndefined();
});

test("ifInstalled() rejects for whatever else is wrong", async () => {
  await expect(ifInstalled(() => Promise.reject(new Error("broken")))).rejects.toThrow("broken");
});
