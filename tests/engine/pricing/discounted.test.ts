/** Lines that come, go, change and change places under the same discounts: what is taken off is what a first run takes off. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { priceEstimate } from '../../../src/index.js';
import type { Line } from '../../../src/documents/lines.js';
import { indexCatalogue } from '../../../src/overlap/catalogue-index.js';
import { Pricer } from '../../../src/pricing/pricer.js';
import { indexRates } from '../../../src/pricing/rate-index.js';
import { aCatalogue, anEstimate, aRateCard, aTax, labourLine, partLine, readDocuments } from '../../support/builders.js';
import type { DiscountDoc } from '../../support/oracle-documents.js';

const DISCOUNTS: DiscountDoc[] = [
  { id: 'parts', title: 'Off parts', percent: '10', amount: null, on: ['part'], lines: [] },
  { id: 'two', title: 'Off two lines', percent: null, amount: '7.77', on: ['part', 'labour'], lines: ['l0', 'l2'] },
];

type Step =
  | { readonly do: 'insert' | 'reprice' | 'retax'; readonly at: number; readonly figure: number }
  | { readonly do: 'remove' | 'swap'; readonly at: number };

const step: fc.Arbitrary<Step> = fc.oneof(
  fc.record({
    do: fc.constantFrom('insert' as const, 'reprice' as const, 'retax' as const),
    at: fc.nat(9),
    figure: fc.integer({ min: 1, max: 9 }),
  }),
  fc.record({ do: fc.constantFrom('remove' as const, 'swap' as const), at: fc.nat(9) }),
);

function edited(lines: readonly Line[], step: Step, fresh: () => Line): readonly Line[] {
  const at = step.at % Math.max(1, lines.length);
  const line = lines[at];
  if (step.do === 'insert' || line === undefined) return lines.toSpliced(at, 0, fresh());
  switch (step.do) {
    case 'remove':
      return lines.toSpliced(at, 1);
    case 'swap':
      return [...lines.slice(0, at), ...lines.slice(at, at + 2).toReversed(), ...lines.slice(at + 2)];
    case 'retax':
      return lines.with(at, { ...line, taxes: step.figure % 2 === 0 ? [] : ['state'] });
    case 'reprice':
      return lines.with(at, {
        ...line,
        ...(line.kind === 'part' ? { unitPrice: `${step.figure}.33` } : { hours: `0.${step.figure}` }),
      });
  }
}

describe.each(['total', 'line'] as const)('taxes rounded by %s', (taxRounding) => {
  it('edits one after another', () => {
    const start = [partLine('l0', '1', '33.33'), partLine('l1', '2', '33.33'), labourLine('l2', '1.5'), partLine('l3', '1', '9.99')];
    const card = aRateCard({ taxes: [aTax('state', '6.25', { on: ['part'] })], taxRounding });
    const { estimate, catalogue, rates } = readDocuments({
      estimate: anEstimate(start, { discounts: DISCOUNTS }),
      catalogue: aCatalogue(),
      rates: card,
    });
    const [part, , labour] = estimate.lines;
    fc.assert(
      fc.property(fc.array(step, { minLength: 1, maxLength: 12 }), (steps) => {
        const pricer = new Pricer(indexCatalogue(catalogue), indexRates(rates));
        let now = estimate;
        let made = 3;
        pricer.price(now);
        for (const each of steps) {
          const fresh = (): Line => ({ ...((made += 1) % 2 === 0 ? part! : labour!), id: `l${made}` });
          now = { ...now, lines: [...edited(now.lines, each, fresh)] };
          expect(pricer.price(now)).toEqual(priceEstimate({ estimate: now, catalogue, rates }));
        }
      }),
      { numRuns: 60 },
    );
  });
});
