import { rungs, settingsText } from "../../lib/drill/index.js";
import { encodeWav } from "../../lib/formats/sound/index.js";
import { enrol, scoreFor } from "../../lib/practice/index.js";
import { digestOf } from "../../lib/server/access/digestOf.js";
import type { Store } from "../../lib/store/index.js";
import { openPostgres } from "../../lib/store/postgres/index.js";
import { strikes } from "../listen/strikes.js";
import { quay, quayText } from "../practice/quay.js";

const AT = "2026-09-01T08:00:00.000Z";
const UNTIL = "2040-01-01T00:00:00Z";

/** A class of the quay in a PostgreSQL database, for servers that are programs of their own: its store, and the token of each student. */
export async function quaySchool(
  url: string,
  names: readonly string[],
): Promise<{ readonly store: Store; readonly tokens: ReadonlyMap<string, string> }> {
  const opened = await openPostgres(url, { create: true, connections: 4 });
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  const store = opened.value;
  await store.keepCourse({ curriculum: "quay", edition: "1.0.0", file: "quay.yaml", text: quayText(), files: {} });
  const register = store.register!;
  await register.beginClass({ name: "monday", curriculum: "quay" });
  const tokens = new Map<string, string>();
  for (const name of names) {
    const digest = digestOf(`invites ${name}`);
    await register.invite({ digest, className: "monday", role: "student", name, until: UNTIL });
    const key = { digest: digestOf(`token-of-${name}`), name, kind: "token", until: UNTIL } as const;
    await register.accept((await register.invitation(digest, AT))!, key, AT);
    tokens.set(name, `token-of-${name}`);
    await enrol(store, name, { course: quay(), at: AT });
  }
  return { store, tokens };
}

const rung = rungs(quay().drills[0]!).at(0);
/** The first rung, as it is named in a request. */
export const RUNG: string = settingsText(rung.settings);
/** A recording of it, each note at its time; `start` is 0. */
const RECORDED: Buffer = (() => {
  const score = scoreFor(quay(), rung);
  const at = score.expected.map((note) => score.countIn + note.at);
  const samples = strikes(at, { rate: 44_100, seconds: at.at(-1)! + 2, noise: 1e-3 });
  return Buffer.from(encodeWav({ rate: 44_100, channels: [samples, samples] }, { samples: 16 }));
})();

export interface SentTo {
  readonly port: number;
  readonly student: string;
  readonly token: string | undefined;
  readonly take: string;
}

/** Sends the recording as a take. */
export function sendRecording({ port, student, token, take }: SentTo): Promise<Response> {
  const query = new URLSearchParams({ drill: "steady", rung: RUNG, start: "0", family: "percussive" });
  const place = `/api/students/${student}/courses/quay/takes/${encodeURIComponent(take)}?${query}`;
  const headers = { authorization: `Bearer ${token}`, "content-type": "audio/wav" };
  return fetch(`http://127.0.0.1:${port}${place}`, { method: "PUT", headers, body: RECORDED as BodyInit });
}
