import type { Discount } from '../../src/documents/estimate.js';
import type { ChargeKind } from '../../src/documents/fields.js';
import { freeId } from '../../src/findings/new-line.js';
import { rowOf } from '../../src/store/commands.js';
import type { Gesture, Outcome, Reference } from './context.js';
import { readAmount } from './figures.js';
import type { LineColumn } from './line-columns.js';

const KINDS: readonly ChargeKind[] = ['labour', 'part', 'core', 'sublet', 'fee', 'supplies'];

/** Makes a discount and gives its row; until its entries say otherwise it takes nothing off labour and parts. */
export function newDiscount(title: string, gesture: Gesture): string {
  const discount: Discount = {
    id: freeId('d', gesture.state.estimate.discounts),
    title: title || 'Discount',
    percent: '0',
    amount: null,
    on: ['labour', 'part'],
    lines: [],
  };
  gesture.run({ do: 'insert', list: 'discounts', entry: discount, before: null });
  return rowOf('discounts', discount.id);
}

/** An entry in the row of a discount: a percentage (quantity) and an amount (unit price) put each other out. */
export function enterDiscount(column: LineColumn, text: string, discount: Discount, reference: Reference): Outcome {
  const put = (changes: Partial<Discount>): Outcome => ({
    commands: [{ do: 'put', list: 'discounts', entry: { ...discount, ...changes } }],
  });
  switch (column) {
    case 'work':
      return text === '' ? { reason: 'A discount needs words that the customer can read.' } : put({ title: text });
    case 'where':
      return enterKinds(text, put);
    case 'qty':
      return readAmount(text.replace(/\s*%$/, ''), reference, '0', (percent) => put({ percent, amount: null }));
    case 'unit':
      return readAmount(text, reference, null, (amount) =>
        put(amount === null ? { amount: null, percent: discount.percent ?? '0' } : { amount, percent: null }),
      );
    default:
      return { commands: [] };
  }
}

function enterKinds(text: string, put: (changes: Partial<Discount>) => Outcome): Outcome {
  const asked = text
    .split(',')
    .map((word) => word.trim().toLowerCase())
    .filter((word) => word !== '');
  const kinds = asked.map((word) => KINDS.find((kind) => kind === word || `${kind}s` === word));
  if (kinds.length === 0 || kinds.includes(undefined))
    return { reason: `Say what the discount is on: one or more of ${KINDS.join(', ')}.` };
  return put({ on: [...new Set(kinds as ChargeKind[])] });
}
