/** How often somebody asks. */
export interface RateLimit {
  /** Seconds to wait before this request is taken; 0: it is taken. */
  wait(who: string, now: number): number;
}

/** Most names remembered at once; our choice: beyond it, those that may ask again are forgotten. */
const MOST_REMEMBERED = 10_000;

/** A bucket that holds a minute's requests and fills evenly: a page that opens asks much at once, and then little. `now` is in milliseconds. */
export function rateLimit(perMinute: number): RateLimit {
  const buckets = new Map<string, { left: number; at: number }>();
  const perMs = perMinute / 60_000;
  return {
    wait: (who, now) => {
      const bucket = buckets.get(who) ?? { left: perMinute, at: now };
      bucket.left = Math.min(perMinute, bucket.left + Math.max(0, now - bucket.at) * perMs);
      bucket.at = now;
      buckets.set(who, bucket);
      if (buckets.size > MOST_REMEMBERED)
        for (const [name, { left, at }] of buckets) if (left + (now - at) * perMs >= perMinute) buckets.delete(name);
      if (bucket.left < 1) return Math.ceil((1 - bucket.left) / perMs / 1000);
      bucket.left -= 1;
      return 0;
    },
  };
}
