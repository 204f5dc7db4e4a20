import type { StoreCode, StoreProblem } from "../../../store/index.js";

/** The fault of a browser's database as a store tells of it. */
export function shelfProblem(cause: unknown): StoreProblem {
  const isFull = cause instanceof DOMException && cause.name === "QuotaExceededError";
  const code: StoreCode = isFull ? "STORE_FULL" : "STORE_FAILED";
  const message = isFull ? "the browser has no room left for this page" : `the browser's database refused (${cause})`;
  const remedy = "make room on the device, or save your journal as a file; then try again";
  return Object.assign(new Error(message, { cause }), {
    problem: { code, severity: "error" as const, message, where: {}, remedy },
  });
}
