/** Branded numbers: the type carries the unit. A plain number is a count or a ratio. */
declare const unit: unique symbol;
type Unit<Name extends string> = number & { readonly [unit]: Name };

export type Seconds = Unit<"s">;
export type Milliseconds = Unit<"ms">;
export type Beats = Unit<"beat">;
export type Bpm = Unit<"beats per minute">;
export type Percent = Unit<"%">;

/**
 * Says that a number is seconds.
 *
 * @example
 * seconds(2.5) // 2.5
 */
export const seconds = (value: number): Seconds => value as Seconds;
/**
 * Says that a number is milliseconds.
 *
 * @example
 * milliseconds(90) // 90
 */
export const milliseconds = (value: number): Milliseconds => value as Milliseconds;
/**
 * Says that a number is beats, in the unit of beat in force.
 *
 * @example
 * beats(4) // 4
 */
export const beats = (value: number): Beats => value as Beats;
/**
 * Says that a number is beats per minute.
 *
 * @example
 * bpm(96) // 96
 */
export const bpm = (value: number): Bpm => value as Bpm;
/**
 * Says that a number is per cent: 6 for 6 %.
 *
 * @example
 * percent(6) // 6
 */
export const percent = (value: number): Percent => value as Percent;

export const toMilliseconds = (value: Seconds): Milliseconds => milliseconds(value * 1000);
export const toSeconds = (value: Milliseconds): Seconds => seconds(value / 1000);
