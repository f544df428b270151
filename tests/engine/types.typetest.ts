/**
 * The public types, held by the compiler alone: this file is never run. `npm run typecheck` fails where a name or
 * a shape of design section 5 has changed, and where a `@ts-expect-error` below is no longer an error.
 */
import {
  type AuthorisationRule,
  type Catalogue,
  type Estimate,
  type Parsed,
  type PricedEstimate,
  type Problem,
  type Rates,
  checkCatalogue,
  checkRates,
  checkVin,
  deferralCosts,
  headroom,
  needsConsent,
  parseCatalogue,
  parseEstimate,
  parseRates,
  partsRun,
  priceEstimate,
  proposeLines,
} from '../../src/index.js';

type Same<A, B> = (<T>() => T extends A ? 1 : 2) extends <T>() => T extends B ? 1 : 2 ? true : false;
type Holds<T extends true> = T;
type Fits<A, B> = [A] extends [B] ? true : false;

/** `never` where no JavaScript number is anywhere in the type. */
type NumbersIn<T> = T extends number
  ? T
  : T extends readonly (infer U)[]
    ? NumbersIn<U>
    : T extends object
      ? { [K in keyof T]-?: NumbersIn<T[K]> }[keyof T]
      : never;

type Line = PricedEstimate['lines'][number];
type Charge = PricedEstimate['charges'][number];
type Overlap = PricedEstimate['overlap'];
type Totals = PricedEstimate['totals'];
type Money = 'labour' | 'part' | 'core' | 'sublet' | 'fee' | 'supplies' | 'subtotal' | 'discount' | 'tax' | 'total' | 'cash';

/** Money, hours, quantities and percentages are text, never numbers. */
export type FiguresAreText = [
  Holds<Same<NumbersIn<PricedEstimate>, never>>,
  Holds<Same<NumbersIn<Rates['labourClasses'] | Rates['taxes'] | Rates['fees'] | Rates['parts']>, never>>,
  Holds<Same<NumbersIn<Catalogue['parts'] | Catalogue['steps'] | Catalogue['operations'] | Catalogue['overlaps']>, never>>,
  Holds<Same<NumbersIn<Estimate['lines'] | Estimate['discounts']>, never>>,
  Holds<Same<NumbersIn<ReturnType<typeof deferralCosts>>, never>>,
  Holds<Same<ReturnType<typeof headroom>, string>>,
  Holds<Fits<Pick<Totals, Money>, Record<Money, string>>>,
];

/** The priced estimate has at least the fields of design section 5. */
export type PricedShape = [
  Holds<
    Fits<
      Line,
      {
        readonly id: string;
        readonly title: string;
        readonly priced: boolean;
        readonly bookHours: string;
        readonly sharedHours: string;
        readonly chargedHours: string;
        readonly rate: string;
        readonly labour: string;
        readonly amount: string;
        readonly includedIn: string | null;
        readonly carries: readonly string[];
        readonly uses: readonly {
          readonly step: string;
          readonly position: string | null;
          readonly carriedBy: string;
        }[];
      }
    >
  >,
  Holds<Same<Line['kind'], 'operation' | 'labour' | 'part' | 'sublet' | 'fee' | 'note'>>,
  Holds<Same<Line['decision'], 'proposed' | 'approved' | 'declined' | 'deferred'>>,
  Holds<Same<Charge['kind'], 'labour' | 'part' | 'core' | 'sublet' | 'fee' | 'supplies'>>,
  Holds<
    Fits<
      Charge,
      {
        readonly id: string;
        readonly line: string | null;
        readonly title: string;
        readonly qty: string;
        readonly unit: string;
        readonly amount: string;
        readonly discount: string;
        readonly taxes: readonly string[];
      }
    >
  >,
  Holds<
    Fits<
      Overlap['steps'][number],
      {
        readonly step: string;
        readonly position: string | null;
        readonly title: string;
        readonly hours: string;
        readonly lines: readonly string[];
        readonly carriedBy: string;
        readonly savedHours: string;
      }
    >
  >,
  Holds<Fits<Overlap['pairs'][number], { readonly between: readonly [string, string]; readonly hours: string }>>,
  Holds<
    Fits<
      Totals['taxes'][number],
      {
        readonly id: string;
        readonly title: string;
        readonly percent: string;
        readonly base: string;
        readonly amount: string;
      }
    >
  >,
  Holds<Fits<PricedEstimate['cautions'][number], { readonly id: string; readonly text: string; readonly lines: readonly string[] }>>,
  Holds<Same<PricedEstimate['problems'][number], Problem>>,
];

/** What is read gives either a value or reasons, and the value only after asking. */
export function readsBeforeUse(json: string): Catalogue | null {
  const parsed: Parsed<Catalogue> = parseCatalogue(json);
  // @ts-expect-error there may be no value
  const early = parsed.value;
  return parsed.ok ? parsed.value : (early as null);
}

/** Every public function, called as the design says. */
export function everyName(estimate: Estimate, catalogue: Catalogue, rates: Rates, rule: AuthorisationRule): unknown[] {
  const priced: PricedEstimate = priceEstimate({ estimate, catalogue, rates }, { only: new Set(['l1']) });
  const costs: Readonly<Record<string, { readonly now: string; readonly later: string; readonly extra: string }>> = deferralCosts({
    estimate,
    catalogue,
    rates,
  });
  const vin: { readonly ok: boolean } = checkVin('11111111111111111');
  const problems: readonly Problem[] = [...checkRates(rates), ...checkCatalogue(catalogue)];
  return [
    parseRates('{}'),
    parseEstimate({}),
    proposeLines(estimate, catalogue),
    priceEstimate({ estimate, catalogue, rates }),
    partsRun(priced),
    headroom(rule, '100.00', '0.01'),
    needsConsent(priced, '100.00', rule),
    costs,
    vin,
    problems,
  ];
}

/** Mistakes that the compiler must catch for a host. */
export function mistakes(estimate: Estimate, catalogue: Catalogue, rates: Rates, rule: AuthorisationRule): unknown[] {
  return [
    // @ts-expect-error money is text
    headroom(rule, 100, '0.01'),
    // @ts-expect-error a rate card is needed
    priceEstimate({ estimate, catalogue }),
    // @ts-expect-error the documents stand by name
    priceEstimate(estimate, catalogue, rates),
    // @ts-expect-error hours are text
    { ...catalogue.steps[0]!, hours: 1.2 } satisfies Catalogue['steps'][number],
    // @ts-expect-error there is no such decision
    'perhaps' satisfies Line['decision'],
  ];
}
