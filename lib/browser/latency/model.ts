import type { Result } from "../../base/index.js";
import type { Latency } from "../../listen/index.js";
import type { InputKind } from "../input/model.js";

/** A latency as it is kept for a device. */
export interface DeviceLatency extends Latency {
  readonly kind: InputKind;
  /** Name of the device. */
  readonly device: string;
  /** When it was measured, RFC 3339. */
  readonly measured: string;
}

/** How far a measurement has come: told at every click. */
export interface LatencyProgress {
  readonly clicks: number;
  readonly of: number;
  /** Delays of onsets heard so far from the click before them, seconds. */
  readonly delays: readonly number[];
}

export interface LatencyOptions {
  /** Number of clicks, at least 16: those of `CALIBRATION_CLICKS` when left out. */
  readonly clicks?: number;
  readonly onProgress?: (progress: LatencyProgress) => void;
  readonly signal?: AbortSignal;
}

/** Resolves with LATENCY_UNCLEAR or LATENCY_STOPPED when nothing can be said. */
export type LatencyMeasured = Promise<Result<Latency>>;
