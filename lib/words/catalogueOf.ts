import type { MessageParameters } from "./generated/parameters.js";
import type { PluralForm } from "./language.js";
import type { Wording } from "./wording.js";

/** The name of a message. */
export type MessageKey = keyof MessageParameters;

/** The first part of messages' names: what a room, or a page, has to say. */
export type Topic = MessageKey extends `${infer First}.${string}` ? First : never;

export type KeyIn<T extends Topic> = Extract<MessageKey, `${T}.${string}`>;

/** The compiled messages of some topics in a language that has these plural forms: every one of them, and no other. */
export type CatalogueOf<T extends Topic, Form extends PluralForm = never> = {
  readonly [Key in KeyIn<T>]: (parameters: MessageParameters[Key], wording: Wording<Form>) => string;
};

/** What is handed over with a key: its parameters, or nothing when it has none. */
export type Given<Key extends MessageKey> = keyof MessageParameters[Key] extends never
  ? readonly []
  : readonly [parameters: MessageParameters[Key]];
