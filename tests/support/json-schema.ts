import { toJsonSchema } from '@valibot/to-json-schema';
import { catalogueSchema } from '../../src/documents/catalogue.js';
import { estimateSchema } from '../../src/documents/estimate.js';
import { ratesSchema } from '../../src/documents/rates.js';

/**
 * The three formats as JSON Schema (draft 2020-12), from the same schemas as the runtime check. Used when the files in
 * `rates/schema/` are generated. What JSON Schema cannot say (references between
 * entries) is left to the parse functions.
 */
export function jsonSchemas(): Record<string, object> {
  const options = { target: 'draft-2020-12', typeMode: 'input', errorMode: 'ignore' } as const;
  const entries = { catalogue: catalogueSchema, rates: ratesSchema, estimate: estimateSchema };
  return Object.fromEntries(
    Object.entries(entries).map(([name, schema]) => [
      name,
      { $schema: 'https://json-schema.org/draft/2020-12/schema', title: `baysheet-${name} version 1`, ...toJsonSchema(schema, options) },
    ]),
  );
}
