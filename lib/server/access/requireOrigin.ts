import { failure, success } from "../../base/index.js";
import { serverProblem } from "../codes.js";
import type { Result } from "../problem.js";
import { sayProblem } from "../say.js";

/** Where a server is reached, and which other sites may ask it. */
export interface Addresses {
  /** Values of the header Host that are answered. */
  readonly hosts: ReadonlySet<string>;
  /** Origins of the server's own pages. */
  readonly own: ReadonlySet<string>;
  /** Origins of other sites whose scripts may ask with a token. */
  readonly allowed: ReadonlySet<string>;
}

/** Refuses requests for other hosts: a page of another site could otherwise reach the server under a name of its own. Problem: HOST_UNKNOWN. */
export function requireHost(headers: Headers, { hosts }: Addresses): Result<void> {
  if (hosts.has((headers.get("host") ?? "").toLowerCase())) return success(undefined);
  const message = sayProblem("server-problem.host-unknown");
  return failure(serverProblem("HOST_UNKNOWN", message, {}, sayProblem("server-problem.host-unknown-remedy")));
}

/**
 * Refuses what pages of other sites send. A change by a session must come from an own page and say so; any other request may say no origin, as
 * apps do, but none that is not let in. Problem: ORIGIN_FOREIGN.
 */
export function requireOrigin(
  headers: Headers,
  { isChange, isSession }: { readonly isChange: boolean; readonly isSession: boolean },
  { own, allowed }: Addresses,
): Result<void> {
  const origin = headers.get("origin") ?? undefined;
  const site = headers.get("sec-fetch-site");
  const isOwn = origin !== undefined && own.has(origin);
  const isLetIn = origin === undefined || isOwn || (allowed.has(origin) && !isSession);
  const isProven = !(isSession && isChange) || (isOwn && (site === null || site === "same-origin"));
  if (isLetIn && isProven) return success(undefined);
  const message = sayProblem("server-problem.origin-foreign");
  return failure(serverProblem("ORIGIN_FOREIGN", message, {}, sayProblem("server-problem.origin-foreign-remedy")));
}
