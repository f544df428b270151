import brakes from '../../../demo/brakes.estimate.json';
import plenum from '../../../demo/plenum.estimate.json';
import van from '../../../demo/van.estimate.json';
import card from '../../../rates/card.demo.json';
import catalogueOfDemo from '../../../rates/catalogue.demo.json';
import {
  type Catalogue,
  deferralCosts,
  type Estimate,
  parseCatalogue,
  parseEstimate,
  parseRates,
  type Parsed,
  priceEstimate,
  type Rates,
} from '../../../src/index.js';

export type ScenarioName = 'van' | 'brakes' | 'plenum' | 'overlaps' | 'forty' | 'none' | 'odd';

/** Documents of one scenario with what the engine makes of them. */
export function scenario(name: ScenarioName) {
  const [estimate, catalogue, rates] = documents(name);
  return {
    estimate,
    priced: priceEstimate({ estimate, catalogue, rates }),
    deferral: deferralCosts({ estimate, catalogue, rates }),
    taxes: rates.taxes,
  };
}

function documents(name: ScenarioName): [Estimate, Catalogue, Rates] {
  const catalogue = must(parseCatalogue(catalogueOfDemo));
  const rates = must(parseRates(card));
  switch (name) {
    case 'van':
      return [must(parseEstimate(van)), catalogue, rates];
    case 'brakes':
      return [must(parseEstimate(brakes)), catalogue, rates];
    case 'plenum':
      return [must(parseEstimate(plenum)), catalogue, rates];
    case 'none':
      return [estimateOf([]), catalogue, rates];
    case 'overlaps':
      return [estimateOf(['plain-a', 'plain-b', 'plain-c', 'plain-d']), overlapping(), rates];
    case 'forty':
      return [estimateOf(catalogue.operations.slice(0, 40).map(({ id }) => id)), catalogue, rates];
    case 'odd':
      return [
        must(
          parseEstimate({
            ...estimateOf(['plain-a', 'no-such-operation']),
            customer: { name: 'A. Nobody', taxExempt: ['state'] },
          }),
        ),
        overlapping(),
        { ...rates, cashStep: '0.05', pricesIncludeTax: true },
      ];
  }
}

/** Operations known by their book hours alone, with declared overlaps. Figures invented. */
function overlapping(): Catalogue {
  const operation = (id: string, title: string, bookHours: string) => ({
    id,
    title,
    labourClass: 'general',
    bookHours,
    basis: 'invented',
  });
  return must(
    parseCatalogue({
      format: 'baysheet-catalogue',
      version: 1,
      id: 'overlapping',
      title: 'Declared overlaps',
      operations: [
        operation('plain-a', 'Renew the front seal', '3.5'),
        operation('plain-b', 'Renew the belt tensioner', '1.25'),
        operation('plain-c', 'Renew the cover gasket', '2'),
        operation('plain-d', 'Renew the oil pump', '2.8'),
      ],
      overlaps: [
        { between: ['plain-a', 'plain-b'], hours: '0.75' },
        { between: ['plain-a', 'plain-d'], hours: '1.4' },
        { between: ['plain-b', 'plain-c'], hours: '0.5' },
      ],
    }),
  );
}

function estimateOf(operations: readonly string[]): Estimate {
  return must(
    parseEstimate({
      format: 'baysheet-estimate',
      version: 1,
      id: `of-${operations.length}`,
      lines: operations.map((operation, i) => ({ id: `l${i + 1}`, kind: 'operation', operation })),
    }),
  );
}

function must<T>(parsed: Parsed<T>): T {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
}
