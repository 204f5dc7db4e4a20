/** Texts by language tag (RFC 5646); "und" (undetermined) for the names of a course. */
export type LanguageMap = Readonly<Record<string, string>>;

/** Values by IRI. */
export type Extensions = Readonly<Record<string, unknown>>;

export interface Activity {
  readonly objectType: "Activity";
  /** IRI. */
  readonly id: string;
  readonly definition: { readonly name: LanguageMap; readonly type: string };
}

/** A statement of the Experience API (xAPI) 1.0.3, as far as these records need it. */
export interface Statement {
  /** UUID. The same event gives the same UUID. */
  readonly id: string;
  readonly actor: {
    readonly objectType: "Agent";
    /** Only when students go by their names. */
    readonly name?: string;
    readonly account: { readonly homePage: string; readonly name: string };
  };
  readonly verb: { readonly id: string; readonly display: LanguageMap };
  readonly object: Activity;
  readonly result: {
    readonly success?: boolean;
    readonly completion?: boolean;
    /** ISO 8601. */
    readonly duration?: string;
    readonly extensions: Extensions;
  };
  readonly context: {
    readonly registration: string;
    /** The edition of the course. */
    readonly revision?: string;
    readonly platform: string;
    readonly contextActivities: { readonly parent?: readonly Activity[]; readonly grouping: readonly Activity[] };
    readonly extensions?: Extensions;
  };
  /** RFC 3339. */
  readonly timestamp: string;
  readonly version: "1.0.0";
}
