/**
 * An event as this version writes it. Events of version 1 said `eased` for `gone back` and `reentryMs` for `landingMs`; they are read for ever. What is
 * not an event of version 1 is given back as it is.
 */
export function currentEvent(value: unknown): unknown {
  if (!isVersion1(value)) return value;
  const { kind, measured } = value;
  return {
    ...value,
    version: 2,
    ...(kind === "eased" ? { kind: "gone back" } : {}),
    ...(isObject(measured) && "reentryMs" in measured ? { measured: currentMeasured(measured) } : {}),
  };
}

function currentMeasured({ reentryMs, ...rest }: Readonly<Record<string, unknown>>): object {
  return { ...rest, landingMs: reentryMs };
}

function isVersion1(value: unknown): value is Readonly<Record<string, unknown>> {
  return isObject(value) && value.version === 1;
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return value !== null && typeof value === "object" && !Array.isArray(value);
}
