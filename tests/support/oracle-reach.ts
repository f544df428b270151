/** What random estimates reach, told by the oracle: a proof proves nothing of what its cases never meet. */
import type { OraclePrice } from './oracle.js';
import type { Documents, RatesDoc } from './oracle-documents.js';
import { Fraction } from './oracle-fraction.js';

export interface Tried extends Documents, OraclePrice {}

const currency = (code: string) => (tried: Tried) => tried.rates.currency === code && tried.rates.moneyStep === null;
const option =
  <K extends keyof RatesDoc>(key: K, value: RatesDoc[K]) =>
  ({ rates }: Tried) =>
    rates[key] === value;
const sells = (tried: Tried): boolean => !tried.totals.part.isZero;
const taxed = (tried: Tried): boolean => !tried.totals.tax.isZero;
const supplies = ({ rates: { supplies: card }, totals }: Tried, limit: 'minimum' | 'maximum'): boolean =>
  card !== null && card[limit] !== null && !totals.supplies.isZero && totals.supplies.equals(Fraction.of(card[limit]));

/** How a discount ends whose charges come to less than it asks for: nothing is left of what it names. */
function meetsCap({ charges, estimate }: Tried): boolean {
  return estimate.discounts.some(({ amount, on, lines }) => {
    const named = charges.filter(
      (each) => on.includes(each.kind) && (lines.length === 0 || (each.line !== null && lines.includes(each.line))),
    );
    const rest = named.reduce((sum, each) => sum.plus(each.amount).minus(each.discount), Fraction.of(0));
    return amount !== null && named.length > 0 && rest.isZero;
  });
}

/** Each must be met by more than one case of a hundred. */
export const REACH: Readonly<Record<string, (tried: Tried) => boolean>> = {
  'a shared step': ({ overlap }) => overlap.steps.some(({ lines }) => lines.length > 1),
  'a step by position': ({ overlap }) => overlap.steps.some(({ use }) => use.position !== null),
  'a step twice in one line': ({ overlap }) => overlap.steps.some(({ saved, lines }) => lines.length === 1 && !saved.isZero),
  'several positions': ({ estimate }) => estimate.lines.some((line) => line.kind === 'operation' && line.positions.length > 1),
  'an included operation': ({ lines }) => lines.some(({ includedIn }) => includedIn !== null),
  'a declared overlap': ({ overlap }) => overlap.pairs.length > 0,
  'a tree of overlaps': ({ overlap }) => overlap.pairs.length > 1,
  'book hours of one’s own': ({ estimate }) => estimate.lines.some((line) => line.kind === 'operation' && line.bookHours !== undefined),
  'extra hours': ({ estimate }) => estimate.lines.some((line) => line.kind === 'operation' && line.extraHours !== undefined),
  'other words about parts': ({ estimate }) => estimate.lines.some((line) => line.kind === 'operation' && line.parts !== undefined),
  'taxes of a line’s own': ({ estimate }) => estimate.lines.some((line) => line.taxes !== undefined),
  'a discount': ({ totals }) => !totals.discount.isZero,
  'two discounts': ({ estimate, totals }) => estimate.discounts.length > 1 && !totals.discount.isZero,
  'a discount on some lines': ({ estimate, totals }) => estimate.discounts.some(({ lines }) => lines.length > 0) && !totals.discount.isZero,
  'a discount that meets its cap': meetsCap,
  'a credit': ({ charges }) => charges.some(({ amount }) => amount.sign < 0),
  'a discount that meets a credit': ({ charges }) => charges.some(({ amount, discount }) => amount.sign < 0 && !discount.isZero),
  'a core': ({ totals }) => !totals.core.isZero,
  'sublet work': ({ totals }) => !totals.sublet.isZero,
  'sublet work, no percentage': ({ rates, totals }) => rates.sublet === null && !totals.sublet.isZero,
  supplies: ({ totals }) => !totals.supplies.isZero,
  'supplies at their minimum': (tried) => supplies(tried, 'minimum'),
  'supplies at their maximum': (tried) => supplies(tried, 'maximum'),
  'a fee for the estimate': ({ charges }) => charges.some(({ kind, line }) => kind === 'fee' && line === null),
  'a fee for each unit': ({ charges, rates }) =>
    charges.some(({ kind, title }) => kind === 'fee' && rates.fees.some((fee) => fee.per === 'unit' && fee.title === title)),
  'parts by list price': (tried) => tried.rates.parts.basis === 'list' && sells(tried),
  'mark-up on the whole cost': (tried) => tried.rates.parts.mode === 'whole' && sells(tried),
  'mark-up slice by slice': (tried) => tried.rates.parts.mode === 'progressive' && tried.rates.parts.tiers.length > 1 && sells(tried),
  tax: taxed,
  'tax on tax': (tried) => tried.rates.taxes.some(({ after }) => after.length > 0) && taxed(tried),
  'tax in one rounding': (tried) => tried.rates.taxRounding === 'total' && taxed(tried),
  'tax line by line': (tried) => tried.rates.taxRounding === 'line' && taxed(tried),
  'tax in the price': (tried) => tried.rates.pricesIncludeTax && taxed(tried),
  'an exempt customer': ({ estimate }) => estimate.customer.taxExempt.length > 0,
  'half-up': option('rounding', 'half-up'),
  'half-even': option('rounding', 'half-even'),
  'half-down': option('rounding', 'half-down'),
  '0 decimals (JPY)': currency('JPY'),
  '2 decimals (USD)': currency('USD'),
  '2 decimals (EUR)': currency('EUR'),
  '3 decimals (KWD)': currency('KWD'),
  '4 decimals (CLF)': currency('CLF'),
  'money in steps of 0.01': option('moneyStep', '0.01'),
  'money in steps of 0.05': option('moneyStep', '0.05'),
  'money in steps of 0.25': option('moneyStep', '0.25'),
  'money in steps of 0.5': option('moneyStep', '0.5'),
  'money in steps of 1': option('moneyStep', '1'),
  'money in steps of 0.002': option('moneyStep', '0.002'),
  'cash that differs': ({ totals }) => !totals.cash.equals(totals.total),
  'a line that cannot be priced': ({ complete }) => !complete,
  'a line that is declined': ({ estimate }) => estimate.lines.some(({ decision }) => decision === 'declined'),
  'a line that is deferred': ({ estimate }) => estimate.lines.some(({ decision }) => decision === 'deferred'),
  'authorisation: the lesser': ({ rates }) => rates.authorisation?.pick === 'lesser',
  'authorisation: the greater': ({ rates }) => rates.authorisation?.pick === 'greater',
  'authorisation: percent': ({ rates }) => rates.authorisation?.pick === 'percent',
  'authorisation: amount': ({ rates }) => rates.authorisation?.pick === 'amount',
  'authorisation: a cap': ({ rates }) => rates.authorisation != null && rates.authorisation.cap !== null,
  'authorisation: before tax': ({ rates }) => rates.authorisation?.base === 'before-tax',
};
