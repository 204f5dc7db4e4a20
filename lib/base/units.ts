/** Branded numbers: the type carries the unit. A plain number is a count or a ratio. */
declare const unit: unique symbol;
type Unit<Name extends string> = number & { readonly [unit]: Name };

export type Seconds = Unit<"s">;
export type Milliseconds = Unit<"ms">;
export type Beats = Unit<"beat">;
export type Bpm = Unit<"beats per minute">;
export type Percent = Unit<"%">;

export const seconds = (value: number): Seconds => value as Seconds;
export const milliseconds = (value: number): Milliseconds => value as Milliseconds;
export const beats = (value: number): Beats => value as Beats;
export const bpm = (value: number): Bpm => value as Bpm;
export const percent = (value: number): Percent => value as Percent;

export const toMilliseconds = (value: Seconds): Milliseconds => milliseconds(value * 1000);
export const toSeconds = (value: Milliseconds): Seconds => seconds(value / 1000);
