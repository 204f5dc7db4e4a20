import { type Result, resultOf } from "../../index.js";
import { deviceNamed } from "./deviceStore.js";
import type { HearingOptions } from "./heardTake.js";

/** The delay that was said, else the one that was measured; the spread is known for measured devices only. */
export function latencyOf({ device, latencyMs }: Pick<HearingOptions, "device" | "latencyMs">): Result<{
  readonly latencyMs?: number;
  readonly latencySpreadMs?: number;
}> {
  const measured = device === undefined ? undefined : deviceNamed(device);
  if (measured?.ok === false) return measured;
  const { latencyMs: found, latencySpreadMs } = measured?.value ?? {};
  return resultOf(
    {
      ...(found === undefined ? {} : { latencyMs: found }),
      ...(latencySpreadMs === undefined ? {} : { latencySpreadMs }),
      ...(latencyMs === undefined ? {} : { latencyMs }),
    },
    [],
  );
}
