/**
 * The rules of the Experience API 1.0.3, Part Two ("Data"), for statements about activities, with the numbers of their sections. Sections,
 * rules and numbers are from memory of the published text, except those the project's collection of reference values has as verified: what a statement
 * must have, the range of scores, version 1.0.0, UUIDs, durations.
 */
export function violations(statement: unknown): readonly string[] {
  const found: string[] = [];
  const rule = (holds: boolean, text: string): boolean => {
    if (!holds) found.push(text);
    return holds;
  };
  const object = (value: unknown, what: string): value is Fields =>
    rule(value !== null && typeof value === "object" && !Array.isArray(value), `2.2 ${what} is an object`);
  const only = (value: Fields, what: string, keys: readonly string[]): void => {
    for (const key of Object.keys(value)) rule(keys.includes(key), `2.2 ${what} has no property ${key}`);
  };
  const optional = (value: unknown, holds: (value: unknown) => boolean, text: string): void =>
    void (value === undefined || rule(holds(value), text));

  const languageMap = (value: unknown, what: string): void => {
    if (value === undefined || !object(value, what)) return;
    for (const [tag, text] of Object.entries(value)) {
      rule(isLanguageTag(tag), `4.2 ${what}: ${tag} is a language tag`);
      rule(typeof text === "string", `4.2 ${what}: texts are strings`);
    }
  };
  const extensions = (value: unknown, what: string): void => {
    if (value === undefined || !object(value, what)) return;
    for (const key of Object.keys(value)) rule(isIri(key), `4.1 ${what}: ${key} is an IRI`);
  };
  const agent = (value: unknown, what: string): void => {
    if (!object(value, what)) return;
    only(value, what, ["objectType", "name", ...IDENTIFIERS]);
    rule([undefined, "Agent"].includes(value.objectType as string), `2.4.2.1 ${what} is an Agent`);
    optional(value.name, isText, `2.4.2.1 ${what}: the name is a string`);
    rule(IDENTIFIERS.filter((key) => key in value).length === 1, `2.4.2.1 ${what} has exactly one identifier`);
    optional(
      value.mbox,
      (mbox) => isText(mbox) && /^mailto:[^\s@]+@[^\s@]+$/.test(mbox),
      `2.4.2.3 ${what}: mbox is a mailto IRI`,
    );
    if (value.account === undefined || !object(value.account, `${what} account`)) return;
    only(value.account, `${what} account`, ["homePage", "name"]);
    rule(isIri(value.account.homePage), `2.4.2.4 ${what}: homePage is an IRL`);
    rule(isText(value.account.name) && value.account.name !== "", `2.4.2.4 ${what}: the account has a name`);
  };
  const activity = (value: unknown, what: string): void => {
    if (!object(value, what)) return;
    only(value, what, ["objectType", "id", "definition"]);
    rule([undefined, "Activity"].includes(value.objectType as string), `2.4.4.1 ${what} is an Activity`);
    rule(isIri(value.id), `2.4.4.1 ${what}: the id is an IRI`);
    if (value.definition === undefined || !object(value.definition, `${what} definition`)) return;
    only(value.definition, `${what} definition`, ["name", "description", "type", "moreInfo", "extensions"]);
    languageMap(value.definition.name, `${what} name`);
    languageMap(value.definition.description, `${what} description`);
    optional(value.definition.type, isIri, `2.4.4.1 ${what}: the type is an IRI`);
    optional(value.definition.moreInfo, isIri, `2.4.4.1 ${what}: moreInfo is an IRL`);
    extensions(value.definition.extensions, `${what} extensions`);
  };
  const score = (value: unknown): void => {
    if (value === undefined || !object(value, "score")) return;
    only(value, "score", ["scaled", "raw", "min", "max"]);
    const { scaled, raw, min, max } = value;
    for (const number of [scaled, raw, min, max]) optional(number, isNumber, "2.4.5.1 scores are numbers");
    optional(scaled, (n) => (n as number) >= -1 && (n as number) <= 1, "2.4.5.1 scaled is from -1 to 1");
    if (isNumber(min) && isNumber(max)) rule(min < max, "2.4.5.1 min is less than max");
    if (isNumber(raw) && isNumber(min)) rule(raw >= min, "2.4.5.1 raw is not below min");
    if (isNumber(raw) && isNumber(max)) rule(raw <= max, "2.4.5.1 raw is not above max");
  };
  const result = (value: unknown): void => {
    if (value === undefined || !object(value, "result")) return;
    only(value, "result", ["score", "success", "completion", "response", "duration", "extensions"]);
    score(value.score);
    for (const key of ["success", "completion"] as const)
      optional(value[key], (flag) => typeof flag === "boolean", `2.4.5 ${key} is a boolean`);
    optional(value.response, isText, "2.4.5 response is a string");
    optional(value.duration, isDuration, "4.6 duration is an ISO 8601 duration");
    extensions(value.extensions, "result extensions");
  };
  const context = (value: unknown, isAboutActivity: boolean): void => {
    if (value === undefined || !object(value, "context")) return;
    only(value, "context", [
      "registration",
      "instructor",
      "contextActivities",
      "revision",
      "platform",
      "language",
      "extensions",
    ]);
    optional(value.registration, isUuid, "2.4.6.1 registration is a UUID");
    if (value.instructor !== undefined) agent(value.instructor, "instructor");
    for (const key of ["revision", "platform"] as const)
      optional(value[key], (text) => isText(text) && isAboutActivity, `2.4.6 ${key} is a string, for activities only`);
    optional(value.language, (tag) => isText(tag) && isLanguageTag(tag), "2.4.6 language is a language tag");
    extensions(value.extensions, "context extensions");
    if (value.contextActivities === undefined || !object(value.contextActivities, "contextActivities")) return;
    only(value.contextActivities, "contextActivities", ["parent", "grouping", "category", "other"]);
    for (const [key, list] of Object.entries(value.contextActivities))
      for (const each of Array.isArray(list) ? list : [list]) activity(each, `2.4.6.2 ${key}`);
  };

  if (!object(statement, "a statement")) return found;
  only(statement, "a statement", [
    "id",
    "actor",
    "verb",
    "object",
    "result",
    "context",
    "timestamp",
    "stored",
    "authority",
    "version",
    "attachments",
  ]);
  rule(!hasNull(statement), "2.2 nothing is null outside extensions");
  for (const key of ["actor", "verb", "object"]) rule(key in statement, `2.4 a statement has ${key}`);
  optional(statement.id, isUuid, "2.4.1 the id is a UUID");
  if (statement.actor !== undefined) agent(statement.actor, "actor");
  if (statement.verb !== undefined && object(statement.verb, "verb")) {
    only(statement.verb, "verb", ["id", "display"]);
    rule(isIri(statement.verb.id), "2.4.3 the verb has an IRI");
    languageMap(statement.verb.display, "display");
  }
  if (statement.object !== undefined) activity(statement.object, "object");
  result(statement.result);
  context(statement.context, true);
  optional(statement.timestamp, isTimestamp, "4.5 timestamp is RFC 3339, with a known offset");
  optional(statement.version, (version) => version === "1.0.0", "2.4.10 version is 1.0.0");
  return found;
}

type Fields = Readonly<Record<string, unknown>>;

const IDENTIFIERS = ["mbox", "mbox_sha1sum", "openid", "account"] as const;

const isText = (value: unknown): value is string => typeof value === "string" && !/\p{Surrogate}/u.test(value);
const isNumber = (value: unknown): value is number => typeof value === "number" && Number.isFinite(value);

/** 4.3: with a scheme; RFC 3987 leaves out blanks, controls and a few signs, and what follows a % has to be two hexadecimal digits. */
function isIri(value: unknown): boolean {
  return (
    isText(value) &&
    /^[A-Za-z][A-Za-z0-9+.-]*:[^\s<>"{}|\\^`\p{C}]+$/u.test(value) &&
    !/%(?![0-9A-Fa-f]{2})/.test(value)
  );
}

/** 4.4: the string form of RFC 4122, section 3; versions 1 to 8 (RFC 9562) of its variant. */
export function isUuid(value: unknown): boolean {
  return isText(value) && /^[0-9a-f]{8}-[0-9a-f]{4}-[1-8][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}$/i.test(value);
}

/** 4.5: RFC 3339, section 5.6 and 5.7; not with the offsets -00, -0000 and -00:00. */
export function isTimestamp(value: unknown): boolean {
  const match = isText(value)
    ? /^(\d{4})-(\d\d)-(\d\d)T([01]\d|2[0-3]):[0-5]\d:([0-5]\d|60)(\.\d+)?(Z|[+-]([01]\d|2[0-3]):[0-5]\d)$/.exec(value)
    : null;
  if (match === null || match[7] === "-00:00") return false;
  const [, year, month, day] = match.map(Number) as [number, number, number, number];
  const date = new Date(Date.UTC(year, month - 1, day));
  return date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
}

/** 4.6: ISO 8601 4.4.3.2; weeks stand alone, only the last part may have decimals. */
export function isDuration(value: unknown): boolean {
  const number = "\\d+(?:[.,]\\d+(?!.*\\d[YMDTHS]))?";
  const parts = (letters: string): string => [...letters].map((letter) => `(?:${number}${letter})?`).join("");
  const whole = new RegExp(`^P(?:${number}W|(?=.)${parts("YMD")}(?:T(?=.)${parts("HMS")})?)$`);
  return isText(value) && whole.test(value);
}

/** RFC 5646, section 2.1, without its grandfathered tags. */
function isLanguageTag(tag: string): boolean {
  const language = "(?:[a-z]{2,3}(?:-[a-z]{3}){0,3}|[a-z]{4,8})";
  const rest =
    "(?:-[a-z]{4})?(?:-(?:[a-z]{2}|\\d{3}))?(?:-(?:[a-z\\d]{5,8}|\\d[a-z\\d]{3}))*(?:-[a-wyz\\d](?:-[a-z\\d]{2,8})+)*(?:-x(?:-[a-z\\d]{1,8})+)?";
  return new RegExp(`^(?:${language}${rest}|x(?:-[a-z\\d]{1,8})+)$`, "i").test(tag);
}

function hasNull(value: unknown): boolean {
  if (value === null) return true;
  if (typeof value !== "object") return false;
  return Object.entries(value as Fields).some(([key, each]) => key !== "extensions" && hasNull(each));
}
