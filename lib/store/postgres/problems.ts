import type { Problem } from "../../base/index.js";
import { type StoreCode, storeProblem } from "../codes.js";

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
  const says = `${place}: ${textOf(error)}${code === "" ? "" : ` (${code})`}`;
  if (CONFLICT.test(code) || code === "55P03") return storeProblem("STORE_BUSY", says, {}, "try again");
  if (GONE.test(code) || code === "ENOTFOUND" || CUT.test(textOf(error)))
    return storeProblem("STORE_UNREACHABLE", says, {}, "check the address and that the server is running");
  if (/^28...$/.test(code) || code === "3D000")
    return storeProblem("STORE_UNREACHABLE", says, {}, "check user, password and the name of the database");
  if (code === "53100" || code === "53200") return storeProblem("STORE_FULL", says, {}, "make room on the server");
  if (code === "25006") return storeProblem("STORE_READ_ONLY", says, {}, "connect to a server that may be written");
  if (/^42501$/.test(code))
    return storeProblem("STORE_PLACE_UNUSABLE", says, {}, "let the user make and use tables in this database");
  if (/^XX00[12]$/.test(code)) return storeProblem("STORE_DAMAGED", says, {}, "restore a backup of the server");
  return storeProblem("STORE_FAILED", says);
}

/** The SQLSTATE of an error of the server, or the code of a socket's; empty for others. */
export function codeOf(error: unknown): string {
  return error instanceof Error && "code" in error ? String(error.code) : "";
}

function textOf(error: unknown): string {
  if (error instanceof AggregateError) return error.errors.map(textOf).join("; ");
  return error instanceof Error ? error.message : String(error);
}
