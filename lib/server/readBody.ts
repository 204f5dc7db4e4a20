import { failure, success } from "../base/index.js";
import { bodyTooLarge } from "./answer/bodyTooLarge.js";
import { serverProblem } from "./codes.js";
import type { Body } from "./model.js";
import type { BodyKind } from "./operations/model.js";
import type { Result } from "./problem.js";
import { sayProblem } from "./say.js";

/** A body as it came, and what kind of body the operation takes it for. */
export interface ReadBody {
  readonly body: Body;
  readonly kind: BodyKind;
}

/**
 * The body of a request. It is counted while it comes in, whatever the header Content-Length says, and no more than is taken is held. Of one that is taken in
 * as it comes nothing is read here.
 *
 * Problems: MEDIA_TYPE_UNKNOWN, BODY_TOO_LARGE, BODY_NOT_JSON.
 */
export async function readBody(request: Request, kinds: Readonly<Record<string, BodyKind>>): Promise<Result<ReadBody>> {
  const said = request.headers.get("content-type") ?? "";
  const found = said.split(";")[0]!.trim().toLowerCase();
  const [name, kind] = Object.entries(kinds).find(([each]) => fits(found, each)) ?? [];
  if (name === undefined || kind === undefined) return typeUnknown(found, Object.keys(kinds));
  if (kind.isStream) {
    if (saidLength(request) > kind.most) return bodyTooLarge(kind.most);
    return success({ kind, body: { kind: found, pieces: piecesOf(request), most: kind.most } });
  }
  const bytes = await readAtMost(request, kind.most);
  if (bytes === undefined) return bodyTooLarge(kind.most);
  if (name !== "application/json") return success({ kind, body: { kind: found, bytes } });
  try {
    const text = new TextDecoder("utf-8", { fatal: true }).decode(bytes);
    return success({ kind, body: { kind: "json", value: JSON.parse(text) as unknown } });
  } catch {
    const message = sayProblem("server-problem.body-not-json");
    return failure(serverProblem("BODY_NOT_JSON", message, {}, sayProblem("server-problem.body-not-json-remedy")));
  }
}

function fits(found: string, kind: string): boolean {
  return kind.endsWith("/*") ? found.startsWith(kind.slice(0, -1)) && found.length > kind.length - 1 : found === kind;
}

function typeUnknown(found: string, types: readonly string[]): Result<never> {
  const message =
    found === ""
      ? sayProblem("server-problem.media-type-missing", { types })
      : sayProblem("server-problem.media-type-unknown", { types, found });
  return failure(serverProblem("MEDIA_TYPE_UNKNOWN", message, {}, sayProblem("server-problem.media-type-remedy")));
}

function saidLength(request: Request): number {
  return Number(request.headers.get("content-length") ?? 0);
}

/** The bytes of a body; `undefined` when there are more than `most`. */
async function readAtMost(request: Request, most: number): Promise<Uint8Array | undefined> {
  if (saidLength(request) > most) return undefined;
  const pieces: Uint8Array[] = [];
  let length = 0;
  for await (const piece of piecesOf(request)) {
    length += piece.length;
    if (length > most) return undefined;
    pieces.push(piece);
  }
  return new Uint8Array(Buffer.concat(pieces));
}

/** A body as it comes in; whoever stops before its end does not take the rest. */
async function* piecesOf(request: Request): AsyncGenerator<Uint8Array> {
  const reader = request.body?.getReader();
  let isOver = false;
  try {
    for (let read = await reader?.read(); read?.value !== undefined; read = await reader?.read()) yield read.value;
    isOver = true;
  } finally {
    if (!isOver) await reader?.cancel().catch(() => undefined);
  }
}
