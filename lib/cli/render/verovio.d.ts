/** Types of the used part of Verovio's WebAssembly package, which has none. */
declare module "verovio/wasm" {
  export default function createModule(): Promise<unknown>;
}

declare module "verovio/esm" {
  import type { VerovioToolkit as Toolkit } from "../../render/sheet/index.js";
  export const VerovioToolkit: new (module: unknown) => Toolkit;
}
