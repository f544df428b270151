/** What a page loads, against its budget and against what was aimed at. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { AIMS, BUDGETS, GRID_APART, kilobytes, loadedAtFirst, ONLY_PRICES, pageBundle, RATES_AT_FIRST } from '../support/sizes.js';

export interface Size {
  readonly title: string;
  readonly kilobytes: number;
  readonly budget?: number;
  readonly aim?: number;
}

/** @param built the folder with what `npm run build` makes */
export async function benchSizes(built: string): Promise<Size[]> {
  const module = (name: string): string => `export * from ${JSON.stringify(join(built, name))};`;
  const whole = async (code: string): Promise<number> => kilobytes(await pageBundle(built, code, { codeSplitting: false }));
  const file = (name: string): number => kilobytes([{ code: readFileSync(join(built, name), 'utf8') }]);
  const later = readdirSync(join(built, 'customer-page')).map((name) => file(join('customer-page', name)));
  const rates = await pageBundle(built, module('rates.define.js'), GRID_APART);
  const first = loadedAtFirst(rates);
  return [
    { title: 'engine', kilobytes: await whole(module('engine.js')), budget: BUDGETS['./engine']! },
    {
      title: 'engine, priceEstimate alone',
      kilobytes: await whole(`export { priceEstimate } from ${JSON.stringify(join(built, 'engine.js'))};`),
      budget: ONLY_PRICES,
    },
    { title: 'customer, until the estimate is shown', kilobytes: file('customer-page.js'), aim: AIMS.customer },
    { title: 'customer, all of it in one file', kilobytes: file('customer.js'), budget: BUDGETS['./customer']!, aim: AIMS.customer },
    {
      title: 'customer, all of it in several',
      kilobytes: later.reduce((sum, size) => sum + size, file('customer-page.js')),
      aim: AIMS.customer,
    },
    {
      title: 'rates, until the card is shown, besides the grid',
      kilobytes: kilobytes(first.own),
      budget: RATES_AT_FIRST,
      aim: AIMS.ratesAtFirst,
    },
    { title: 'the grid', kilobytes: kilobytes(first.grid) },
    { title: 'rates, all of it in several', kilobytes: kilobytes(rates) },
    { title: 'estimate', kilobytes: await whole(module('estimate.define.js')), budget: BUDGETS['./estimate']!, aim: AIMS.estimate },
    { title: 'storage', kilobytes: await whole(module('storage.js')), budget: BUDGETS['./storage']! },
    { title: 'storage in a cluster', kilobytes: await whole(module('storage.cluster.js')), budget: BUDGETS['./storage/cluster']! },
  ];
}
