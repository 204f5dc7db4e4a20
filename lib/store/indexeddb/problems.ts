import type { Problem } from "../../base/index.js";
import { type StoreCode, storeProblem } from "../codes.js";

/** The problem for an error of IndexedDB (Indexed Database API 3.0, section 3), for the database of this name. */
export function indexedDbProblem(name: string, error: unknown): Problem<StoreCode> {
  const code = error instanceof Error || isNamed(error) ? error.name : "";
  const says = error instanceof Error ? error.message : String(error);
  const at = `the store ${name} of this browser`;
  if (code === "QuotaExceededError")
    return storeProblem(
      "STORE_FULL",
      `${at} cannot be written: the browser gives no more room`,
      {},
      "export what is here, make room on the device, and try again: nothing was half written",
    );
  if (code === "VersionError")
    return storeProblem(
      "STORE_VERSION_NEWER",
      `${at} was written by a newer version of this page`,
      {},
      "close all tabs of this page and open it again",
    );
  if (code === "SecurityError" || code === "UnknownError" || code === "InvalidStateError")
    return storeProblem(
      "STORE_PLACE_UNUSABLE",
      `${at} cannot be opened (${code}): private windows of some browsers keep nothing`,
      {},
      "use a window that is not private, and allow this page to keep data",
    );
  return storeProblem("STORE_FAILED", `${at}: ${says}${code === "" ? "" : ` (${code})`}`);
}

/** Whether the connection was lost and a new one may work: browsers close connections of pages that slept. */
export function isLost(error: unknown): boolean {
  return isNamed(error) && (error.name === "InvalidStateError" || error.name === "AbortError");
}

function isNamed(error: unknown): error is { readonly name: string } {
  return typeof error === "object" && error !== null && "name" in error;
}
