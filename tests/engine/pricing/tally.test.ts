import { describe, expect, it } from 'vitest';
import type { ChargeKind } from '../../../src/documents/fields.js';
import { parseRates } from '../../../src/index.js';
import { decimal, printPlain } from '../../../src/number/decimal.js';
import type { Charge } from '../../../src/pricing/charge.js';
import { indexRates } from '../../../src/pricing/rate-index.js';
import { Tally } from '../../../src/pricing/tally.js';
import { taxRule } from '../../../src/pricing/taxes.js';
import { aRateCard, aTax } from '../../support/builders.js';

const read = parseRates(aRateCard({ taxes: [aTax('t', '15')], taxRounding: 'line' }));
if (!read.ok) throw new Error('the test card does not read');
const rule = taxRule(indexRates(read.value), []);

const charge = (kind: ChargeKind, taxes: string[]): Charge => ({
  id: 'c',
  line: 'l',
  kind,
  title: '',
  qty: decimal('1'),
  unit: decimal('1'),
  amount: decimal('1'),
  taxes,
});
function tally(...charges: [kind: ChargeKind, net: string, taxes?: string[]][]): Tally {
  const made = new Tally();
  for (const [kind, net, taxes] of charges) made.addCharge(charge(kind, taxes ?? []), decimal(net), rule);
  return made;
}
const figures = (made: Tally): unknown => ({
  labour: printPlain(made.ofKinds(['labour'])),
  part: printPlain(made.ofKinds(['part'])),
  tax: printPlain(made.taxesByCharge().get('t') ?? decimal('0')),
  hours: printPlain(made.sharedHours),
  asked: made.feesAsked().has('f'),
});

it('adds up by kind, whatever the taxes', () => {
  const made = tally(['labour', '10.00'], ['part', '0.10', ['t']], ['part', '5.00']);
  expect(printPlain(made.ofKinds(['labour', 'part']))).toBe('15.1');
  expect(printPlain(made.ofKinds(['fee']))).toBe('0');
});

it('keeps what has other taxes on it apart, also where their names run together', () => {
  const sums = (made: Tally, kind?: ChargeKind): string[] =>
    made
      .taxedSums(kind)
      .map(({ taxes, net }) => `${taxes.join('+')} ${printPlain(net)}`)
      .sort();
  const made = tally(
    ['part', '1', ['a', 'b']],
    ['part', '2', ['ab']],
    ['part', '4', ['a', 'b']],
    ['labour', '8', ['ab']],
    ['labour', '16'],
  );
  expect(sums(made)).toEqual([' 16', 'a+b 5', 'ab 2', 'ab 8']);
  expect(sums(made, 'part')).toEqual(['a+b 5', 'ab 2']);
  expect(sums(made, 'fee')).toEqual([]);
});

it('tax line by line is rounded charge by charge', () => {
  // 0.10 × 15 % = 0.015 → 0.02, three times
  expect(figures(tally(['part', '0.10', ['t']], ['part', '0.10', ['t']], ['part', '0.10', ['t']]))).toMatchObject({
    part: '0.3',
    tax: '0.06',
  });
});

describe('taking one line out and adding it again', () => {
  it('leaves what was there, however often', () => {
    const all = tally(['labour', '10.00'], ['part', '0.10', ['t']]);
    all.askFee('f');
    all.sharedHours = decimal('0.5');
    const one = tally(['part', '0.10', ['t']], ['labour', '3.33']);
    one.askFee('f');
    one.sharedHours = decimal('0.1');
    const before = figures(all);
    for (let n = 0; n < 1000; n += 1) {
      all.add(one);
      all.add(one, -1);
    }
    expect(figures(all)).toEqual(before);
  });

  it('a fee is asked for as long as one line asks', () => {
    const [a, b, all] = [tally(), tally(), tally()];
    a.askFee('f');
    b.askFee('f');
    all.add(a);
    all.add(b);
    all.add(a, -1);
    expect(all.feesAsked().has('f')).toBe(true);
    all.add(b, -1);
    expect(all.feesAsked().has('f')).toBe(false);
  });

  it('a copy does not follow what it was copied from', () => {
    const all = tally(['labour', '10.00']);
    const copy = all.copy();
    all.add(tally(['labour', '5.00']));
    expect([printPlain(copy.ofKinds(['labour'])), printPlain(all.ofKinds(['labour']))]).toEqual(['10', '15']);
  });
});
