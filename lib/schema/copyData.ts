import { failure, problemsOf, type Result, success, type Worded } from "../base/index.js";
import { schemaCodes } from "./codes.js";
import { pointerTo } from "./pointer.js";
import { say } from "./say.js";

const problem = problemsOf(schemaCodes);

/** Largest number of nested levels: our choice, because our documents need at most 12. */
const DEEPEST = 64;

/** A copy of plain data: what JSON can hold, and numbers that are not finite (validators refuse those with a better message). Problems: TOO_DEEP, NOT_DATA. */
export function copyData(value: unknown): Result<unknown> {
  const path: (string | number)[] = [];
  const refused = (code: "TOO_DEEP" | "NOT_DATA", message: Worded): Refusal =>
    new Refusal(failure(problem(code, message, { pointer: pointerTo(path) })));
  const copied = (piece: unknown): unknown => {
    if (piece === null || ["string", "number", "boolean"].includes(typeof piece)) return piece;
    if (typeof piece !== "object") throw refused("NOT_DATA", say("schema-problem.not-data", { type: typeof piece }));
    if (path.length >= DEEPEST) throw refused("TOO_DEEP", say("schema-problem.too-deep", { levels: DEEPEST }));
    if (Array.isArray(piece)) return Array.from(piece, (item, i) => entry(i, item === undefined ? null : item));
    if (Object.prototype.toString.call(piece) !== "[object Object]")
      throw refused("NOT_DATA", say("schema-problem.not-data-object"));
    const copy: Record<string, unknown> = {};
    for (const [key, held] of Object.entries(piece)) {
      if (held === undefined) continue;
      // Defined, not assigned, so that a key named __proto__ stays an ordinary key.
      Object.defineProperty(copy, key, {
        configurable: true,
        enumerable: true,
        value: entry(key, held),
        writable: true,
      });
    }
    return copy;
  };
  const entry = (key: string | number, held: unknown): unknown => {
    path.push(key);
    const copy = copied(held);
    path.pop();
    return copy;
  };
  try {
    return success(copied(value));
  } catch (error) {
    if (error instanceof Refusal) return error.failure;
    throw error;
  }
}

/** Thrown to leave the recursion with the problem found. */
class Refusal extends Error {
  constructor(readonly failure: Result<never>) {
    super();
  }
}
