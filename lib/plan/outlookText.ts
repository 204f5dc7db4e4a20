/** An outlook in one sentence. */
export function outlookText({
  on,
  names,
  days,
  takes,
  left,
  share,
  hopeless,
}: {
  readonly on: string;
  readonly names: readonly string[];
  readonly days: number;
  readonly takes: number;
  readonly left: number;
  readonly share: number;
  readonly hopeless: boolean;
}): string {
  if (names.length === 0) return `Everything that is to be ready by ${on} is complete already.`;
  const what = names.length === 1 ? names[0]! : `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
  const until = `${days} ${days === 1 ? "day" : "days"}`;
  if (hopeless)
    return `Not by ${on}: ${left} rungs are left in ${what}, and ${until} have room for about ${takes} takes of new work.`;
  const inTen = Math.round(10 * share);
  const words =
    share >= 0.95
      ? "almost surely"
      : share >= 0.6
        ? `probably, about ${inTen} times in 10`
        : share > 0.4
          ? "as likely as not"
          : share > 0.05
            ? `probably not: about ${Math.max(1, inTen)} ${inTen > 1 ? "times" : "time"} in 10`
            : "almost surely not";
  return `Will ${what} be complete by ${on}? By the forecast ${words} (${until}, about ${takes} takes of new work, ${left} ${left === 1 ? "rung" : "rungs"} left).`;
}
