import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { expect } from 'vitest';

/**
 * Compares a generated file with what its source says now. `UPDATE=1 npm run generate` writes it instead.
 */
export function expectGenerated(path: string, content: string): void {
  if (process.env.UPDATE === '1') writeFileSync(path, content);
  const present = existsSync(path) ? readFileSync(path, 'utf8') : '';
  expect(present === content, `${path} is stale: run \`npm run generate\` and commit what it writes`).toBe(true);
}
