import type { OperationId } from "../operations/operationId.js";

/** One request as the log has it: nothing of its address, body or answer, as names are in them. */
export interface Seen {
  readonly at: string;
  readonly request: string;
  /** Absent: no operation was asked for. */
  readonly operation?: OperationId;
  readonly role?: string;
  readonly status: number;
  readonly ms: number;
  /** Kind of the error, where one was thrown: no message, as names may be in it. */
  readonly error?: string;
}

/** Counts what is done. */
export interface Watch {
  add(seen: Seen): void;
  /** The counts in the text form of OpenMetrics 1.0. */
  metrics(): string;
}

/** Upper bounds of the histogram of answers, in seconds: our choice, from a look-up to a long plan. */
const BOUNDS = [0.005, 0.02, 0.1, 0.5, 2, 10];

/** Counts requests by operation and status, and how long answers took. `log` gets each request too. */
export function openWatch(log: (seen: Seen) => void): Watch {
  const requests = new Map<string, number>();
  const times = new Map<string, { count: number; sum: number; readonly within: number[] }>();
  return {
    add: (seen) => {
      const name = seen.operation ?? "none";
      const labels = `operation="${name}",status="${seen.status}"`;
      requests.set(labels, (requests.get(labels) ?? 0) + 1);
      const took = times.get(name) ?? { count: 0, sum: 0, within: BOUNDS.map(() => 0) };
      took.count += 1;
      took.sum += seen.ms / 1000;
      BOUNDS.forEach((bound, i) => {
        if (seen.ms / 1000 <= bound) took.within[i]! += 1;
      });
      times.set(name, took);
      log(seen);
    },
    metrics: () => {
      const lines = ["# TYPE leeway_requests counter", "# HELP leeway_requests Requests answered."];
      for (const [labels, count] of requests) lines.push(`leeway_requests_total{${labels}} ${count}`);
      lines.push("# TYPE leeway_answer_seconds histogram", "# UNIT leeway_answer_seconds seconds");
      lines.push("# HELP leeway_answer_seconds Time to answer.");
      for (const [name, { count, sum, within }] of times) {
        const of = `operation="${name}"`;
        BOUNDS.forEach((bound, i) => {
          lines.push(`leeway_answer_seconds_bucket{${of},le="${bound.toFixed(3)}"} ${within[i]}`);
        });
        lines.push(`leeway_answer_seconds_bucket{${of},le="+Inf"} ${count}`);
        lines.push(`leeway_answer_seconds_count{${of}} ${count}`, `leeway_answer_seconds_sum{${of}} ${sum}`);
      }
      return `${lines.join("\n")}\n# EOF\n`;
    },
  };
}
