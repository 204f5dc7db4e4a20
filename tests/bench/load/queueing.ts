/** What a queue with one line and several servers is asked: arrivals in their order, and how long each takes. */
export interface Line {
  /** Seconds at which each arrives, growing. */
  readonly arrivals: Iterable<number>;
  /** Seconds that the next one takes. */
  readonly service: () => number;
  readonly servers: number;
  /** Most that wait and are served at once; a further one is turned away. No end when left out. */
  readonly places?: number;
}

export interface Waited {
  /** Seconds each waited before it was served, in the order of arrivals; those turned away are not among them. */
  readonly waits: readonly number[];
  readonly turnedAway: number;
  /** Seconds of service over all. */
  readonly served: number;
}

/** Simulates a queue in which who comes first is served first. */
export function simulateLine({ arrivals, service, servers, places = Number.POSITIVE_INFINITY }: Line): Waited {
  const free = new Array<number>(servers).fill(0);
  /** When those that are inside leave, growing up to the first that is not needed any more. */
  const leaves: number[] = [];
  const waits: number[] = [];
  let [turnedAway, served] = [0, 0];
  for (const at of arrivals) {
    if (places < Number.POSITIVE_INFINITY) {
      const inside = leaves.filter((leave) => leave > at);
      leaves.splice(0, leaves.length, ...inside);
      if (inside.length >= places) {
        turnedAway += 1;
        continue;
      }
    }
    let next = 0;
    for (let i = 1; i < servers; i++) if (free[i]! < free[next]!) next = i;
    const begins = Math.max(at, free[next]!);
    const takes = service();
    free[next] = begins + takes;
    if (places < Number.POSITIVE_INFINITY) leaves.push(begins + takes);
    waits.push(begins - at);
    served += takes;
  }
  return { waits, turnedAway, served };
}

/**
 * The chance that somebody has to wait in M/M/c, and how long on average over all, in mean service times: Erlang's second formula (A. K. Erlang, "Solution of some problems in the theory of
 * probabilities of significance in automatic telephone exchanges", 1917), by way of the recursion of his first, as textbooks have it (L. Kleinrock, Queueing Systems 1, 1975, section 3.5; from memory).
 * `load` is arrivals times mean service time; below `servers`.
 */
export function erlangC(servers: number, load: number): { readonly waits: number; readonly meanWait: number } {
  if (!(load > 0 && load < servers)) throw new RangeError(`a load between 0 and the servers is required: ${load}`);
  let lost = 1;
  for (let k = 1; k <= servers; k++) lost = (load * lost) / (k + load * lost);
  const waits = lost / (1 - (load / servers) * (1 - lost));
  return { waits, meanWait: waits / (servers - load) };
}

/** The chance to be turned away in M/G/c with no place to wait, whatever the service times: Erlang's first formula. */
export function erlangB(servers: number, load: number): number {
  let lost = 1;
  for (let k = 1; k <= servers; k++) lost = (load * lost) / (k + load * lost);
  return lost;
}
