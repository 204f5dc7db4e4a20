import { describe, expect, test } from "vitest";
import { random } from "../../lib/base/index.js";
import { erlangB, erlangC, simulateLine } from "../bench/load/queueing.js";
import { WEEK, weekOfArrivals } from "../bench/load/schoolWeek.js";

const mean = (values: readonly number[]): number => values.reduce((sum, each) => sum + each, 0) / values.length;

/** Mean of a series whose neighbours are alike, and its standard error by means of 20 batches. */
function batched(values: readonly number[]): { readonly mean: number; readonly error: number } {
  const size = Math.floor(values.length / 20);
  const means = Array.from({ length: 20 }, (_, i) => mean(values.slice(i * size, (i + 1) * size)));
  const middle = mean(means);
  return { mean: middle, error: Math.sqrt(means.reduce((sum, each) => sum + (each - middle) ** 2, 0) / 19 / 20) };
}

describe("the simulated queue", () => {
  test("the closed form agrees with what is known of one server: the chance to wait is the load, the mean wait load / (1 - load)", () => {
    for (const load of [0.1, 0.5, 0.9]) {
      expect(erlangC(1, load).waits).toBeCloseTo(load, 12);
      expect(erlangC(1, load).meanWait).toBeCloseTo(load / (1 - load), 12);
    }
    // Two servers, by the sum itself: C = (a^2 / 2) * 2 / (2 - a) / (1 + a + (a^2 / 2) * 2 / (2 - a)).
    const waiting = 1 / (2 - 1);
    expect(erlangC(2, 1).waits).toBeCloseTo(waiting / (1 + 1 + waiting), 12);
    expect(() => erlangC(2, 2)).toThrow(RangeError);
  });

  test.each([
    [1, 0.7],
    [2, 1.5],
    [4, 3.4],
    [16, 14],
  ])("waits as M/M/c with %d servers at load %d", (servers, load) => {
    const chance = random(`line ${servers}`);
    const exponential = (): number => -Math.log(1 - chance.uniform());
    const arrivals = (function* () {
      for (let [i, at] = [0, 0]; i < 400_000; i++) {
        at += exponential() / load;
        yield at;
      }
    })();
    const { waits } = simulateLine({ arrivals, service: exponential, servers });
    const [wait, isWaiting] = [batched(waits), batched(waits.map((each) => (each > 0 ? 1 : 0)))];
    const known = erlangC(servers, load);
    // Four standard errors: one in 16,000 of those tests would fail by chance, and the seed is fixed.
    expect(Math.abs(wait.mean - known.meanWait)).toBeLessThan(4 * wait.error);
    expect(Math.abs(isWaiting.mean - known.waits)).toBeLessThan(4 * isWaiting.error);
    expect(wait.error).toBeLessThan(0.1 * known.meanWait);
  });

  test("turns away as Erlang's first formula says, whatever the service times", () => {
    const chance = random("turned away");
    const arrivals = Array.from(
      { length: 200_000 },
      (
        (at) => () =>
          (at -= Math.log(1 - chance.uniform()) / 3)
      )(0),
    );
    // Two kinds of service, of mean 1.
    const service = (): number => (chance.uniform() < 0.5 ? 0.2 : 1.8);
    const { turnedAway } = simulateLine({ arrivals, service, servers: 4, places: 4 });
    expect(turnedAway / arrivals.length).toBeCloseTo(erlangB(4, 3), 2);
  });

  test("a school week brings what it is to bring, in its hours", () => {
    const chance = random("week");
    const perHour = new Array<number>(WEEK.length).fill(0);
    for (const at of weekOfArrivals({ perWeek: 200_000, uniform: () => chance.uniform() }))
      perHour[Math.floor(at / 3600)]! += 1;
    // Chi squared over the hours that are not empty: mean = degrees of freedom, deviation sqrt(2 x that).
    const terms = WEEK.flatMap((share, hour) =>
      share === 0 ? [] : [(perHour[hour]! - 200_000 * share) ** 2 / (200_000 * share)],
    );
    expect(Math.abs(terms.reduce((sum, each) => sum + each, 0) - terms.length)).toBeLessThan(
      4 * Math.sqrt(2 * terms.length),
    );
    expect(perHour.filter((count, hour) => WEEK[hour] === 0 && count > 0)).toEqual([]);
  });
});
