import { storeProblem } from "../codes.js";
import { type StoreProblem, storeFailure } from "../failure.js";
import { sayProblem } from "../say.js";

/**
 * The address of a database without what is secret, for people.
 *
 * Throws STORE_ADDRESS_UNREADABLE, which repeats no part of it, when user, password, host and database cannot be told apart with certainty:
 * a sign that was not escaped makes a piece of the password the name of a host or a database, which messages and look-ups would then tell.
 */
export function placeOf(url: string): string {
  // With the host in the parameters, as for a socket, nothing need stand behind the user.
  const whole = parsed(url);
  const parts = whole ?? parsed(url.replace("@/", "@localhost/"));
  if (parts === undefined || !isCertain(parts)) throw unreadable();
  const { protocol, username, pathname } = parts;
  return `${protocol}//${username === "" ? "" : `${username}@`}${whole?.host ?? ""}${pathname}`;
}

function parsed(url: string): URL | undefined {
  try {
    return /^postgres(?:ql)?:\/\//i.test(url) ? new URL(url) : undefined;
  } catch {
    return undefined;
  }
}

/** What is escaped can be read, and signs that end or divide parts of an address stand in none of them. */
function isCertain({ username, password, hostname, pathname, search, hash }: URL): boolean {
  try {
    for (const part of [password, pathname]) decodeURIComponent(part);
    const host = decodeURIComponent(hostname);
    const isHost = /^\[[\da-f:.]+\]$/i.test(host) || !/[:@]/.test(host);
    const isUser = !decodeURIComponent(username).includes(":");
    return isHost && isUser && !/[:@]/.test(pathname) && !search.includes("@") && hash === "";
  } catch {
    return false;
  }
}

function unreadable(): StoreProblem {
  const message = sayProblem("store-problem.store-address-unreadable");
  const remedy = sayProblem("store-problem.store-address-unreadable-remedy");
  return storeFailure(storeProblem("STORE_ADDRESS_UNREADABLE", message, {}, remedy));
}
