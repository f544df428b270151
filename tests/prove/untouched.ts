/** Whether something has written on what all objects have in common. */
const OBJECTS = [Object.prototype, Array.prototype, String.prototype, Function.prototype];
const keysOf = (): string => OBJECTS.map((each) => Reflect.ownKeys(each).map(String).join(' ')).join('\n');
const BEFORE = keysOf();

export function assertUntouched(): void {
  if (keysOf() !== BEFORE || ({} as { polluted?: unknown }).polluted !== undefined)
    throw new Error('A prototype of all objects has been written on.');
}

/** A case as it can be tried again by hand; texts that are too long are cut. */
export function printed(value: unknown): string {
  try {
    return (
      JSON.stringify(value, (_, each: unknown) =>
        typeof each === 'string' && each.length > 2_000 ? `${each.slice(0, 100)}… (${each.length} characters)` : each,
      ) ?? String(value)
    );
  } catch (fault) {
    return `a value that cannot be printed (${String(fault)})`;
  }
}

/** As JSON; an empty text for what is nested too deep to be written. */
export function textOf(value: unknown): string {
  try {
    return JSON.stringify(value);
  } catch (fault) {
    if (fault instanceof RangeError) return '';
    throw fault;
  }
}
