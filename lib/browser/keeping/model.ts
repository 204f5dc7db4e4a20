/**
 * Whether what is here stays. `promised`: the browser keeps it until the person deletes it; `best effort`: the browser may clear it when room is short or after a
 * time without visits; `not kept`: a private window, or no storage at all.
 */
export interface Keeping {
  readonly state: "promised" | "best effort" | "not kept";
  /** Bytes this origin uses and may use at most, as the browser estimates them; left out when it does not. */
  readonly used?: number;
  readonly room?: number;
}
