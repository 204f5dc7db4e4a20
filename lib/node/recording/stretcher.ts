import type { RecordedSound, Stretcher, Stretching } from "../../recording/index.js";

/**
 * Length of the blocks in which a sound is stretched and distance between two, seconds. Short ones keep the attacks of drums; long ones, the library's own choice, keep what is held.
 */
const STRUCK = { block: 0.04, interval: 0.01 } as const;
const HELD = { block: 0.12, interval: 0.03 } as const;
/** Samples made at a time. */
const PORTION = 4096;

/** What of the library's wasm module is used. Lengths are samples, places addresses of floats. */
interface WasmModule {
  readonly HEAP8: Int8Array;
  readonly exports?: { readonly memory: { readonly buffer: ArrayBuffer } };
  _configure(channels: number, block: number, interval: number, split: number): void;
  _reset(): void;
  _inputLatency(): number;
  _outputLatency(): number;
  _setBuffers(channels: number, length: number): number;
  _seek(samples: number, rate: number): void;
  _process(input: number, output: number): void;
}

interface Processor {
  readonly wasmReady?: boolean;
  readonly wasmModule: WasmModule;
}

/** A stretcher, once its library is loaded: `signalsmith-stretch`. The same sound gives the same samples. */
export async function openStretcher(): Promise<Stretcher> {
  const moduleOf = await registeredProcessor();
  return (sound, stretching) => stretched(moduleOf(), sound, stretching);
}

let opened: Promise<() => WasmModule> | undefined;

/** The module of the processor that the library registers. It is made for AudioWorklets, whose globals it is given while it is loaded. */
function registeredProcessor(): Promise<() => WasmModule> {
  opened ??= (async () => {
    const globals = globalThis as Record<string, unknown>;
    let Made: (new (options: object) => Processor) | undefined;
    const standIns: Record<string, unknown> = {
      sampleRate: 44100,
      currentTime: 0,
      registerProcessor: (_name: string, made: new (options: object) => Processor) => {
        Made = made;
      },
      AudioWorkletProcessor: class {
        readonly port = { onmessage: null, postMessage() {} };
      },
    };
    const before = Object.keys(standIns).map((name) => [name, globals[name]] as const);
    Object.assign(globals, standIns);
    try {
      await import("signalsmith-stretch");
      if (Made === undefined) throw new Error("the stretching library registered no processor");
      const processor = new Made({ numberOfOutputs: 1, outputChannelCount: [2] });
      while (processor.wasmReady !== true) await new Promise((resolve) => setTimeout(resolve, 1));
      return () => processor.wasmModule;
    } finally {
      for (const [name, value] of before) {
        if (value === undefined) delete globals[name];
        else globals[name] = value;
      }
    }
  })();
  return opened;
}

function stretched(
  module: WasmModule,
  { rate, channels }: RecordedSound,
  { speed, isStruck }: Stretching,
): RecordedSound {
  const count = channels.length;
  const { block, interval } = isStruck ? STRUCK : HELD;
  module._configure(count, Math.round(block * rate), Math.round(interval * rate), 0);
  module._reset();
  const ahead = module._inputLatency();
  const behind = module._outputLatency();
  const capacity = Math.max(
    2 * PORTION,
    Math.ceil(PORTION * speed) + 1,
    ahead + Math.ceil(behind * Math.max(1, speed)) + PORTION,
  );
  const buffers = module._setBuffers(count, capacity);
  const length = Math.round(channels[0].length / speed);
  const made = channels.map(() => new Float32Array(length));
  /** How much of the sound must have gone in before this sample comes out. */
  const until = (sample: number): number => Math.round(speed * (sample + behind)) + ahead;
  const put = (from: number, to: number): void => {
    for (const [c, samples] of channels.entries()) {
      const target = new Float32Array(memoryOf(module), buffers + 4 * c * capacity, to - from).fill(0);
      const first = Math.max(from, 0);
      const last = Math.min(to, samples.length);
      if (last > first) target.set(samples.subarray(first, last), first - from);
    }
  };
  const run = ahead + behind;
  put(until(0) - run, until(0));
  module._seek(run, speed);
  for (let at = 0; at < length; at += PORTION) {
    const portion = Math.min(PORTION, length - at);
    put(until(at), until(at + portion));
    module._process(until(at + portion) - until(at), portion);
    for (const [c, samples] of made.entries()) {
      const place = buffers + 4 * (count + c) * capacity;
      samples.set(new Float32Array(memoryOf(module), place, portion), at);
    }
  }
  return { rate, channels: [made[0]!, made[1]!] };
}

/** The memory of the module, which is another one after it has grown. */
function memoryOf(module: WasmModule): ArrayBuffer {
  return module.exports?.memory.buffer ?? (module.HEAP8.buffer as ArrayBuffer);
}
