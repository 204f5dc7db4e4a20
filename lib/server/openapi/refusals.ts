import { ANSWERED_CODES, statusOf } from "../answer/problemAnswer.js";
import type { SchemaObject } from "../operations/model.js";
import { ref } from "./ownSchemas.js";

/** What each status of a refusal says. */
export const REFUSALS: Readonly<Record<number, string>> = {
  400: "The request, its body or its query cannot be read.",
  401: "No key, or none that is known.",
  403: "Not for this role, or sent by a page of another site.",
  404: "There is nothing of this name that whoever asks may see.",
  405: "The address does not take this method.",
  408: "The request did not come whole in time; it may be sent again.",
  409: "It does not go with what is there.",
  410: "The invitation cannot be used.",
  412: "The standing is another one than If-Match says.",
  413: "The body is too large.",
  415: "The body is of no kind that is taken.",
  421: "The request is for another host.",
  422: "What the body or the query says cannot be.",
  429: "Too many requests; Retry-After says when to come again.",
  500: "A defect of the server.",
  503: "The store cannot do this now.",
  504: "The answer took too long.",
};

/** Name of the component that a refusal of this status has as its schema. */
export function refusalName(status: number): string {
  return `Problem${status}`;
}

/**
 * Problem details of each status, with the codes it can have. With 422 there are also those of documents, MIDI files and recordings, which are in `schemas/PROBLEMS.md`, and none that has
 * another status.
 */
export function refusalSchemas(): Readonly<Record<string, SchemaObject>> {
  return Object.fromEntries(
    Object.keys(REFUSALS).map((key) => {
      const status = Number(key);
      const own = { enum: ANSWERED_CODES.filter((code) => statusOf(code) === status) };
      const code = status === 422 ? { anyOf: [own, { type: "string", not: { enum: ANSWERED_CODES } }] } : own;
      const properties = { status: { const: status }, code };
      return [refusalName(status), { description: REFUSALS[status], allOf: [ref("Problem"), { properties }] }];
    }),
  );
}
