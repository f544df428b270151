/** The proofs of `npm run prove` in their short form, always the same cases; BAYSHEET_SEED asks for others, as the long form does each time. */
import { expect, it } from 'vitest';
import { type Proof, tryCases } from '../prove/proof.js';
import { FUZZ } from '../prove/proofs.js';
import { secretsProof } from '../prove/secrets.js';

const seed = Number(process.env['BAYSHEET_SEED'] ?? 1);

it.each([...FUZZ, secretsProof].map((proof): [string, Proof] => [`${proof.few} × ${proof.what}`, proof]))(
  `%s (seed ${seed})`,
  { timeout: 180_000 },
  async (_, proof) => {
    const { tried, counts, fault } = await tryCases(proof, { seed, cases: proof.few });
    expect(fault).toBeNull();
    expect(tried).toBe(proof.few);
    // The long form asks how often each thing is met; here, that it is met at all.
    expect([...(proof.reach?.keys() ?? [])].filter((what) => !counts.has(what))).toEqual([]);
  },
);
