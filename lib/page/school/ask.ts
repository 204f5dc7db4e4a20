import type { Problem } from "../../base/index.js";

/** An answer of the school: what it says, or why there is none. */
export type Asked<Value> =
  | { readonly ok: true; readonly value: Value; readonly tag: string | undefined }
  | { readonly ok: false; readonly refusal: Refusal };

/** Why the school did not do what was asked. */
export interface Refusal {
  /** HTTP status; 0: the school was not reached. */
  readonly status: number;
  /** Stable name of the cause; empty when the school was not reached, or did not say. */
  readonly code: string;
  readonly problems: readonly Problem[];
  /** Seconds to wait, where the school said so. */
  readonly wait: number | undefined;
}

export interface Asking {
  readonly method?: "GET" | "POST" | "PUT" | "DELETE";
  /** Sent as JSON. */
  readonly body?: unknown;
  /** Entity tag of what the change rests on. */
  readonly match?: string | undefined;
}

/** Milliseconds after which an answer is not waited for any more: longer than the server's own patience. */
const PATIENCE_MS = 40_000;

/** Asks the school that this page came from, as whoever is signed in. Never rejects. */
export async function ask<Value>(path: string, { method = "GET", body, match }: Asking = {}): Promise<Asked<Value>> {
  try {
    const answer = await fetch(path, {
      method,
      credentials: "same-origin",
      signal: AbortSignal.timeout(PATIENCE_MS),
      headers: {
        ...(body === undefined ? {} : { "content-type": "application/json" }),
        ...(match === undefined ? {} : { "if-match": match }),
      },
      ...(body === undefined ? {} : { body: JSON.stringify(body) }),
    });
    const type = answer.headers.get("content-type") ?? "";
    const value: unknown = type.includes("json") && !type.includes("jsonl") ? await answer.json() : await answer.text();
    if (answer.ok) return { ok: true, value: value as Value, tag: answer.headers.get("etag") ?? undefined };
    const said = (typeof value === "object" ? value : {}) as Partial<Pick<Refusal, "code" | "problems">>;
    const wait = Number(answer.headers.get("retry-after") ?? Number.NaN);
    return {
      ok: false,
      refusal: {
        status: answer.status,
        code: said.code ?? "",
        problems: said.problems ?? [],
        wait: Number.isFinite(wait) ? wait : undefined,
      },
    };
  } catch {
    // No network, no server, or no answer in time.
    return { ok: false, refusal: { status: 0, code: "", problems: [], wait: undefined } };
  }
}

/** A path of the school, its variable parts escaped: at("classes", "monday", "report"). */
export function at(...parts: readonly string[]): string {
  return `/api/${parts.map(encodeURIComponent).join("/")}`;
}
