import { readFileSync } from 'node:fs';
import currencyCodes from 'currency-codes';
import { describe, it } from 'vitest';
import { jsonSchemas } from '../support/json-schema.js';
import { betweenMarks, elementTables, shownCode } from '../support/readme-tables.js';
import { expectGenerated } from './generated.js';

describe('generated files', () => {
  it('src/number/currency-digits.ts holds the ISO 4217 list of the package currency-codes', () => {
    const codes = new Map<number, string[]>();
    for (const { code, digits } of currencyCodes.data) codes.set(digits, [...(codes.get(digits) ?? []), code]);
    const rows = [...codes].sort(([a], [b]) => a - b).map(([digits, list]) => `  [${digits}, '${list.sort().join(' ')}'],`);
    expectGenerated(
      'src/number/currency-digits.ts',
      `// Generated from the ISO 4217 list of the package currency-codes by \`npm run generate\`. Do not edit.

const BY_DIGITS: readonly (readonly [digits: number, codes: string])[] = [
${rows.join('\n')}
];

/** The decimal places of each currency's minor unit. */
export const CURRENCY_DIGITS: ReadonlyMap<string, number> = new Map(
  BY_DIGITS.flatMap(([digits, codes]) => codes.split(' ').map((code) => [code, digits] as const)),
);
`,
    );
  });

  it('README.md describes the elements as their comments do, and shows the code of the demonstration', () => {
    let readme = readFileSync('README.md', 'utf8');
    for (const [tag, tables] of elementTables()) readme = betweenMarks(readme, tag, tables);
    for (const [path, code] of shownCode()) readme = betweenMarks(readme, path, code);
    expectGenerated('README.md', readme);
  }, 60_000);

  for (const [name, schema] of Object.entries(jsonSchemas())) {
    it(`rates/schema/${name}.schema.json says what the runtime check says`, () => {
      expectGenerated(`rates/schema/${name}.schema.json`, `${JSON.stringify(schema, null, 2)}\n`);
    });
  }
});
