/** The engine against the second computation in exact fractions: no figure may differ over thousands of estimates. */
import { expect, it } from 'vitest';
import { type PricedEstimate, deferralCosts, priceEstimate } from '../../src/index.js';
import { type Drawing, forAll, randomDocuments } from '../support/arbitraries.js';
import { assertAddsUp } from '../support/assert-adds-up.js';
import { readDocuments } from '../support/builders.js';
import { differences } from '../support/oracle-compare.js';
import { type OraclePrice, oraclePrice } from '../support/oracle.js';
import type { Documents } from '../support/oracle-documents.js';
import { Fraction } from '../support/oracle-fraction.js';

/** Another seed with each run; one that failed comes back with BAYSHEET_SEED. */
const seed = Number(process.env['BAYSHEET_SEED'] ?? Date.now() % 2 ** 31);
const numRuns = Number(process.env['BAYSHEET_RUNS'] ?? 2200);

function randomOnly(d: Drawing, { estimate }: Documents): Set<string> | undefined {
  return d.chance(20) ? new Set(d.some(estimate.lines, 60).map(({ id }) => id)) : undefined;
}

function expectAgreement(priced: PricedEstimate, oracle: OraclePrice, given: unknown): void {
  const found = differences(priced, oracle);
  if (found.length > 0) throw new Error(`${found.join('\n')}\n${JSON.stringify(given)}`);
}

interface Tried extends Documents, OraclePrice {}

/** What an estimate may reach: the run must reach each in more than one of a hundred, or it proves nothing of it. */
const REACH: Record<string, (tried: Tried) => boolean> = {
  'a shared step': ({ overlap }) => overlap.steps.some(({ lines: users }) => users.length > 1),
  'a step by position': ({ overlap }) => overlap.steps.some(({ use }) => use.position !== null),
  'a step twice in one line': ({ overlap }) =>
    overlap.steps.some(({ saved, lines: users }) => users.length === 1 && !saved.isZero),
  'an included operation': ({ lines }) => lines.some(({ includedIn }) => includedIn !== null),
  'a declared overlap': ({ overlap }) => overlap.pairs.length > 0,
  'a tree of overlaps': ({ overlap }) => overlap.pairs.length > 1,
  'a discount': ({ totals }) => !totals.discount.isZero,
  'two discounts': ({ estimate, totals }) => estimate.discounts.length > 1 && !totals.discount.isZero,
  'a credit': ({ charges }) => charges.some(({ amount }) => amount.sign < 0),
  'a discount that meets a credit': ({ charges }) =>
    charges.some(({ amount, discount }) => amount.sign < 0 && !discount.isZero),
  'a core': ({ totals }) => !totals.core.isZero,
  supplies: ({ totals }) => !totals.supplies.isZero,
  'a fee for the estimate': ({ charges }) => charges.some(({ kind, line }) => kind === 'fee' && line === null),
  tax: ({ totals }) => !totals.tax.isZero,
  'tax on tax': ({ rates, totals }) => rates.taxes.some(({ after }) => after.length > 0) && !totals.tax.isZero,
  'tax line by line': ({ rates, totals }) => rates.taxRounding === 'line' && !totals.tax.isZero,
  'tax in the price': ({ rates, totals }) => rates.pricesIncludeTax && !totals.tax.isZero,
  'an exempt customer': ({ estimate }) => estimate.customer.taxExempt.length > 0,
  'cash that differs': ({ totals }) => !totals.cash.equals(totals.total),
  'a line that cannot be priced': ({ complete }) => !complete,
  'a line that is declined': ({ estimate }) => estimate.lines.some(({ decision }) => decision === 'declined'),
};

it(`agrees with exact fractions on ${numRuns} random estimates (seed ${seed})`, { timeout: 180_000 }, () => {
  const counts = new Map<string, number>();
  forAll(
    numRuns,
    (d) => {
      const documents = randomDocuments(d);
      const only = randomOnly(d, documents);
      const priced = priceEstimate(readDocuments(documents), { only });
      const oracle = oraclePrice(documents, only);
      for (const [what, test] of Object.entries(REACH)) {
        if (test({ ...documents, ...oracle })) counts.set(what, (counts.get(what) ?? 0) + 1);
      }
      expectAgreement(priced, oracle, { documents, only: only && [...only] });
      assertAddsUp(priced, documents.rates);
    },
    { seed },
  );

  for (const what of Object.keys(REACH)) {
    expect(counts.get(what) ?? 0, `estimates with ${what}`).toBeGreaterThan(numRuns / 100);
  }
});

it(`agrees with figures as long as the formats allow (seed ${seed})`, { timeout: 180_000 }, () => {
  forAll(
    Math.ceil(numRuns / 10),
    (d) => {
      const documents = randomDocuments(d);
      const priced = priceEstimate(readDocuments(documents));
      expectAgreement(priced, oraclePrice(documents), { documents });
      assertAddsUp(priced, documents.rates);
    },
    { seed, long: true },
  );
});

it(`agrees on what waiting costs (rule 14, seed ${seed})`, { timeout: 180_000 }, () => {
  forAll(
    Math.ceil(numRuns / 10),
    (d) => {
      const documents = randomDocuments(d);
      const costs = deferralCosts(readDocuments(documents));
      const total = (ids: Iterable<string>): Fraction => oraclePrice(documents, new Set(ids)).totals.total;
      const inPrice = oraclePrice(documents)
        .lines.filter(({ priced }) => priced)
        .map(({ id }) => id);
      expect(Object.keys(costs)).toEqual(
        expect.arrayContaining(
          inPrice.filter((id) => documents.estimate.lines.some((line) => line.id === id && line.kind !== 'note')),
        ),
      );
      for (const [id, cost] of Object.entries(costs)) {
        const without = inPrice.filter((other) => other !== id);
        const now = total([...without, id]).minus(total(without));
        const later = total([id]);
        expect({
          id,
          ...cost,
          now: Fraction.of(cost.now).toString(),
          later: Fraction.of(cost.later).toString(),
        }).toMatchObject({ now: now.toString(), later: later.toString() });
        expect(Fraction.of(cost.extra).toString()).toBe(later.minus(now).toString());
      }
    },
    { seed },
  );
});
