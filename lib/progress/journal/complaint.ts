import type { Message } from "../../base/index.js";
import type { Given, KeyIn } from "../../words/index.js";
import type { progressCodes } from "../codes.js";

type Key = KeyIn<"journal-problem">;

/** What is wrong with an event, before it is worded: who decides writes events and words none of them, and so does without their sentences. */
export interface Complaint {
  readonly code: keyof typeof progressCodes;
  readonly message: Message & { readonly key: Key };
  readonly remedy?: Message & { readonly key: Key };
}

export function complaint<K extends Key>(code: Complaint["code"], key: K, ...[parameters]: Given<K>): Complaint {
  return { code, message: { key, parameters: parameters ?? {} } };
}
