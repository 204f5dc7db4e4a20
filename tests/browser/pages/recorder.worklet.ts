/** Sends what it is given to its page, each block with its frame. */
declare const currentFrame: number;
declare const registerProcessor: (name: string, made: unknown) => void;
declare class AudioWorkletProcessor {
  readonly port: MessagePort;
}

registerProcessor(
  "recorder",
  class extends AudioWorkletProcessor {
    process([input]: readonly (readonly Float32Array[])[]): boolean {
      this.port.postMessage({ frame: currentFrame, channels: input!.map((channel) => channel.slice()) });
      return true;
    }
  },
);
