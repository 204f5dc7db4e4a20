import { expect, test } from "vitest";
import { base64 } from "../../../lib/render/sheet/base64.js";

// RFC 4648, section 10.
test("base64() keeps the test vectors of RFC 4648", () => {
  const vectors = {
    "": "",
    f: "Zg==",
    fo: "Zm8=",
    foo: "Zm9v",
    foob: "Zm9vYg==",
    fooba: "Zm9vYmE=",
    foobar: "Zm9vYmFy",
  };
  for (const [text, coded] of Object.entries(vectors)) expect(base64(new TextEncoder().encode(text))).toBe(coded);
});
