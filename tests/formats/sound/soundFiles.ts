import { spawnSync } from "node:child_process";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Problem } from "../../../lib/base/index.js";
import { decodeSound, type Recording } from "../../../lib/listen/index.js";
import type { Sound } from "../../../lib/render/sound/index.js";
import { joined } from "../../joined.js";
import { allWorded } from "../../words/worded.js";

/** How a WAV file is written; every field of its header can be made to lie. */
export interface WavSpec {
  readonly samples: readonly (readonly number[] | Float32Array)[];
  readonly rate?: number;
  readonly coding?: "u8" | "s16" | "s24" | "s32" | "f32" | "f64";
  readonly extensible?: boolean;
  readonly long?: boolean;
  readonly lies?: {
    readonly channels?: number;
    readonly rate?: number;
    readonly align?: number;
    readonly bits?: number;
    readonly code?: number;
    readonly size?: number;
    readonly formatSize?: number;
  };
}

const WIDTHS = { u8: 1, s16: 2, s24: 3, s32: 4, f32: 4, f64: 8 } as const;

/** A WAV file written independently of the library. */
export function wavBytes({ samples, rate = 44_100, coding = "s16", extensible, long, lies = {} }: WavSpec): Uint8Array {
  const width = WIDTHS[coding];
  const channels = samples.length;
  const count = samples[0]?.length ?? 0;
  const size = count * channels * width;
  const format = Buffer.alloc(extensible ? 40 : 16);
  const code = lies.code ?? (coding.startsWith("f") ? 3 : 1);
  format.writeUInt16LE(extensible ? 0xfffe : code, 0);
  format.writeUInt16LE(lies.channels ?? channels, 2);
  format.writeUInt32LE(lies.rate ?? rate, 4);
  format.writeUInt32LE(rate * channels * width, 8);
  format.writeUInt16LE(lies.align ?? channels * width, 12);
  format.writeUInt16LE(lies.bits ?? 8 * width, 14);
  if (extensible) {
    format.writeUInt16LE(22, 16);
    format.writeUInt16LE(8 * width, 18);
    format.writeUInt16LE(code, 24);
    Buffer.from("000000001000800000aa00389b71", "hex").copy(format, 26);
  }
  const data = Buffer.alloc(size);
  for (let i = 0, at = 0; i < count; i++)
    for (const channel of samples) {
      const x = channel[i]!;
      if (coding === "u8") data.writeUInt8(Math.round(x * 128) + 128, at);
      else if (coding === "s16") data.writeInt16LE(Math.round(x * 32_768), at);
      else if (coding === "s24") data.writeIntLE(Math.round(x * 8_388_608), at, 3);
      else if (coding === "s32") data.writeInt32LE(Math.round(x * 2_147_483_648), at);
      else if (coding === "f32") data.writeFloatLE(x, at);
      else data.writeDoubleLE(x, at);
      at += width;
    }
  const long64 = Buffer.alloc(28);
  long64.writeBigUInt64LE(BigInt(size), 8);
  const pieces = [
    ...(long ? [chunk("ds64", long64)] : []),
    chunk("fmt ", format, lies.formatSize),
    chunk("data", data, lies.size ?? (long ? 0xffffffff : undefined)),
  ];
  return new Uint8Array(Buffer.concat([Buffer.from(`${long ? "RF64" : "RIFF"}\0\0\0\0WAVE`, "latin1"), ...pieces]));
}

function chunk(name: string, content: Buffer, size = content.length): Buffer {
  const head = Buffer.alloc(8, name);
  head.writeUInt32LE(size, 4);
  return Buffer.concat([head, content, Buffer.alloc(content.length % 2)]);
}

/** Two channels as the encoders of rendered sound take them. */
export function soundOf(channels: Sound["channels"], rate: Sound["rate"] = 44_100): Pick<Sound, "rate" | "channels"> {
  return { rate, channels };
}

/** Where the clicks of `clicks` begin, in samples. */
export const CLICKS = [4000, 10_000, 19_000, 30_000] as const;

/** A second of silence with short bursts in it at full seconds' fractions that nothing else repeats. */
export function clicks(length = 44_100): Float32Array {
  const samples = new Float32Array(length);
  for (const from of CLICKS)
    for (let i = 0; i < 200 && from + i < length; i++) samples[from + i] = 0.5 * Math.cos(i / 4) * (1 - i / 200);
  return samples;
}

/** Where a sound first exceeds 0.25, at and after each of the clicks' beginnings less `early` samples. */
export function clicksIn(samples: Float32Array, early = 500): number[] {
  return CLICKS.map((from) => {
    for (let i = Math.max(0, from - early); i < samples.length; i++) if (Math.abs(samples[i]!) > 0.25) return i;
    return -1;
  });
}

/** A whole sound, and what was found in it. */
export interface Heard {
  readonly rate: number;
  readonly channels: readonly Float32Array[];
  readonly codes: readonly string[];
  readonly problems: readonly Problem[];
}

/** Opens bytes and goes through the sound; problems at opening are answered alike. */
export async function hear(bytes: Uint8Array | AsyncIterable<Uint8Array>, name?: string): Promise<Heard> {
  const opened = await decodeSound(bytes, name === undefined ? {} : { name });
  const heard = opened.ok
    ? await gather(opened.value)
    : { rate: 0, channels: [], problems: opened.problems, codes: opened.problems.map(({ code }) => code) };
  allWorded(heard.problems);
  return heard;
}

export async function gather(recording: Pick<Recording, "sound" | "problems">): Promise<Heard> {
  let rate = 0;
  const parts: Float32Array[][] = [];
  for await (const block of recording.sound) {
    rate = block.rate;
    block.channels.forEach((samples, i) => {
      parts[i] ??= [];
      parts[i].push(samples);
    });
  }
  const problems = recording.problems();
  const channels = parts.map((pieces) => joined(...pieces));
  return { rate, channels, problems, codes: problems.map(({ code }) => code) };
}

/** Bytes in pieces of this size. */
export async function* inPieces(bytes: Uint8Array, size: number): AsyncGenerator<Uint8Array> {
  for (let at = 0; at < bytes.length; at += size) yield bytes.slice(at, at + size);
}

export const hasFfmpeg: boolean = spawnSync("ffmpeg", ["-version"]).status === 0;
if (!hasFfmpeg)
  console.log("tests of MP3, Ogg, M4A, Opus and WebM are skipped: ffmpeg, which makes their files, is not installed");

/** The clicks, or other samples, as ffmpeg writes them: `words` choose the encoder, the name the container. */
export function clicksAs(
  folder: string,
  name: string,
  words: readonly string[] = [],
  samples = clicks(),
): { path: string; bytes: Uint8Array } {
  const path = join(folder, name);
  const input = Buffer.from(wavBytes({ samples: [samples] }));
  const made = spawnSync("ffmpeg", ["-v", "error", "-y", "-f", "wav", "-i", "pipe:0", ...words, path], { input });
  if (made.status !== 0) throw new Error(`ffmpeg could not write ${name}: ${made.stderr}`);
  return { path, bytes: new Uint8Array(readFileSync(path)) };
}
