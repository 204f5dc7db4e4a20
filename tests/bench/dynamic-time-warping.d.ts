declare module "dynamic-time-warping" {
  export default class DynamicTimeWarping<T> {
    constructor(first: readonly T[], second: readonly T[], distance: (a: T, b: T) => number);
    getDistance(): number;
    getPath(): [number, number][];
  }
}
