import { describe, expect, it } from 'vitest';
import { parseEstimate } from '../../../src/index.js';
import { anEstimate } from '../../support/builders.js';

const smallest = { format: 'baysheet-estimate', version: 1, id: 'e' };

describe('the smallest estimate', () => {
  it('is its format, version and id; the rest is empty', () => {
    expect(parseEstimate(smallest)).toEqual({
      ok: true,
      problems: [],
      value: {
        ...smallest,
        number: '',
        revision: 1,
        createdAt: '',
        vehicle: { label: '', vin: '', plate: '', odometer: '', unit: 'mi' },
        customer: { name: '', phone: '', email: '', taxExempt: [] },
        concern: '',
        cause: '',
        correction: '',
        rounds: [],
        findings: [],
        lines: [],
        discounts: [],
        consents: [],
        history: [],
        extra: {},
      },
    });
  });

  it('reads the same from JSON text', () => expect(parseEstimate(JSON.stringify(smallest))).toEqual(parseEstimate(smallest)));
});

it('a finding may begin with nothing but its id', () => {
  const read = parseEstimate({ ...smallest, findings: [{ id: 'f', seen: [{}] }] });
  expect(read.ok && read.value.findings).toEqual([
    {
      id: 'f',
      round: 1,
      component: '',
      position: '',
      fault: '',
      urgency: 'soon',
      text: '',
      seen: [{ how: '', note: '', reading: '', photo: '' }],
    },
  ]);
});

describe("what is not the engine's", () => {
  const kept = { 'any key': { deep: [1, 2.5, null, true] }, number: 0.1, text: 'x' };

  it('is kept untouched in extra, consents and history', () => {
    const read = parseEstimate({ ...smallest, extra: kept, consents: [kept], history: [kept] });
    expect(read.ok && [read.value.extra, read.value.consents, read.value.history]).toEqual([kept, [kept], [kept]]);
  });

  it('a key __proto__ there is an entry like others, and reaches no prototype', () => {
    const read = parseEstimate(`{"format":"baysheet-estimate","version":1,"id":"e","extra":{"__proto__":{"polluted":true}}}`);
    expect(read.ok && JSON.stringify(read.value.extra)).toBe('{"__proto__":{"polluted":true}}');
    expect(({} as Record<string, unknown>).polluted).toBeUndefined();
  });

  it('is an error anywhere else', () => {
    const read = parseEstimate({
      ...smallest,
      x: 1,
      vehicle: { x: 1 },
      customer: { x: 1 },
      rounds: [{ n: 1, x: 1 }],
      findings: [{ id: 'f', x: 1, seen: [{ x: 1 }] }],
      discounts: [{ id: 'd', title: 't', percent: '1', on: ['labour'], x: 1 }],
    });
    expect(read.problems.map(({ code }) => code)).toEqual(Array(7).fill('unknown-key'));
    expect(read.problems.map(({ path }) => path).sort()).toEqual([
      'customer.x',
      'discounts[0].x',
      'findings[0].seen[0].x',
      'findings[0].x',
      'rounds[0].x',
      'vehicle.x',
      'x',
    ]);
  });
});

describe('times', () => {
  const at = (createdAt: string): boolean => parseEstimate({ ...smallest, createdAt }).ok;
  it.each([
    '',
    '2026-03-02T14:05Z',
    '2026-03-02T14:05:00Z',
    '2026-03-02T14:05:00.123Z',
    '2026-03-02T14:05:00+01:00',
    '2024-02-29T00:00:00Z',
  ])('takes %j', (time) => expect(at(time)).toBe(true));
  it.each([
    '2026-03-02',
    '2026-03-02 14:05:00Z',
    '2026-03-02T14:05:00',
    '2026-13-02T14:05:00Z',
    '2026-02-31T14:05:00Z',
    '2025-02-29T00:00:00Z',
    '2026-03-02T25:05:00Z',
  ])('refuses %j', (time) => expect(at(time)).toBe(false));
});

it('a photo as large as a picture is may be longer than words may', () => {
  const photo = `data:image/jpeg;base64,${'A'.repeat(200_000)}`;
  expect(parseEstimate({ ...smallest, findings: [{ id: 'f', seen: [{ photo }] }] }).ok).toBe(true);
});

it('a discount names at least one kind of charge', () => {
  const discount = { id: 'd', title: 't', percent: '5', amount: null, on: [], lines: [] };
  expect(parseEstimate(anEstimate([], { discounts: [discount] })).problems).toEqual([
    expect.objectContaining({ code: 'empty-list', path: 'discounts[0].on' }),
  ]);
});
