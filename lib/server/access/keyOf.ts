/** Name of the cookie of a session. */
export const COOKIE = "leeway";

/** The secret that a request brings, and how. */
export interface Brought {
  readonly secret: string;
  readonly by: "cookie" | "token";
}

/** The secret of a request: a bearer token, else the cookie of a session; `undefined` without either. */
export function keyOf(headers: Headers): Brought | undefined {
  const bearer = /^Bearer +([\w-]{1,200})$/i.exec(headers.get("authorization") ?? "")?.[1];
  if (bearer !== undefined) return { secret: bearer, by: "token" };
  const cookies = (headers.get("cookie") ?? "").split(/; */).map((each) => each.split("="));
  const session = cookies.find(([name]) => name === COOKIE)?.[1];
  return session ? { secret: session, by: "cookie" } : undefined;
}
