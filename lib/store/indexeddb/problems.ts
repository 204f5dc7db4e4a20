import type { Problem } from "../../base/index.js";
import { type StoreCode, storeProblem } from "../codes.js";
import { sayProblem } from "../say.js";

/** The problem for an error of IndexedDB (Indexed Database API 3.0, section 3), for the database of this name. */
export function indexedDbProblem(place: string, error: unknown): Problem<StoreCode> {
  const name = isNamed(error) ? error.name : "";
  const said = error instanceof Error ? error.message : String(error);
  if (name === "QuotaExceededError")
    return storeProblem(
      "STORE_FULL",
      sayProblem("store-problem.browser-full", { place }),
      {},
      sayProblem("store-problem.browser-full-remedy"),
    );
  if (name === "VersionError")
    return storeProblem(
      "STORE_VERSION_NEWER",
      sayProblem("store-problem.browser-version-newer", { place }),
      {},
      sayProblem("store-problem.browser-version-newer-remedy"),
    );
  if (name === "SecurityError" || name === "UnknownError" || name === "InvalidStateError")
    return storeProblem(
      "STORE_PLACE_UNUSABLE",
      sayProblem("store-problem.browser-place-unusable", { place, error: name }),
      {},
      sayProblem("store-problem.browser-place-unusable-remedy"),
    );
  const coded = name === "" ? "bare" : "coded";
  return storeProblem("STORE_FAILED", sayProblem("store-problem.store-failed", { place, said, coded, error: name }));
}

/** Whether the connection was lost and a new one may work: browsers close connections of pages that slept. */
export function isLost(error: unknown): boolean {
  return isNamed(error) && (error.name === "InvalidStateError" || error.name === "AbortError");
}

function isNamed(error: unknown): error is { readonly name: string } {
  return typeof error === "object" && error !== null && "name" in error;
}
