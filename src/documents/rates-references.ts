import { decimal, printPlain } from '../number/decimal.js';
import { minorDigits, moneyRule } from '../number/money.js';
import { cycles } from './closure.js';
import { LIMITS } from './limits.js';
import { error, type Problem, warning } from './problem.js';
import type { Rates } from './rates.js';
import { byId, duplicates, tooMany, unknown } from './references.js';

/** What a schema cannot say of a rate card: the currency exists, tiers rise, references lead somewhere, taxes do not go in a ring. */
export function checkRatesReferences(rates: Rates): Problem[] {
  const many = tooMany(rates.taxes, LIMITS.taxes, 'taxes', 'taxes');
  if (many.length > 0) return many;
  return [
    ...checkCurrency(rates),
    ...checkIds(rates),
    ...checkTiers(rates),
    ...checkTaxes(rates),
    ...checkLimits(rates),
    ...checkCashStep(rates),
  ];
}

function checkCurrency(rates: Rates): Problem[] {
  if (minorDigits(rates.currency) !== null) return [];
  const message = `"${rates.currency}" is not a currency of ISO 4217.`;
  return [error('currency', 'currency', message, 'Write its three capital letters, like "USD".')];
}

function checkIds(rates: Rates): Problem[] {
  const lists = ['labourClasses', 'fees', 'taxes'] as const;
  return lists.flatMap((list) =>
    duplicates(
      rates[list].map((entry) => entry.id),
      list,
    ),
  );
}

function checkTiers(rates: Rates): Problem[] {
  const { tiers } = rates.parts;
  return tiers.flatMap((tier, i) => {
    const path = `parts.tiers[${i}].upTo`;
    const last = i === tiers.length - 1;
    if (last && tier.upTo !== null) {
      const message = `Parts that cost more than ${tier.upTo} have no mark-up.`;
      return [error('tier-gap', path, message, 'Add a last tier without "upTo", or take it out here.')];
    }
    if (!last && tier.upTo === null) {
      return [error('tier-order', path, 'Only the last tier may have no upper limit.', 'Give this tier an "upTo".')];
    }
    const before = i === 0 ? null : tiers[i - 1]!.upTo;
    if (tier.upTo === null || before === null || decimal(tier.upTo).gt(decimal(before))) return [];
    if (decimal(tier.upTo).eq(decimal(before))) {
      return [
        error(
          'tier-order',
          path,
          `Two tiers end at ${before}; the second would never be used.`,
          'Change one of the limits, or take a tier out.',
        ),
      ];
    }
    const message = `This tier ends at ${tier.upTo}, not above the one before it (${before}).`;
    return [error('tier-order', path, message, 'Put the tiers in rising order.')];
  });
}

function checkTaxes(rates: Rates): Problem[] {
  const taxes = byId(rates.taxes);
  const rings = cycles(taxes.keys(), (id) => taxes.get(id)?.after ?? []);
  return [
    ...rates.taxes.flatMap((tax, i) => unknown(tax.after, taxes, 'tax', `taxes[${i}].after`)),
    ...rings.map((ring) => {
      const at = rates.taxes.findIndex((tax) => tax.id === ring[0]);
      const message = `These taxes are each charged on the other: ${[...ring, ring[0]].join(' → ')}.`;
      return error('cycle', `taxes[${at}].after`, message, 'Take one of them out of "after".');
    }),
    ...rates.fees.flatMap((fee, i) => unknown(fee.taxes ?? [], taxes, 'tax', `fees[${i}].taxes`)),
    ...unknown(rates.supplies?.taxes ?? [], taxes, 'tax', 'supplies.taxes'),
  ];
}

/** Cash is paid in money steps, or in steps of which money steps are made up: else it could not be printed. */
function checkCashStep(rates: Rates): Problem[] {
  if (rates.cashStep === null) return [];
  const money = moneyRule(rates.currency, rates.moneyStep, rates.rounding).step;
  const cash = decimal(rates.cashStep);
  if (cash.mod(money).isZero() || money.mod(cash).isZero()) return [];
  const message = `The cash step ${rates.cashStep} does not go with the money step ${printPlain(money)}.`;
  return [error('cash-step', 'cashStep', message, 'Choose a multiple of the money step.')];
}

function checkLimits(rates: Rates): Problem[] {
  const { supplies } = rates;
  if (supplies === null || supplies.minimum === null || supplies.maximum === null) return [];
  if (decimal(supplies.minimum).lte(decimal(supplies.maximum))) return [];
  const message = `The minimum of supplies (${supplies.minimum}) is above the maximum (${supplies.maximum}), which then decides.`;
  return [warning('supplies-limits', 'supplies.minimum', message, 'Exchange the two, or drop one.')];
}
