/**
 * How much is played in each hour of a school week, Monday 0:00 to Sunday 24:00, as shares of the week: our choice, as there is no source: nothing at night, lessons
 * before noon, practice from three to nine with its height at five, half of that at the weekend, and Friday evening off.
 */
export const WEEK: readonly number[] = (() => {
  const weekday = [0, 0, 0, 0, 0, 0, 1, 2, 3, 4, 4, 4, 3, 4, 6, 9, 12, 14, 12, 9, 6, 4, 2, 1];
  const friday = weekday.map((share, hour) => (hour >= 17 ? share / 2 : share));
  const weekend = weekday.map((share, hour) => (hour >= 10 && hour < 20 ? 4 + share / 6 : share / 4));
  const hours = [weekday, weekday, weekday, weekday, friday, weekend, weekend].flat();
  const all = hours.reduce((sum, share) => sum + share, 0);
  return hours.map((share) => share / all);
})();

/** How many times the mean hour the fullest one has. */
export const PEAK: number = Math.max(...WEEK) * WEEK.length;

/** Arrivals of a week, seconds from its beginning: a Poisson process whose rate follows the hours, by thinning (P. A. W. Lewis and G. S. Shedler, 1979; from memory). */
export function* weekOfArrivals({
  perWeek,
  uniform,
  hours = [0, WEEK.length],
}: {
  readonly perWeek: number;
  readonly uniform: () => number;
  /** From and to which hour of the week. */
  readonly hours?: readonly [number, number];
}): Generator<number> {
  const rateOf = (hour: number): number => (perWeek * WEEK[hour]!) / 3600;
  const [from, to] = hours;
  const most = Math.max(...WEEK.slice(from, to).map((_, i) => rateOf(from + i)));
  for (let at = from * 3600; ; ) {
    at -= Math.log(1 - uniform()) / most;
    if (at >= to * 3600) return;
    if (uniform() * most < rateOf(Math.floor(at / 3600))) yield at;
  }
}
