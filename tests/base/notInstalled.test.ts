import { expect, test } from "vitest";
import { notInstalled } from "../../lib/base/index.js";

/** An import that is refused with an error. */
const refused = (message: string, more: object = {}): Promise<number> =>
  Promise.reject(Object.assign(new Error(message), more));

test("an import that notInstalled() catches gives what is loaded, and undefined for a package that is not there", async () => {
  expect(await Promise.resolve(7).catch(notInstalled)).toBe(7);
  // The code Node gives (https://nodejs.org/api/errors.html#err_module_not_found).
  const missing = refused("Cannot find package", { code: "ERR_MODULE_NOT_FOUND" });
  expect(await missing.catch(notInstalled)).toBeUndefined();
  // Of Chromium, seen there.
  expect(await refused("Failed to resolve module specifier 'pg'").catch(notInstalled)).toBeUndefined();
});

test("it rejects for whatever else is wrong", async () => {
  await expect(refused("broken").catch(notInstalled)).rejects.toThrow("broken");
  await expect(refused("module specifier", { code: "ERR_OTHER" }).catch(notInstalled)).rejects.toThrow("specifier");
});
