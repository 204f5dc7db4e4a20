import { failure, success } from "../../base/index.js";
import type { Result } from "../problem.js";
import { sheetProblem } from "./codes.js";
import { sayProblem } from "./say.js";

/** A picture for a sheet, with its size in pixels. */
export interface Picture {
  readonly type: "image/png" | "image/jpeg";
  readonly bytes: Uint8Array;
  readonly width: number;
  readonly height: number;
}

/** Signature of a PNG file (W3C Portable Network Graphics, second edition, 5.2). */
const PNG = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
/** Byte of a PNG header that says it is interlaced. */
const INTERLACE = 28;

/** Reads the kind and the size of a PNG or JPEG picture. Problem: PICTURE_NOT_READ. */
export function pictureIn(bytes: Uint8Array): Result<Picture> {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const found = PNG.every((byte, i) => bytes[i] === byte) ? sizeOfPng(view) : sizeOfJpeg(view);
  if (found !== undefined && found.width > 0 && found.height > 0) return success({ ...found, bytes });
  const message = sayProblem("sheet-problem.picture-not-read", { bytes: bytes.length });
  const remedy = sayProblem("sheet-problem.picture-not-read-remedy");
  return failure(sheetProblem("PICTURE_NOT_READ", message, {}, remedy));
}

type Sized = Omit<Picture, "bytes">;

/** The header chunk comes first: width and height in its first eight bytes (same source, 11.2.2). */
function sizeOfPng(view: DataView): Sized | undefined {
  if (view.byteLength <= INTERLACE || view.getUint8(INTERLACE) !== 0) return undefined;
  return { type: "image/png", width: view.getUint32(16), height: view.getUint32(20) };
}

/** The frame header (SOF, markers C0 to CF without DHT, JPG and DAC) has height, then width (ITU-T T.81, B.2.2). */
function sizeOfJpeg(view: DataView): Sized | undefined {
  if (view.byteLength < 4 || view.getUint16(0) !== 0xffd8) return undefined;
  for (let at = 2; at + 9 <= view.byteLength; ) {
    if (view.getUint8(at) !== 0xff) return undefined;
    const marker = view.getUint8(at + 1);
    const isFrame = marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
    if (isFrame) return { type: "image/jpeg", height: view.getUint16(at + 5), width: view.getUint16(at + 7) };
    at += 2 + view.getUint16(at + 2);
  }
  return undefined;
}
