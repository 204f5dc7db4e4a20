import type { InputKind } from "../input/model.js";
import type { DeviceLatency } from "./model.js";

/** Where latencies are kept: what `localStorage` offers. */
export interface LatencyStorage {
  getItem(name: string): string | null;
  setItem(name: string, text: string): void;
}

/** What was measured of each device. */
export interface LatencyBook {
  /** The latency of a device; `undefined` when none was measured. */
  of(kind: InputKind, device: string): DeviceLatency | undefined;
  /** Keeps a latency instead of the one before. Where nothing can be stored it is kept until the page is left. */
  keep(latency: DeviceLatency): void;
  readonly all: readonly DeviceLatency[];
}

const NAME = "leeway.latencies";

/**
 * The book of latencies of this browser; what is there and is no such book counts as empty.
 *
 * @example
 * const book = latencyBook();
 * const latency = book.of(microphone.kind, microphone.device);
 */
export function latencyBook(storage: LatencyStorage = localStorage): LatencyBook {
  let all = readBook(storage);
  return {
    of: (kind, device) => all.find((each) => each.kind === kind && each.device === device),
    keep: (latency) => {
      const others = all.filter(({ kind, device }) => kind !== latency.kind || device !== latency.device);
      all = [...others, latency];
      try {
        storage.setItem(NAME, JSON.stringify(all));
      } catch {
        // Private windows and full devices store nothing.
      }
    },
    get all() {
      return all;
    },
  };
}

function readBook(storage: LatencyStorage): readonly DeviceLatency[] {
  try {
    const found: unknown = JSON.parse(storage.getItem(NAME) ?? "[]");
    return Array.isArray(found) ? found.filter(isLatency) : [];
  } catch {
    return [];
  }
}

function isLatency(value: Partial<DeviceLatency> | null): value is DeviceLatency {
  return (
    typeof value?.kind === "string" &&
    typeof value.device === "string" &&
    typeof value.measured === "string" &&
    Number.isFinite(value.latencyMs) &&
    Number.isFinite(value.latencyStandardErrorMs) &&
    Number.isFinite(value.onsets)
  );
}
