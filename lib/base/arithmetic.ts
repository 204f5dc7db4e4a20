/** Exact fractions under short names, as applications reach them: `fraction.add`, `fraction.of`. */
export {
  add,
  compare,
  divide,
  equals,
  floor,
  fraction as of,
  fractionText as text,
  gcd,
  multiply,
  negate,
  ONE,
  parseFraction as parse,
  subtract,
  toNumber,
  ZERO,
} from "./fraction.js";
