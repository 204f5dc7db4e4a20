/** The parts of a piece of schema that problems quote. */
export interface SchemaPiece {
  readonly title?: string;
  readonly examples?: readonly string[];
  readonly type?: string | readonly string[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly pattern?: string;
  readonly propertyNames?: SchemaPiece;
  readonly properties?: Readonly<Record<string, SchemaPiece>>;
  readonly required?: readonly string[];
  readonly "x-choices"?: readonly SchemaPiece[];
  readonly "x-tag"?: string;
}

/** One complaint of a validator: of the form that ajv documents for its verbose errors, what problems are made of. */
export interface Violation {
  /** RFC 6901 pointer to the value. */
  readonly instancePath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
  /** The name that is complained of, where it is of a name and not of its value. */
  readonly propertyName?: string | undefined;
  readonly parentSchema?: SchemaPiece;
  readonly data?: unknown;
}
