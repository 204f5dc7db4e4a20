import type { Result } from "../../lib/base/index.js";

/** The value of a result that must succeed; for programs that run outside the test runner as well. */
export function valueIn<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.problems.map(({ code, message }) => `${code}: ${message}`).join("\n"));
  return result.value;
}
