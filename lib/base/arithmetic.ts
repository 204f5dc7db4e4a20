import {
  add,
  compare,
  divide,
  equals,
  floor,
  fraction,
  fractionText,
  gcd,
  multiply,
  negate,
  ONE,
  parseFraction,
  subtract,
  toNumber,
  ZERO,
} from "./fraction.js";

/** Exact fractions under short names, as applications reach them: `fraction.add`, `fraction.of`. An object, since a bundler cannot leave a namespace out. */
export const arithmetic: {
  readonly add: typeof add;
  readonly compare: typeof compare;
  readonly divide: typeof divide;
  readonly equals: typeof equals;
  readonly floor: typeof floor;
  readonly gcd: typeof gcd;
  readonly multiply: typeof multiply;
  readonly negate: typeof negate;
  readonly of: typeof fraction;
  readonly ONE: typeof ONE;
  readonly parse: typeof parseFraction;
  readonly subtract: typeof subtract;
  readonly text: typeof fractionText;
  readonly toNumber: typeof toNumber;
  readonly ZERO: typeof ZERO;
} = {
  add,
  compare,
  divide,
  equals,
  floor,
  gcd,
  multiply,
  negate,
  of: fraction,
  ONE,
  parse: parseFraction,
  subtract,
  text: fractionText,
  toNumber,
  ZERO,
};
