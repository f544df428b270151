import { type Catalogue, catalogueSchema } from '../documents/catalogue.js';

/**
 * A catalogue as JSON text in its canonical form: keys in the order of the format, what says no more than the format's
 * own default left out, two blanks of indent, a line feed at the end. Equal catalogues give equal texts, and reading
 * the text gives the catalogue, so two versions can be compared line by line.
 */
export function catalogueToJson(catalogue: Catalogue): string {
  return `${JSON.stringify(canonical(catalogue, catalogueSchema as Shape), null, 2)}\n`;
}

/** What is asked of a schema here; which of these a schema has depends on its kind. */
interface Shape {
  readonly entries?: Readonly<Record<string, Shape>>;
  readonly item?: Shape;
  readonly pipe?: readonly Shape[];
  readonly wrapped?: Shape;
  readonly default?: unknown;
}

function canonical(value: unknown, { entries, item, pipe, wrapped }: Shape): unknown {
  if (wrapped !== undefined) return value === null ? null : canonical(value, wrapped);
  if (pipe !== undefined && entries === undefined && item === undefined) return canonical(value, pipe[0]!);
  if (Array.isArray(value)) return item === undefined ? value : value.map((entry) => canonical(entry, item));
  if (typeof value !== 'object' || value === null || entries === undefined) return value;
  return Object.fromEntries(
    Object.entries(entries).flatMap(([key, shape]) => {
      const inner = (value as Record<string, unknown>)[key];
      return inner === undefined || isDefault(inner, shape) ? [] : [[key, canonical(inner, shape)]];
    }),
  );
}

function isDefault(value: unknown, shape: Shape): boolean {
  return 'default' in shape && JSON.stringify(value) === JSON.stringify(shape.default);
}
