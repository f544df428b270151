/** Tampered links: none may be accepted. 10,000 with every test run, 100,000 with `npm run prove -- tampered`; BAYSHEET_SEED brings a run back. */
import { expect, it } from 'vitest';
import { tryCases } from '../../prove/proof.js';
import { tamperedProof } from '../../prove/tampered.js';

const seed = Number(process.env['BAYSHEET_SEED'] ?? 1);

it(`refuses ${tamperedProof.few} tampered links (seed ${seed})`, { timeout: 300_000 }, async () => {
  const { tried, counts, fault } = await tryCases(tamperedProof, { seed, cases: tamperedProof.few });
  expect(fault).toBeNull();
  expect(tried).toBe(tamperedProof.few);
  for (const [what, least] of tamperedProof.reach!) expect(counts.get(what) ?? 0, what).toBeGreaterThan((tried * least) / 100);
  expect(counts.get('(refused: damaged)') ?? 0).toBe(0);
});
