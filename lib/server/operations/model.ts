import type { Role } from "../../store/index.js";

/** A JSON Schema, as it stands in the OpenAPI document. */
export type SchemaObject = Readonly<Record<string, unknown>>;

/** Who may ask for something: whoever there is, or people of these roles. Whom and which class they may see follows from the path. */
export type Who = "anyone" | readonly Role[];

/** A kind of body that is taken. */
export interface BodyKind {
  readonly schema: SchemaObject;
  /** Most bytes. */
  readonly most: number;
  /** It is not read at once, but as it is taken in. */
  readonly isStream?: true;
}

/** An answer when all is well. */
export interface AnswerKind {
  readonly status: 200 | 201 | 204;
  readonly says: string;
  /** Absent: no body. */
  readonly type?: string;
  readonly schema?: SchemaObject;
}

/** One thing that can be asked of the server: a row of the only table from which routes, refusals and the OpenAPI document are made. */
export interface Operation {
  readonly method: "get" | "post" | "put" | "delete";
  /** With parameters in braces: {student}, {class}, {course}. */
  readonly path: string;
  readonly says: string;
  readonly who: Who;
  /** Schemas of the parameters of the query. */
  readonly query?: Readonly<Record<string, SchemaObject>>;
  readonly body?: Readonly<Record<string, BodyKind>>;
  readonly answer: AnswerKind;
  /** Statuses of refusals beside those that every operation of its kind has. */
  readonly refusals: readonly number[];
  /** Takes If-Match: the change is refused when the standing is another one by now. */
  readonly matches?: true;
  /** Served to students who are paused. */
  readonly whilePaused?: true;
}
