import { digestOf } from "../access/digestOf.js";
import { COOKIE } from "../access/keyOf.js";
import type { Answer } from "../model.js";
import type { Operation } from "../operations/model.js";

export interface AnswerSetting {
  readonly ifNoneMatch: string | undefined;
  /** Whether people reach the server by HTTPS. */
  readonly isSecure: boolean;
  readonly now: Date;
}

/** The answer of an operation over HTTP. JSON that is asked for has an ETag, and is not sent again when the header If-None-Match names it. */
export function contentAnswer(operation: Operation, answer: Answer, setting: AnswerSetting): Response {
  const { status, type } = operation.answer;
  const headers = new Headers({ "cache-control": operation.method === "get" ? "private, no-cache" : "no-store" });
  if (answer.session !== undefined) headers.set("set-cookie", cookie(answer.session, setting));
  if (type === undefined) return new Response(null, { status, headers });
  headers.set("content-type", typeWithCharset(type));
  if (answer.lines !== undefined) return new Response(streamOf(answer.lines), { status, headers });
  const text = typeof answer.content === "string" ? answer.content : JSON.stringify(answer.content);
  if (operation.method !== "get") return new Response(text, { status, headers });
  const tag = etagOf(text);
  headers.set("etag", tag);
  const asked = (setting.ifNoneMatch ?? "").split(/, */).map((each) => each.replace(/^W\//, ""));
  if (!asked.includes(tag) && !asked.includes("*")) return new Response(text, { status, headers });
  headers.delete("content-type");
  return new Response(null, { status: 304, headers });
}

/** The entity tag of a text or of bytes: 128 bits of SHA-256. */
export function etagOf(text: string | Uint8Array): string {
  return `"${digestOf(text).slice(0, 32)}"`;
}

function typeWithCharset(type: string): string {
  return type === "application/openmetrics-text" ? `${type}; version=1.0.0; charset=utf-8` : type;
}

function cookie({ secret, until }: NonNullable<Answer["session"]>, { isSecure, now }: AnswerSetting): string {
  const seconds = until === undefined ? 0 : Math.max(0, Math.floor((Date.parse(until) - now.getTime()) / 1000));
  const secure = isSecure ? "; Secure" : "";
  return `${COOKIE}=${secret}; Path=/; Max-Age=${seconds}; HttpOnly; SameSite=Strict${secure}`;
}

function streamOf(lines: AsyncIterable<string>): ReadableStream<Uint8Array> {
  const encoder = new TextEncoder();
  const iterator = lines[Symbol.asyncIterator]();
  return new ReadableStream({
    pull: async (controller) => {
      const { value, done } = await iterator.next();
      if (done) controller.close();
      else controller.enqueue(encoder.encode(value));
    },
    cancel: async () => void (await iterator.return?.()),
  });
}
