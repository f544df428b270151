/**
 * Two general-purpose decimal libraries as a second opinion: big.js and bignumber.js (development dependencies) work out
 * simple estimates of parts and labour on their own and must agree with the engine to the last digit.
 */
import Big from 'big.js';
import BigNumber from 'bignumber.js';
import { describe, expect, it } from 'vitest';
import { decimalString, forAll } from '../support/arbitraries.js';
import { aTax, labourLine, partLine, priceLines } from '../support/builders.js';

interface SimpleEstimate {
  parts: { qty: string; cost: string }[];
  hours: string[];
  rate: string;
  markUp: string;
  tax: string;
}

interface Figures {
  part: string;
  labour: string;
  tax: string;
  total: string;
}

function byEngine({ parts, hours, rate, markUp, tax }: SimpleEstimate): Figures {
  const lines = [
    ...parts.map(({ qty, cost }, i) => partLine(`p${i}`, qty, null, { cost })),
    ...hours.map((each, i) => labourLine(`h${i}`, each)),
  ];
  const { totals } = priceLines(lines, {
    labourClasses: [{ id: 'general', title: 'General repair', rate }],
    parts: { basis: 'markup', mode: 'whole', tiers: [{ percent: markUp }] },
    taxes: [aTax('sales', tax)],
  });
  return { part: totals.part, labour: totals.labour, tax: totals.tax, total: totals.total };
}

function byBig({ parts, hours, rate, markUp, tax }: SimpleEstimate): Figures {
  const cents = (value: Big): Big => value.round(2, Big.roundHalfUp);
  const factor = new Big(markUp).div(100).plus(1);
  const part = parts.reduce((sum, { qty, cost }) => sum.plus(cents(cents(factor.times(cost)).times(qty))), new Big(0));
  const labour = hours.reduce((sum, each) => sum.plus(cents(new Big(each).times(rate))), new Big(0));
  const taxed = cents(part.plus(labour).times(tax).div(100));
  const total = part.plus(labour).plus(taxed);
  return { part: part.toFixed(2), labour: labour.toFixed(2), tax: taxed.toFixed(2), total: total.toFixed(2) };
}

function byBigNumber({ parts, hours, rate, markUp, tax }: SimpleEstimate): Figures {
  const cents = (value: BigNumber): BigNumber => value.decimalPlaces(2, BigNumber.ROUND_HALF_UP);
  const factor = new BigNumber(markUp).dividedBy(100).plus(1);
  const part = parts.reduce((sum, { qty, cost }) => sum.plus(cents(cents(factor.times(cost)).times(qty))), new BigNumber(0));
  const labour = hours.reduce((sum, each) => sum.plus(cents(new BigNumber(each).times(rate))), new BigNumber(0));
  const taxed = cents(part.plus(labour).times(tax).dividedBy(100));
  const total = part.plus(labour).plus(taxed);
  return { part: part.toFixed(2), labour: labour.toFixed(2), tax: taxed.toFixed(2), total: total.toFixed(2) };
}

describe('big.js and bignumber.js', () => {
  it('agree with the engine on 400 random estimates', () => {
    forAll(400, (d) => {
      const list = <T>(draw: () => T): T[] => Array.from({ length: d.int(0, 6) }, draw);
      const estimate: SimpleEstimate = {
        parts: list(() => ({
          qty: decimalString(d.int(0, 90), d.pick([0, 1])),
          cost: d.figure(30000, d.pick([2, 3])),
        })),
        hours: list(() => d.figure(900, 2)),
        rate: d.figure(20000, 2),
        markUp: d.figure(2000, 1),
        tax: d.figure(25000, 3),
      };
      const figures = byEngine(estimate);
      expect(figures).toEqual(byBig(estimate));
      expect(figures).toEqual(byBigNumber(estimate));
    });
  });
});
