/** The customer's copy prices every yes and no as the full documents do, and passes every check. */
import { describe, expect, it } from 'vitest';
import { parseCatalogue, parseEstimate, parseRates, priceEstimate } from '../../../src/index.js';
import { prepare } from '../../../src/pricing/documents.js';
import { Pricer } from '../../../src/pricing/pricer.js';
import { type CustomerCopy, customerCopy } from '../../../src/share/customer-copy.js';
import { forAll, randomDocuments } from '../../support/arbitraries.js';
import { aCatalogue, aPart, anEstimate, anOperation, aRateCard, operationLine, readDocuments } from '../../support/builders.js';
import type { Documents } from '../../support/oracle-documents.js';
import { demoDocuments } from './documents.js';

const seed = Number(process.env['BAYSHEET_SEED'] ?? 1);

function pricer(documents: unknown): (only: ReadonlySet<string>) => string {
  const read = prepare(documents as Parameters<typeof prepare>[0]);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  const { estimate, index, rates } = read.prepared;
  const made = new Pricer(index, rates);
  return (only) => made.total(estimate, only).toFixed();
}

/** Totals of every subset of up to six lines, of some of more. */
function subsets(ids: readonly string[]): Set<string>[] {
  const most = 64;
  const count = Math.min(most, 2 ** ids.length);
  return Array.from({ length: count }, (_, i) => {
    const bits = ids.length > 6 ? Math.floor((i * (2 ** ids.length - 1)) / (most - 1)) : i;
    return new Set(ids.filter((_, k) => (bits >> k) & 1));
  });
}

function expectSameTotals(documents: Documents, copy: CustomerCopy): void {
  const [full, reduced] = [pricer(readDocuments(documents)), pricer(copy)];
  for (const only of subsets(documents.estimate.lines.map(({ id }) => id))) {
    const expected = full(only);
    const found = reduced(only);
    if (found !== expected) throw new Error(`${[...only].join(' ')}: ${found} for ${expected}\n${JSON.stringify(documents)}`);
  }
}

function forDocuments(runs: number, check: (documents: Documents) => void, long = false): void {
  forAll(runs, (d) => check(randomDocuments(d)), { seed, long });
}

describe(`customerCopy (seed ${seed})`, () => {
  it('gives three documents that read without an error, and that are what they read as', () => {
    forDocuments(150, (documents) => {
      const copy = customerCopy(readDocuments(documents));
      expect(parseEstimate(copy.estimate)).toMatchObject({ ok: true, value: copy.estimate });
      expect(parseCatalogue(copy.catalogue)).toMatchObject({ ok: true, value: copy.catalogue });
      expect(parseRates(copy.rates)).toMatchObject({ ok: true, value: copy.rates });
    });
  });

  it.each([' ', '\t\n', '\ufeff'])('does so where the component of a finding is nothing but space: %j', (component) => {
    const documents = demoDocuments();
    const [first, ...others] = documents.estimate.findings;
    const estimate = { ...documents.estimate, findings: [{ ...first!, component }, ...others] };
    const copy = customerCopy({ ...documents, estimate });
    expect(parseCatalogue(copy.catalogue)).toMatchObject({ ok: true });
    expect(copy.estimate.findings[0]!.component).toBe('');
    expect(priceEstimate(copy).totals.total).toBe(priceEstimate(documents).totals.total);
  });

  it('comes to the same total whatever lines are chosen', () => {
    forDocuments(200, (documents) => expectSameTotals(documents, customerCopy(readDocuments(documents))));
  });

  it('shows the same charges, hours and taxes', () => {
    forDocuments(150, (documents) => {
      const shown = (given: Parameters<typeof priceEstimate>[0]): unknown => {
        const priced = priceEstimate(given);
        const charges = priced.charges.map(({ line, kind, title, qty, unit, amount, discount, part }) => [
          line,
          kind,
          title,
          qty,
          unit,
          amount,
          discount,
          part?.number,
          part?.condition,
        ]);
        const lines = priced.lines.map(({ uses, carries, ...line }) => ({
          ...line,
          title: line.priced ? line.title : '',
          uses: uses.length,
          carries: carries.length,
        }));
        const { taxes, discounts, ...totals } = priced.totals;
        return {
          charges,
          lines,
          totals,
          taxes: taxes.map(({ id: _, ...tax }) => tax),
          discounts: discounts.map(({ id: _, ...each }) => each),
          complete: priced.complete,
        };
      };
      const full = readDocuments(documents);
      expect(shown(customerCopy(full))).toEqual(shown(full));
    });
  });

  it('keeps figures as long as the formats allow, or says that a price has too many digits', () => {
    let copied = 0;
    forDocuments(
      100,
      (documents) => {
        let copy: CustomerCopy;
        try {
          copy = customerCopy(readDocuments(documents));
        } catch (fault) {
          expect(fault).toMatchObject({ code: 'figure', message: expect.stringMatching(/^The price \d+(\.\d+)? has more digits/) });
          return;
        }
        copied += 1;
        expectSameTotals(documents, copy);
      },
      true,
    );
    expect(copied).toBeGreaterThan(20);
  });

  it('is a copy of a copy: the second is the first', () => {
    forDocuments(60, (documents) => {
      const copy = customerCopy(readDocuments(documents));
      expect(customerCopy(copy)).toEqual(copy);
    });
  });

  it('leaves the full documents as they were', () => {
    const full = demoDocuments();
    const before = JSON.stringify(full);
    customerCopy(full);
    expect(JSON.stringify(full)).toBe(before);
  });

  it('keeps an inclusion that leads over an operation which the estimate does not use', () => {
    const documents = readDocuments({
      estimate: anEstimate([operationLine('l1', 'outer'), operationLine('l2', 'inner')]),
      catalogue: aCatalogue({
        operations: [
          anOperation('inner', '1'),
          anOperation('between', '2', { includes: ['inner'] }),
          anOperation('outer', '3', { includes: ['between'] }),
        ],
      }),
      rates: aRateCard(),
    });
    const copy = customerCopy(documents);
    expect(copy.catalogue.operations.map(({ title }) => title)).toEqual(['Operation outer', 'Operation inner']);
    expect(priceEstimate(copy).lines.map(({ includedIn }) => includedIn)).toEqual([null, 'l1']);
    expect(priceEstimate(copy).totals.total).toBe('300.00');
  });

  it('turns costs into prices: of catalogue parts, of a cost typed on a line, of sublet work', () => {
    const documents = readDocuments({
      estimate: anEstimate([
        operationLine('l1', 'job'),
        operationLine('l2', 'other', { parts: [{ part: 'hose', cost: '20.00' }] }),
        { id: 'l3', kind: 'part', title: 'Clip', number: '', qty: '1', cost: '4.00', unitPrice: null, core: '0', condition: 'new' },
        { id: 'l4', kind: 'sublet', title: 'Test', cost: '80.00', price: null },
      ]),
      catalogue: aCatalogue({
        parts: [aPart('hose', '10.00')],
        operations: ['job', 'other'].map((id) => anOperation(id, '1', { parts: [{ part: 'hose', qty: '1' }] })),
      }),
      rates: aRateCard({ parts: { basis: 'markup', mode: 'whole', tiers: [{ percent: '50' }] }, sublet: { percent: '25' } }),
    });
    const { catalogue, estimate, rates } = customerCopy(documents);
    expect(catalogue.parts).toMatchObject([{ id: 'p0', title: 'Part hose', cost: '0', list: '15' }]);
    expect(estimate.lines[1]).toMatchObject({ parts: [{ part: 'p0', cost: null, unitPrice: '30' }] });
    expect(estimate.lines[2]).toMatchObject({ cost: '0', unitPrice: '6' });
    expect(estimate.lines[3]).toMatchObject({ cost: '0', price: '100' });
    expect(rates).toMatchObject({ parts: { basis: 'list', tiers: [{ percent: '0' }] }, sublet: null });
  });

  it('says why documents cannot be copied', () => {
    const full = demoDocuments();
    expect(() => customerCopy({ ...full, estimate: {} as never })).toThrow(/The estimate cannot be shared: .*format/);
    expect(() => customerCopy({ ...full, shop: { name: 4 } as never })).toThrow(/What is said about the shop cannot be used \(name\)/);
  });

  it('keeps photos only where they are asked for', () => {
    const full = demoDocuments();
    const [first, ...others] = full.estimate.findings;
    const photographed = {
      ...full,
      estimate: {
        ...full.estimate,
        findings: [{ ...first!, seen: [{ how: '', note: '', reading: '', photo: 'data:image/png;base64,AA' }] }, ...others],
      },
    };
    expect(customerCopy(photographed).estimate.findings[0]!.seen).toEqual([]);
    expect(customerCopy(photographed, { photos: true }).estimate.findings[0]!.seen).toMatchObject([{ photo: 'data:image/png;base64,AA' }]);
  });
});
