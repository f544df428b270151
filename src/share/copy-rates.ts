import type { Rates } from '../documents/rates.js';
import type { Source } from './customer-copy.js';

/**
 * The part of the rate card that the estimate uses. Parts sell at their list price, which the copy of the catalogue
 * has computed, so no mark-up is left. All taxes stay: one may rest on others.
 */
export function copyRates({ rates: { rates }, used, names }: Source): Rates {
  const taxes = (ids: readonly string[] | null): string[] | null => ids?.map(names.tax) ?? null;
  return {
    ...rates,
    id: 'copy',
    title: '',
    effectiveFrom: null,
    labourClasses: used.labourClasses.map(({ id, rate }) => ({ id: names.labourClass(id), title: '', rate })),
    parts: { basis: 'list', mode: 'whole', tiers: [{ upTo: null, percent: '0' }] },
    sublet: null,
    supplies: rates.supplies === null ? null : { ...rates.supplies, taxes: taxes(rates.supplies.taxes) },
    fees: used.fees.map((fee) => ({ ...fee, id: names.fee(fee.id), taxes: taxes(fee.taxes) })),
    // How much more may be charged without asking concerns the customer; the note on where that stands in the law does not.
    authorisation: rates.authorisation === null ? null : { ...rates.authorisation, source: '' },
    taxes: rates.taxes.map((tax) => ({ ...tax, id: names.tax(tax.id), after: tax.after.map(names.tax) })),
  };
}
