import type { Problem } from "../../base/index.js";
import { type StoreCode, storeProblem } from "../codes.js";
import { sayProblem } from "../say.js";

/** Classes and codes of SQLSTATE (PostgreSQL manual, appendix A) and of sockets that mean that the server is gone or not started yet. */
const GONE = /^(?:08...|57P0[123]|ECONNREFUSED|ECONNRESET|EPIPE|ETIMEDOUT|ENOENT|EAI_AGAIN)$/;
/** Conflict with another transaction: 40001 serialization failure, 40P01 deadlock. */
const CONFLICT = /^40(?:001|P01)$/;
/** Messages of the driver, without a code, when a connection is lost. */
const CUT = /Connection terminated|timeout exceeded when trying to connect|Client has encountered a connection error/;

/** Whether a retry may succeed. */
export function isTransient(error: unknown): boolean {
  return GONE.test(codeOf(error)) || CONFLICT.test(codeOf(error)) || CUT.test(textOf(error));
}

/** The problem for an error of the server or of the connection, for the store at this place. */
export function postgresProblem(place: string, error: unknown): Problem<StoreCode> {
  const code = codeOf(error);
  const said = textOf(error);
  const message = sayProblem("store-problem.server", {
    place,
    said,
    coded: code === "" ? "bare" : "coded",
    error: code,
  });
  const [kind, remedy] = kindOf(code, said);
  return storeProblem(kind, message, {}, remedy && sayProblem(`store-problem.server-${remedy}-remedy`));
}

function kindOf(code: string, said: string): readonly [StoreCode, Remedy?] {
  if (CONFLICT.test(code) || code === "55P03") return ["STORE_BUSY", "busy"];
  if (GONE.test(code) || code === "ENOTFOUND" || CUT.test(said)) return ["STORE_UNREACHABLE", "unreachable"];
  if (/^28...$/.test(code) || code === "3D000") return ["STORE_UNREACHABLE", "refuses"];
  if (code === "53100" || code === "53200") return ["STORE_FULL", "full"];
  if (code === "25006") return ["STORE_READ_ONLY", "read-only"];
  if (/^42501$/.test(code)) return ["STORE_PLACE_UNUSABLE", "place-unusable"];
  if (/^XX00[12]$/.test(code)) return ["STORE_DAMAGED", "damaged"];
  return ["STORE_FAILED"];
}

type Remedy = "busy" | "unreachable" | "refuses" | "full" | "read-only" | "place-unusable" | "damaged";

/** The SQLSTATE of an error of the server, or the code of a socket's; empty for others. */
export function codeOf(error: unknown): string {
  return error instanceof Error && "code" in error ? String(error.code) : "";
}

function textOf(error: unknown): string {
  if (error instanceof AggregateError) return error.errors.map(textOf).join("; ");
  return error instanceof Error ? error.message : String(error);
}
