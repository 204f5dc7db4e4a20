import type { Result as ResultOf } from "../base/index.js";
import type { wordsCodes } from "./codes.js";

/** The codes that problems of this room can have. */
export type WordsCode = keyof typeof wordsCodes;

export type Result<T> = ResultOf<T, WordsCode>;
