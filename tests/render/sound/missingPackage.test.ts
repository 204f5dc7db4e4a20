import { expect, test, vi } from "vitest";
import { decodeSound, encodeFlac, encodeWav } from "../../../lib/formats/index.js";
import { readSoundBank } from "../../../lib/render/sound/index.js";

const SOUND = { rate: 44100, channels: [new Float32Array(64), new Float32Array(64)] } as const;
const flac = encodeFlac(SOUND);

vi.mock("../../../lib/base/ifInstalled.js", async (original) => {
  const { ifInstalled } = await original<typeof import("../../../lib/base/ifInstalled.js")>();
  return {
    ifInstalled: <T>(load: () => Promise<T>) => (isMissing() ? Promise.resolve(undefined) : ifInstalled(load)),
  };
});
const isMissing = vi.hoisted(() => vi.fn(() => false));

test("readSoundBank() names the package to install when it is not there", async () => {
  isMissing.mockReturnValue(true);
  expect(await readSoundBank(new TextEncoder().encode("RIFF"))).toMatchObject({
    ok: false,
    problems: [{ code: "SYNTHESISER_MISSING", remedy: expect.stringContaining("npm install spessasynth_core") }],
  });
});

test("decodeSound() names the package to install when it is not there; WAV needs none", async () => {
  isMissing.mockReturnValue(true);
  expect(await decodeSound(flac)).toMatchObject({
    ok: false,
    problems: [{ code: "RECORDING_DECODER_MISSING", remedy: expect.stringContaining("npm install libflacjs") }],
  });
  expect(await decodeSound(encodeWav(SOUND))).toMatchObject({ ok: true });
});
