/** How unsteady a player is. */
export interface Temper {
  /** Standard deviation of a note about the player's own pulse, seconds. */
  readonly hand: number;
  /** Standard deviation the pulse gathers in one beat, seconds. */
  readonly clock: number;
  /** Standard deviation of the tempo a player falls into in a silence, share of the tempo. */
  readonly bias: number;
}

/**
 * Three grades of player; our choice. The able player's hand and clock are of the order of 10-20 ms at beats of 0.5-0.8 s found in tapping
 * (from memory), the novice's about twice the seasoned player's.
 */
export const GRADES = {
  seasoned: { hand: 0.008, clock: 0.006, bias: 0.005 },
  able: { hand: 0.012, clock: 0.01, bias: 0.01 },
  novice: { hand: 0.02, clock: 0.016, bias: 0.02 },
} as const satisfies Readonly<Record<string, Temper>>;

export type Grade = keyof typeof GRADES;
export const GRADE_NAMES = Object.keys(GRADES) as readonly Grade[];

/** An able hand whose tempo goes far astray alone: most of his silences are truly out, by drift and not by a slip. */
export const DRIFTER: Temper = { ...GRADES.able, bias: 0.06 };

/** A player who makes no error at all: what he claims of himself can be read off his onsets. */
export const FAULTLESS: Temper = { hand: 0, clock: 0, bias: 0 };
