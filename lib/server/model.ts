import type { Curriculum } from "../curriculum/index.js";
import type { KeptCourses } from "../practice/index.js";
import type { Person, Register, Store } from "../store/index.js";
import type { Hearing } from "./hearing/openHearing.js";

/** A school as it is served. */
export interface School {
  readonly store: Store;
  readonly register: Register;
  /** The editions in use, by name of the course. */
  readonly courses: ReadonlyMap<string, Curriculum>;
  /** Former editions, as the store keeps them. */
  readonly kept: KeptCourses;
  /** What is said before an invitation is accepted. */
  readonly consent: string;
  readonly now: () => Date;
  /** 128 random bits, as text that stands in an address. */
  readonly secret: () => string;
  readonly limits: Limits;
  readonly hearing: Hearing;
  /** Days without any sign of a student after which they are erased. */
  readonly keepDays: number;
}

/** What the server does at most. */
export interface Limits {
  /** Requests of one person, or of one address without a key, in a minute. */
  readonly perMinute: number;
  /** Milliseconds for an answer. */
  readonly patience: number;
  /** Milliseconds for an answer to a recording, from its first byte on. */
  readonly hearingPatience: number;
}

/** One request, read and allowed. */
export interface Call {
  readonly school: School;
  /** Who asks; absent where anyone may. */
  readonly person?: Person;
  /** Digest of the key of the request. */
  readonly digest?: string;
  readonly parameters: Readonly<Record<string, string>>;
  readonly query: Readonly<Record<string, unknown>>;
  readonly body: Body | undefined;
  readonly at: string;
  readonly ifMatch: string | undefined;
}

/** The body of a request: JSON, checked by its schema; bytes of the kind named; or bytes as they come in, at most so many. */
export type Body =
  | { readonly kind: "json"; readonly value: unknown }
  | { readonly kind: string; readonly bytes: Uint8Array }
  | { readonly kind: string; readonly pieces: AsyncIterable<Uint8Array>; readonly most: number };

/** What is answered. */
export interface Answer {
  /** JSON, or text where the operation answers with text. */
  readonly content?: unknown;
  readonly lines?: AsyncIterable<string>;
  /** Begins a session, or ends it with an empty secret. */
  readonly session?: { readonly secret: string; readonly until?: string };
}
