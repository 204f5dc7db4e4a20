import { Ajv2020, type ValidateFunction } from "ajv/dist/2020.js";
import { describe, expect, test } from "vitest";
import { FORMATS, type FormatKey, keysOf, PLACES, withKey } from "./formatKeys.js";

const ajv = new Ajv2020({ strict: false, formats: { "date-time": true, date: true } });
for (const schema of FORMATS.values()) ajv.addSchema(schema);

/** What no key takes, each in turn. */
const WRONG: readonly unknown[] = [null, { "a key of tomorrow": 1 }, -1e300, "\u0000", [[]]];

const compiled = new Map<string, ValidateFunction>();
function takes({ place }: FormatKey, value: unknown): boolean {
  const reference = `${String(FORMATS.get(place.format)!.$id)}#${encodeURI(place.pointer)}`;
  const validate = compiled.get(reference) ?? ajv.compile({ $ref: reference });
  compiled.set(reference, validate);
  return validate(value) as boolean;
}

const KEYS = PLACES.flatMap(keysOf);

describe(`the ${KEYS.length} keys of the formats`, () => {
  test.each(KEYS.map((key) => [`${key.place.format}${key.place.pointer} ${key.name}`, key] as const))(
    "%s: has a meaning, an example that is taken, and a value that is refused",
    (_name, key) => {
      const document = withKey(key);
      expect(key.value.description).toMatch(/\w/);
      expect(takes(key, document), JSON.stringify(document)).toBe(true);
      const refused = WRONG.filter((wrong) => !takes(key, { ...document, [key.name]: wrong }));
      expect(refused.length).toBeGreaterThan(2);
    },
  );
});
