import { type Result, resultOf } from "../../base/index.js";
import { deviceNamed } from "./deviceStore.js";

/** The delay of a recording, as said on the command line. */
export interface LatencyOptions {
  /** The name of a measured device. */
  readonly device?: string;
  readonly latencyMs?: number;
}

/** The given latency, else the measured one. Only measured devices have a standard deviation. */
export function latencyOf({ device, latencyMs }: LatencyOptions): Result<{
  readonly latencyMs?: number;
  readonly latencyStandardErrorMs?: number;
}> {
  const measured = device === undefined ? undefined : deviceNamed(device);
  if (measured?.ok === false) return measured;
  const { latencyMs: found, latencyStandardErrorMs } = measured?.value ?? {};
  return resultOf(
    {
      ...(found === undefined ? {} : { latencyMs: found }),
      ...(latencyStandardErrorMs === undefined ? {} : { latencyStandardErrorMs }),
      ...(latencyMs === undefined ? {} : { latencyMs }),
    },
    [],
  );
}
