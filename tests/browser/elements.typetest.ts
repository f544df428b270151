/**
 * The types of the elements, held by the compiler alone: this file is never run. `npm run typecheck` fails where a tag, an
 * event or its detail is not known by its type, and where a `@ts-expect-error` is no longer an error.
 */
import type { BaysheetCustomer } from '../../components/customer/define.js';
import type {} from '../../components/customer/events.js';
import type { BaysheetEstimate } from '../../components/estimate/define.js';
import type { BaysheetRates } from '../../components/rates/define.js';
import type { Estimate, Rates } from '../../src/index.js';

const sheet: BaysheetEstimate | null = document.querySelector('baysheet-estimate');
const customer: BaysheetCustomer = document.createElement('baysheet-customer');
const desk: BaysheetRates = document.createElement('baysheet-rates');

sheet?.addEventListener('baysheet-change', ({ detail }) => {
  const estimate: Estimate = detail.estimate;
  const total: string = detail.totals.total;
  // @ts-expect-error money is never a number
  const number: number = detail.totals.total;
  return [estimate, total, number];
});
sheet?.addEventListener('baysheet-save', (event) => event.preventDefault());
sheet?.addEventListener('baysheet-share', ({ detail }): string => detail.link);
sheet?.addEventListener('baysheet-problem', ({ detail }): string => detail.problems[0]?.message ?? detail.source);
customer.addEventListener('baysheet-reply', ({ detail }): string => detail.text);
desk.addEventListener('baysheet-change', ({ detail }): Rates => detail.rates);
desk.addEventListener('baysheet-save', ({ detail }): string => detail.hash);
desk.addEventListener('baysheet-open', ({ detail }): Estimate => detail.estimate);
desk.addEventListener('click', (event: MouseEvent) => event.preventDefault());
// @ts-expect-error the customer's element has no card
customer.rates = null;
