/** The parts of a piece of schema that problems quote. */
export interface SchemaPiece {
  readonly title?: string;
  readonly examples?: readonly unknown[];
  readonly type?: string | readonly string[];
  readonly enum?: readonly unknown[];
  readonly const?: unknown;
  readonly pattern?: string;
  readonly properties?: Readonly<Record<string, SchemaPiece>>;
  readonly required?: readonly string[];
  readonly "x-choices"?: readonly SchemaPiece[];
  readonly "x-tag"?: string;
}

/** One complaint of a validator, in the form that ajv documents for its verbose errors. */
export interface Violation {
  /** RFC 6901 pointer to the value. */
  readonly instancePath: string;
  readonly schemaPath: string;
  readonly keyword: string;
  readonly params: Readonly<Record<string, unknown>>;
  readonly propertyName?: string;
  readonly message?: string;
  readonly schema?: unknown;
  readonly parentSchema?: SchemaPiece;
  readonly data?: unknown;
}
