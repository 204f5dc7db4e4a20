import { readFileSync } from "node:fs";
import { dirname, join } from "node:path";
import { failure, nearestName, type Problem, problemsOf, type Result, success, type Worded } from "../../base/index.js";
import { makeFolder, writeWhole } from "../../node/index.js";
import { currentTake } from "../../take/index.js";
import { fileCodes } from "../codes.js";
import { sayProblem, UNKNOWN_REASON } from "../say.js";
import { dataFolder } from "../store/openStore.js";

const problem = problemsOf(fileCodes);

/** The measured latency of a recording device: numbers, no sound. */
export interface Device {
  /** Latency; positive: onsets arrive late. */
  readonly latencyMs: number;
  /** Standard deviation between takes, and between onsets. */
  readonly latencyStandardErrorMs: number;
  /** Number of onsets measured. */
  readonly onsets: number;
  /** Time of the measurement (RFC 3339). */
  readonly measured: string;
  /** Method: the output connected to the input, or claps with the clicks. */
  readonly by: "loop" | "clap";
}

type Devices = Readonly<Record<string, Device>>;

/** The file of this user's devices, beside the default store of journals. */
function devicesFile(): string {
  return join(dataFolder(process.env, process.platform), "devices.json");
}

/** The device with this name. Problems: DEVICE_UNKNOWN, DEVICES_UNREADABLE. */
export function deviceNamed(name: string): Result<Device> {
  const devices = readDevices();
  if (!devices.ok) return devices;
  const found = Object.hasOwn(devices.value, name) ? devices.value[name] : undefined;
  if (found !== undefined) return success(found);
  const names = Object.keys(devices.value);
  const nearest = nearestName(name, names);
  const message =
    names.length === 0
      ? sayProblem("cli-problem.no-device-measured", { name })
      : sayProblem("cli-problem.device-unknown", { name, devices: names });
  const remedy =
    nearest === undefined
      ? sayProblem("cli-problem.device-unknown-remedy", { name })
      : sayProblem("cli-problem.device-nearest-remedy", { nearest });
  return failure(problem("DEVICE_UNKNOWN", message, {}, remedy));
}

/** Stores the measurement of a device; it replaces an earlier one. Problems as `deviceNamed`, and those of writing. */
export async function keepDevice(name: string, device: Device): Promise<Result<void>> {
  const devices = readDevices();
  if (!devices.ok) return devices;
  const file = devicesFile();
  const folder = await makeFolder(dirname(file));
  if (!folder.ok) return folder;
  const kept = { ...devices.value, [name]: device };
  return writeWhole(file, new TextEncoder().encode(`${JSON.stringify(kept, undefined, 2)}\n`));
}

function readDevices(): Result<Devices> {
  const file = devicesFile();
  let text: string;
  try {
    text = readFileSync(file, "utf8");
  } catch (error) {
    const code = error !== null && typeof error === "object" && "code" in error ? String(error.code) : UNKNOWN_REASON;
    if (code === "ENOENT") return success({});
    return failure(unreadable(file, sayProblem("cli-problem.devices-unreadable", { error: code })));
  }
  try {
    const value: unknown = JSON.parse(text);
    const entries = value !== null && typeof value === "object" ? Object.entries(value) : undefined;
    // A device measured before has its latency under the names of takes of that time.
    const devices = entries?.map(([name, device]) => [name, currentTake(device)] as const);
    if (devices?.every(([, device]) => isDevice(device))) return success(Object.fromEntries(devices) as Devices);
  } catch {
    // Not JSON: reported below, together with JSON that has no devices.
  }
  return failure(unreadable(file, sayProblem("cli-problem.devices-other")));
}

function isDevice(value: unknown): value is Device {
  if (value === null || typeof value !== "object") return false;
  const { latencyMs, latencyStandardErrorMs } = value as Record<string, unknown>;
  return (
    Math.abs(Number(latencyMs)) <= 2000 && Number(latencyStandardErrorMs) >= 0 && Number(latencyStandardErrorMs) <= 1000
  );
}

function unreadable(file: string, message: Worded): Problem {
  return problem("DEVICES_UNREADABLE", message, { file }, sayProblem("cli-problem.devices-unreadable-remedy"));
}
