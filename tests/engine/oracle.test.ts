/** The engine against the second computation in exact fractions: no figure may differ over thousands of estimates. */
import { expect, it } from 'vitest';
import { deferralProof, longFiguresProof, oracleProof } from '../prove/oracle.js';
import { type Proof, tryCases } from '../prove/proof.js';

/** The same cases with each run; `npm run prove` tries others each time, and BAYSHEET_SEED brings those back. */
const seed = Number(process.env['BAYSHEET_SEED'] ?? 1);

it.each([oracleProof, longFiguresProof, deferralProof].map((proof): [string, Proof] => [`${proof.few} ${proof.what}`, proof]))(
  `%s (seed ${seed})`,
  { timeout: 180_000 },
  async (_, proof) => {
    const { tried, counts, fault } = await tryCases(proof, { seed, cases: proof.few });
    expect(fault).toBeNull();
    expect(tried).toBe(proof.few);
    for (const [what, least] of proof.reach ?? [])
      expect(counts.get(what) ?? 0, `cases with ${what}`).toBeGreaterThan((tried * least) / 100);
  },
);
