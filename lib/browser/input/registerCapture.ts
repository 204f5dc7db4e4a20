declare const currentFrame: number;
declare const registerProcessor: (name: string, made: unknown) => void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

/**
 * Registers the processor that sends a microphone's sound to its page, with the frame of each block. It runs in an audio worklet and is written out as text
 * (`captureAddress`), so it uses nothing from outside itself.
 */
export function registerCapture(): void {
  // Frames that are sent together: 21 ms at 48 kHz, so that a page gets some fifty messages a second.
  const most = 1024;
  let held = new Float32Array(most);
  let count = 0;
  let from = 0;
  registerProcessor(
    "leeway-capture",
    class extends AudioWorkletProcessor {
      process([input]: readonly (readonly Float32Array[])[]): boolean {
        const samples = input?.[0];
        const isNext = samples !== undefined && currentFrame === from + count;
        if (count > 0 && (!isNext || count + samples.length > most)) {
          const sent = held.subarray(0, count);
          this.port.postMessage({ frame: from, samples: sent }, [held.buffer]);
          held = new Float32Array(most);
          count = 0;
        }
        if (samples === undefined) return true;
        if (count === 0) from = currentFrame;
        held.set(samples, count);
        count += samples.length;
        return true;
      }
    },
  );
}
