/** Branded numbers: the type carries the unit. A plain number is a count or a ratio. */
declare const unit: unique symbol;
type Unit<Name extends string> = number & { readonly [unit]: Name };

export type Seconds = Unit<"s">;
export type Milliseconds = Unit<"ms">;
/** What scatter adds up to from beat to beat: its square grows with the number of beats. */
export type MillisecondsPerRootBeat = Unit<"ms/√beat">;
export type Beats = Unit<"beat">;
export type Bpm = Unit<"beats per minute">;
export type Percent = Unit<"%">;

/** What is taken where a unit is meant and people write numbers: a plain number, or one that says this unit; one of another unit is not. */
export type Written<U extends Unit<string>> = number & { readonly [unit]?: U[typeof unit] };

/**
 * Says that a number is seconds.
 *
 * @example
 * seconds(2.5) // 2.5
 */
export const seconds = (value: Written<Seconds>): Seconds => value as Seconds;
/**
 * Says that a number is milliseconds.
 *
 * @example
 * milliseconds(90) // 90
 */
export const milliseconds = (value: Written<Milliseconds>): Milliseconds => value as Milliseconds;
/**
 * Says that a number is beats, in the unit of beat in force.
 *
 * @example
 * beats(4) // 4
 */
export const beats = (value: Written<Beats>): Beats => value as Beats;
/**
 * Says that a number is beats per minute.
 *
 * @example
 * bpm(96) // 96
 */
export const bpm = (value: Written<Bpm>): Bpm => value as Bpm;
/**
 * Says that a number is per cent: 6 for 6 %.
 *
 * @example
 * percent(6) // 6
 */
export const percent = (value: Written<Percent>): Percent => value as Percent;

export const toMilliseconds = (value: Seconds): Milliseconds => milliseconds(value * 1000);
export const toSeconds = (value: Milliseconds): Seconds => seconds(value / 1000);
