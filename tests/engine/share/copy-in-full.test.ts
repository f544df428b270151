/** One estimate with something in every field, and all that its customer gets of it: new names, sell prices, nothing private. */
import { expect, it } from 'vitest';
import { customerCopy } from '../../../src/share/customer-copy.js';
import { packCopy, unpackCopy } from '../../../src/share/pack.js';
import { aCatalogue, anEstimate, anOperation, aPart, aRateCard, aStep, aTax, feeLine, labourLine, operationLine, partLine, readDocuments } from '../../support/builders.js';
import type { LineDoc } from '../../support/oracle-documents.js';

const PHOTO = 'data:image/png;base64,AA';

function documents() {
  return readDocuments({
    catalogue: aCatalogue({
      id: 'secret', title: 'Secret', note: 'Secret',
      cautions: [{ id: 'hot', text: 'Hot.' }],
      components: [{ id: 'heater-hose', title: 'Heater hose', positions: ['feed'] }, { id: 'unused', title: 'Unused', positions: [] }],
      remedies: [{ component: 'heater-hose', fault: 'seeps', operations: ['hose'], instead: [] }],
      parts: [aPart('coolant', '5.00'), aPart('seal', '2.00', { list: '9.99', core: '1.00', condition: 'used' }), aPart('unused', '1')],
      steps: [
        aStep('tray', '0.2', { cautions: ['hot'] }), aStep('drain', '0.6', { needs: ['tray'], parts: [{ part: 'coolant', qty: '6' }] }),
        aStep('wheel', '0.3', { per: 'position' }), aStep('unused', '0.1'),
      ],
      operations: [
        anOperation('hose', '1.4', { steps: ['drain'], additionalHours: '0.2', parts: [{ part: 'seal', qty: '2', each: true }], fees: ['disposal'], cautions: ['hot'], basis: 'measured' }),
        anOperation('pump', '3.1', { steps: ['drain'], includes: ['hose'], labourClass: 'electrical' }),
        anOperation('pads', '0.9', { per: 'position', steps: ['wheel'] }),
        anOperation('unused', '1.0'),
      ],
      overlaps: [{ between: ['pump', 'pads'], hours: '0.1' }, { between: ['pump', 'unused'], hours: '0.5' }],
    }),
    rates: aRateCard({
      id: 'secret', title: 'Secret', moneyStep: '0.01',
      labourClasses: [{ id: 'unused', title: 'Unused', rate: '1' }, { id: 'general', title: 'General', rate: '100.00' }, { id: 'electrical', title: 'Electrical', rate: '120.00' }],
      parts: { basis: 'markup', mode: 'whole', tiers: [{ percent: '50' }] },
      sublet: { percent: '25' },
      supplies: { title: 'Supplies', percent: '6', of: ['labour'], minimum: '1', maximum: '45.00', taxes: ['state'] },
      fees: [{ id: 'unused', title: 'Unused', amount: '1', per: 'unit' }, { id: 'disposal', title: 'Disposal', amount: '6.50', per: 'estimate', taxes: ['city'] }],
      taxes: [aTax('state', '6.25', { on: ['part'] }), aTax('city', '1', { on: ['labour'], after: ['state'] })],
      authorisation: { percent: '10', amount: '25', pick: 'lesser', cap: '100', base: 'total', source: 'Secret' },
    }),
    estimate: anEstimate(
      [
        operationLine('l1', 'hose', {
          positions: ['feed'], findings: ['leak', 'gone'], labourClass: 'electrical', taxes: ['city'], extraHours: { hours: '0.3', reason: 'seized' },
          parts: [{ part: 'seal', cost: '4.00' }, { part: 'coolant', unitPrice: '8.00', cost: '3.00' }, { part: 'unheard' }, { part: 'unknown-too' }],
        }),
        operationLine('typed', 'pump', { bookHours: '3.3', decision: 'approved' }),
        operationLine('l3', 'pads', { positions: ['left'] }),
        labourLine('l4', '0.5'),
        partLine('l5', '2', null, { cost: '4.00', number: 'N-1', core: '3.00', condition: 'rebuilt' }),
        partLine('l6', '1', '12.00', { cost: '4.00' }),
        { id: 'l7', kind: 'sublet', title: 'Alignment', cost: '80.00', price: null },
        { id: 'l8', kind: 'sublet', title: 'Test', cost: '80.00', price: '90.00' },
        feeLine('l9', '12.00'),
        { id: 'l10', kind: 'note', text: 'Ask again in May.' },
      ].map((line): LineDoc => ({ ...line, note: 'Secret' }) as never),
      {
        id: 'e1', number: '1042', revision: 3,
        vehicle: { label: 'made-up van', vin: 'V', plate: 'P', odometer: '123', unit: 'km' },
        customer: { name: 'Invented Name', phone: 'Secret', email: 'Secret', taxExempt: ['state', 'unheard'] },
        concern: 'Smells sweet.', cause: 'Secret', correction: 'Secret',
        rounds: [{ n: 1, method: 'pressure', clean: false, note: 'Secret' }],
        findings: [
          {
            id: 'leak', round: 1, component: 'heater-hose', position: 'feed', fault: 'seeps', urgency: 'now', text: 'Wet.',
            seen: [
              { how: 'dye trace', note: 'Secret', reading: '', photo: PHOTO }, { how: '', note: 'Secret', reading: '3 psi', photo: '' },
              { how: '', note: 'Secret', reading: '', photo: '' }, { how: '', note: '', reading: '', photo: PHOTO },
            ],
          },
          { id: 'worn', round: 1, component: '', position: '', fault: 'worn', urgency: 'soon', text: '', seen: [] },
          { id: 'else', round: 1, component: 'somewhere', position: '', fault: 'loose', urgency: 'watch', text: '', seen: [] },
        ],
        discounts: [{ id: 'secret', title: 'Welcome', percent: '10', amount: null, on: ['labour'], lines: ['l1'] }],
        extra: { secret: 1 },
      },
    ),
  });
}

const common = { taxes: null, decision: 'proposed', note: '' };

const EXPECTED = {
  shop: { name: 'Shop', phone: '', email: '', address: '', terms: '' },
  estimate: {
    format: 'baysheet-estimate', version: 1, id: 'e1', number: '1042', revision: 3, createdAt: '2026-03-02T14:05:00Z',
    vehicle: { label: 'made-up van', vin: 'V', plate: 'P', odometer: '123', unit: 'km' },
    customer: { name: 'Invented Name', phone: '', email: '', taxExempt: ['t0'] },
    concern: 'Smells sweet.', cause: '', correction: '',
    rounds: [{ n: 1, method: 'pressure', clean: false, note: '' }],
    findings: [
      {
        id: 'f0', round: 1, component: 'k0', position: 'feed', fault: 'seeps', urgency: 'now', text: 'Wet.',
        seen: [{ how: 'dye trace', note: '', reading: '', photo: '' }, { how: '', note: '', reading: '3 psi', photo: '' }],
      },
      { id: 'f1', round: 1, component: '', position: '', fault: 'worn', urgency: 'soon', text: '', seen: [] },
      { id: 'f2', round: 1, component: 'k1', position: '', fault: 'loose', urgency: 'watch', text: '', seen: [] },
    ],
    lines: [
      {
        ...common, id: 'l1', kind: 'operation', operation: 'o0', taxes: ['t1'], positions: ['feed'], findings: ['f0'], labourClass: 'c1', bookHours: null,
        extraHours: { hours: '0.3', reason: 'seized' },
        parts: [
          // 4.00 and half as much again; a price that was typed stays.
          { part: 'p1', qty: null, unitPrice: '6', cost: null, condition: null, omit: false },
          { part: 'p0', qty: null, unitPrice: '8.00', cost: null, condition: null, omit: false },
          // Of two that the catalogue lacks one, so that the line stays unpriced.
          { part: 'unknown', qty: null, unitPrice: null, cost: null, condition: null, omit: false },
        ],
      },
      { ...common, id: 'typed', kind: 'operation', operation: 'o1', decision: 'approved', positions: [], findings: [], labourClass: null, bookHours: '3.3', extraHours: null, parts: [] },
      { ...common, id: 'l3', kind: 'operation', operation: 'o2', positions: ['left'], findings: [], labourClass: null, bookHours: null, extraHours: null, parts: [] },
      { ...common, id: 'l4', kind: 'labour', title: 'Labour l4', hours: '0.5', labourClass: 'c0' },
      { ...common, id: 'l5', kind: 'part', title: 'Part l5', number: 'N-1', qty: '2', cost: '0', unitPrice: '6', core: '3.00', condition: 'rebuilt' },
      { ...common, id: 'l6', kind: 'part', title: 'Part l6', number: '', qty: '1', cost: '0', unitPrice: '12.00', core: '0', condition: 'new' },
      { ...common, id: 'l7', kind: 'sublet', title: 'Alignment', cost: '0', price: '100' },
      { ...common, id: 'l8', kind: 'sublet', title: 'Test', cost: '0', price: '90.00' },
      { ...common, id: 'l9', kind: 'fee', title: 'Fee l9', amount: '12.00' },
      { ...common, id: 'l10', kind: 'note', text: 'Ask again in May.' },
    ],
    discounts: [{ id: 'd0', title: 'Welcome', percent: '10', amount: null, on: ['labour'], lines: ['l1'] }],
    consents: [], history: [], extra: {},
  },
  catalogue: {
    format: 'baysheet-catalogue', version: 1, id: 'copy', title: '', note: '', cautions: [], remedies: [],
    components: [{ id: 'k0', title: 'Heater hose', positions: [] }, { id: 'k1', title: 'somewhere', positions: [] }],
    parts: [
      // 5.00 and half as much again; the card does not go by list prices.
      { id: 'p0', title: 'Part coolant', number: 'coolant', cost: '0', list: '7.5', core: '0', condition: 'new' },
      { id: 'p1', title: 'Part seal', number: 'seal', cost: '0', list: '3', core: '1.00', condition: 'used' },
    ],
    steps: [
      { id: 's0', title: 'Step drain', hours: '0.6', per: 'vehicle', needs: ['s1'], parts: [{ part: 'p0', qty: '6', each: false }], cautions: [] },
      { id: 's1', title: 'Step tray', hours: '0.2', per: 'vehicle', needs: [], parts: [], cautions: [] },
      { id: 's2', title: 'Step wheel', hours: '0.3', per: 'position', needs: [], parts: [], cautions: [] },
    ],
    operations: [
      {
        id: 'o0', title: 'Operation hose', system: '', labourClass: 'c0', per: 'vehicle', bookHours: '1.4', additionalHours: '0.2', steps: ['s0'], includes: [],
        parts: [{ part: 'p1', qty: '2', each: true }], fees: ['e0'], cautions: [], basis: 'measured',
      },
      {
        id: 'o1', title: 'Operation pump', system: '', labourClass: 'c1', per: 'vehicle', bookHours: '3.1', additionalHours: '0', steps: ['s0'], includes: ['o0'],
        parts: [], fees: [], cautions: [], basis: 'invented',
      },
      {
        id: 'o2', title: 'Operation pads', system: '', labourClass: 'c0', per: 'position', bookHours: '0.9', additionalHours: '0', steps: ['s2'], includes: [],
        parts: [], fees: [], cautions: [], basis: 'invented',
      },
    ],
    overlaps: [{ between: ['o1', 'o2'], hours: '0.1' }],
  },
  rates: {
    format: 'baysheet-rates', version: 1, id: 'copy', title: '', currency: 'USD', locale: 'en-US', effectiveFrom: null, rounding: 'half-up', moneyStep: '0.01',
    labourClasses: [{ id: 'c0', title: 'General', rate: '100.00' }, { id: 'c1', title: 'Electrical', rate: '120.00' }],
    parts: { basis: 'list', mode: 'whole', tiers: [{ upTo: null, percent: '0' }] },
    sublet: null,
    supplies: { title: 'Supplies', percent: '6', of: ['labour'], minimum: '1', maximum: '45.00', taxes: ['t0'] },
    fees: [{ id: 'e0', title: 'Disposal', amount: '6.50', per: 'estimate', taxes: ['t1'] }],
    taxes: [{ id: 't0', title: 'Tax state', percent: '6.25', on: ['part'], after: [] }, { id: 't1', title: 'Tax city', percent: '1', on: ['labour'], after: ['t0'] }],
    taxRounding: 'total', pricesIncludeTax: false, cashStep: null,
    authorisation: { percent: '10', amount: '25', pick: 'lesser', cap: '100', base: 'total', source: '' },
  },
};

it('all that the customer gets', () => {
  const copy = customerCopy({ ...documents(), shop: { name: 'Shop' } });
  expect(copy).toEqual(EXPECTED);
  expect(JSON.stringify(copy)).not.toMatch(/secret|unused/i);
});

it('goes through a link whole', async () => {
  const sealable = { copy: customerCopy({ ...documents(), shop: { name: 'Shop' } }), sealedAt: '2026-03-02T15:00:00Z' };
  expect(await unpackCopy(packCopy(sealable))).toEqual({ ok: true, value: sealable });
});
