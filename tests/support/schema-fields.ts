/** The fields of the formats, read from their schemas: so that one which is added later cannot be overlooked. */
import * as v from 'valibot';
import { catalogueSchema } from '../../src/documents/catalogue.js';
import { estimateSchema } from '../../src/documents/estimate.js';
import { id } from '../../src/documents/fields.js';
import { ratesSchema } from '../../src/documents/rates.js';

export const SCHEMAS = { estimate: estimateSchema, catalogue: catalogueSchema, rates: ratesSchema } as const;
export type DocumentName = keyof typeof SCHEMAS;

/** What is asked of a schema here; which of these a schema has depends on its kind. */
export interface Shape {
  readonly type: string;
  readonly entries?: Readonly<Record<string, Shape>>;
  readonly item?: Shape;
  readonly items?: readonly Shape[];
  readonly wrapped?: Shape;
  readonly options?: readonly unknown[];
  readonly key?: string;
}

/** What a field can hold: an id, a text, a figure, anything (`record`), or only words of the format. */
export type FieldKind = 'id' | 'text' | 'figure' | 'day' | 'hash' | 'code' | 'record' | 'word';

/** Values that tell what a field is: the first that it takes. */
const TELLING: readonly (readonly [FieldKind, unknown])[] = [
  ['text', 'some words with blanks in them'],
  ['figure', '13.577130007'],
  ['day', '2026-01-31'],
  ['day', '2026-01-31T14:05:00Z'],
  ['hash', '0'.repeat(64)],
  ['code', 'U3EA0'],
  ['text', 'en-US'],
  ['text', 'USD'],
];

export function fieldKind(shape: Shape): FieldKind {
  if (shape === (id as unknown as Shape)) return 'id';
  if (['literal', 'picklist', 'boolean', 'number'].includes(shape.type)) return 'word';
  if (shape.type === 'custom') return 'record';
  const found = TELLING.find(([, value]) => v.safeParse(shape as never, value).success);
  if (found === undefined) throw new Error(`Nobody knows what a field of the kind "${shape.type}" holds.`);
  return found[0];
}

/** The kinds of line, each with its own shape. */
export function variantOf({ key, options }: Shape, value: unknown): Shape | undefined {
  const asked = (value as Readonly<Record<string, unknown>>)[key!];
  return (options as readonly Shape[]).find((option) => (option.entries![key!] as unknown as { literal: unknown }).literal === asked);
}

export interface Field {
  /** `estimate.lines.parts.cost`: without the places in lists and without the kinds of line. */
  readonly path: string;
  readonly kind: FieldKind;
}

/** Every field of the three formats. */
export function allFields(): Field[] {
  const fields = new Map<string, FieldKind>();
  const walk = (shape: Shape, path: string): void => {
    if (shape.wrapped !== undefined) walk(shape.wrapped, path);
    else if (shape.type === 'variant') (shape.options as readonly Shape[]).forEach((option) => walk(option, path));
    else if (shape.entries !== undefined) for (const [key, inner] of Object.entries(shape.entries)) walk(inner, `${path}.${key}`);
    else if (shape.item !== undefined) walk(shape.item, path);
    else if (shape.items !== undefined) shape.items.forEach((item) => walk(item, path));
    else fields.set(path, fieldKind(shape));
  };
  for (const [name, schema] of Object.entries(SCHEMAS)) walk(schema, name);
  return [...fields].map(([path, kind]) => ({ path, kind }));
}
