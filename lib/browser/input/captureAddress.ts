import { registerCapture } from "./registerCapture.js";

/** The worklet beside the library, as a file. */
export function captureFile(): URL {
  return new URL("./capture.js", import.meta.url);
}

/**
 * The worklet as an address that holds it all, for a page that is a single file. A content security policy has to allow `data:` for scripts then;
 * where yours is strict, serve the file `leeway/browser/capture.js`.
 *
 * @example
 * captureAddress().startsWith("data:text/javascript,") // true
 */
export function captureAddress(): string {
  return `data:text/javascript,${encodeURIComponent(`(${registerCapture})()`)}`;
}
