import { html, nothing, type TemplateResult } from 'lit';
import type { Rates } from '../../src/documents/rates.js';
import { type WorkedExample, workedExamples } from '../../src/pricing/worked-examples.js';
import { formatMoney } from '../look/format.js';

const kept = new WeakMap<Rates, readonly WorkedExample[]>();

function examplesOf(rates: Rates): readonly WorkedExample[] {
  const known = kept.get(rates) ?? workedExamples(rates);
  kept.set(rates, known);
  return known;
}

/** What the card makes of everyday work, before and after the changes that are not saved yet. */
export function examplesTable(before: Rates, after: Rates | null): TemplateResult {
  if (after === null) return html`<p class="quiet">While something on the card cannot be used there is nothing to price by.</p>`;
  const old = new Map(examplesOf(before).map((example) => [nameOf(example, before), example]));
  const changed = examplesOf(after).filter((example) => isOther(old.get(nameOf(example, after)), example)).length;
  return html`<table class="examples">
      <caption>
        Worked examples
      </caption>
      <thead>
        <tr>
          <th scope="col">Sold alone</th>
          <th scope="col" class="figure">Price</th>
          <th scope="col" class="figure">Customer pays</th>
        </tr>
      </thead>
      <tbody>
        ${examplesOf(after).map((example) => {
          const name = nameOf(example, after);
          return row(name, old.get(name), example, before, after);
        })}
      </tbody>
    </table>
    <p class="quiet">
      ${changed === 0 ? 'As under the saved card.' : `${changed} ${changed === 1 ? 'differs' : 'differ'} from the saved card, whose figures are struck through.`} With supplies and taxes;
      no discount.
    </p>`;
}

function row(name: string, old: WorkedExample | undefined, now: WorkedExample, before: Rates, after: Rates): TemplateResult {
  const cell = (of: 'amount' | 'total'): TemplateResult => {
    const was = old === undefined ? null : formatMoney(old[of], before.currency, after.locale);
    const is = formatMoney(now[of], after.currency, after.locale);
    return html`<td class="figure">
      ${was === null || was === is ? nothing : html`<del><span class="unseen">before </span>${was}</del> `}${was === is ? is : html`<ins>${is}</ins>`}
    </td>`;
  };
  return html`<tr>
    <th scope="row">${name}</th>
    ${cell('amount')}${cell('total')}
  </tr>`;
}

function isOther(old: WorkedExample | undefined, now: WorkedExample): boolean {
  return old === undefined || old.amount !== now.amount || old.total !== now.total;
}

function nameOf({ of }: WorkedExample, { currency, locale }: Rates): string {
  if (of.kind === 'labour') return `One hour, ${of.title}`;
  const cost = formatMoney(of.cost, currency, locale);
  return of.kind === 'part' ? `A part that costs ${cost}` : `Sublet work for ${cost}`;
}
