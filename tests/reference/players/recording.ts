/** What a recording does to the times that nobody tells of. */
export interface Recording {
  /** Delay, seconds. */
  readonly delay?: number;
  /** How much faster the recording's clock runs: 200 parts in a million are 2e-4. The truth is the player's, the skew is not in it. */
  readonly skew?: number;
}
