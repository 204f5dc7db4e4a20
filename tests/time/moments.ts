import fc from "fast-check";

export const moments: fc.Arbitrary<Date> = fc.date({
  min: new Date("1905-01-01T00:00:00Z"),
  max: new Date("2199-12-31T00:00:00Z"),
  noInvalidDate: true,
});
/** Minutes. */
export const offsets: fc.Arbitrary<number> = fc.integer({ min: -14 * 60, max: 14 * 60 });

/** The moment as a clock so many minutes ahead of UTC shows it. */
export function shown(date: Date, offset: number): string {
  const local = new Date(date.getTime() + offset * 60_000).toISOString().slice(0, -1);
  const two = (value: number): string => `${value}`.padStart(2, "0");
  const size = Math.abs(offset);
  return `${local}${offset < 0 ? "-" : "+"}${two(Math.floor(size / 60))}:${two(size % 60)}`;
}
