/** Rules 4 to 6 together, and what is left to share when a line is not done (rule 13). */
import { describe, expect, it } from 'vitest';
import type { PricedEstimate } from '../../../src/index.js';
import { assertAddsUp } from '../../support/assert-adds-up.js';
import { aCatalogue, anEstimate, anOperation, aRateCard, aStep, operationLine, priceDocuments } from '../../support/builders.js';
import type { CatalogueDoc, OperationLine } from '../../support/oracle-documents.js';

const line = (id: string, more: Partial<OperationLine> = {}): OperationLine => operationLine(id, id, more);

function priced(catalogue: Partial<CatalogueDoc>, lines: OperationLine[], only?: ReadonlySet<string>): PricedEstimate {
  const documents = { estimate: anEstimate(lines), catalogue: aCatalogue(catalogue), rates: aRateCard() };
  const result = priceDocuments(documents, only === undefined ? {} : { only });
  assertAddsUp(result);
  return result;
}
const charged = ({ lines }: PricedEstimate): Record<string, string> =>
  Object.fromEntries(lines.map((each) => [each.id, each.chargedHours]));

describe('a step, an inclusion and a declared overlap in one estimate', () => {
  const catalogue: Partial<CatalogueDoc> = {
    steps: [aStep('drain', '0.6')],
    operations: [
      anOperation('pump', '3.0', { steps: ['drain'], includes: ['thermostat'] }),
      anOperation('thermostat', '1.0', { steps: ['drain'] }),
      anOperation('hose', '1.4', { steps: ['drain'] }),
      anOperation('belt', '0.8'),
    ],
    overlaps: [
      { between: ['pump', 'belt'], hours: '0.5' },
      { between: ['hose', 'pump'], hours: '0.7' },
    ],
  };
  const lines = ['hose', 'belt', 'thermostat', 'pump'].map((id) => line(id));

  it('each takes its own share', () => {
    // pump 3.0 carries the drain; thermostat is part of it: 0;
    // hose 1.4 − 0.6 (drain) − (0.7 − 0.6) (declared, beyond the drain) = 0.7; belt 0.8 − 0.5 = 0.3.
    const all = priced(catalogue, lines);
    expect(charged(all)).toEqual({ hose: '0.7', belt: '0.3', thermostat: '0', pump: '3' });
    // 0.6 + 0.1 + 0.5 + 1.0
    expect(all.overlap.hours).toBe('2.2');
    expect(all.totals.labour).toBe('400.00');
  });

  it('without the pump all of it comes back to those that still need it', () => {
    const rest = priced(
      catalogue,
      lines.map((each) => (each.id === 'pump' ? { ...each, decision: 'declined' as const } : each)),
    );
    // hose 1.4 carries the drain, thermostat 1.0 − 0.6, belt 0.8.
    expect(charged(rest)).toEqual({ hose: '1.4', belt: '0.8', thermostat: '0.4', pump: '0' });
    expect(rest.lines[3]).toMatchObject({ priced: false, bookHours: '3', chargedHours: '0', amount: '0.00', carries: [], uses: [] });
  });

  it('each alone costs its book hours', () => {
    for (const id of ['hose', 'belt', 'thermostat', 'pump']) {
      const alone = priced(catalogue, lines, new Set([id])).lines.find((each) => each.id === id)!;
      expect([alone.chargedHours, alone.sharedHours]).toEqual([alone.bookHours, '0']);
    }
  });
});

it('the worked check of the design: declining the O-rings leaves the gasket at 300.00', () => {
  const catalogue = {
    steps: [aStep('plenum', '1.2'), aStep('rail', '0.5')],
    operations: [anOperation('gasket', '2.0', { steps: ['plenum'] }), anOperation('o-rings', '2.6', { steps: ['plenum', 'rail'] })],
  };
  const rates = aRateCard({ labourClasses: [{ id: 'general', title: '', rate: '150.00' }] });
  const total = (decision: 'proposed' | 'declined' | 'deferred'): string =>
    priceDocuments({
      estimate: anEstimate([line('gasket'), line('o-rings', { decision })]),
      catalogue: aCatalogue(catalogue),
      rates,
    }).totals.total;
  // 0.8 h + 2.6 h = 3.4 h × 150; alone 2.0 h × 150.
  expect([total('proposed'), total('declined'), total('deferred')]).toEqual(['510.00', '300.00', '300.00']);
});

it('a catalogue without steps or overlaps charges book hours', () => {
  const catalogue = { operations: [anOperation('a', '1.5'), anOperation('b', '2.5')] };
  expect(charged(priced(catalogue, [line('a'), line('b')]))).toEqual({ a: '1.5', b: '2.5' });
});

it('no operation lines, no overlap', () => {
  expect(priced({}, []).overlap).toEqual({ hours: '0', money: '0.00', steps: [], pairs: [] });
});
