import type { Rates } from '../documents/rates.js';
import { type Decimal, decimal, HUNDRED, max, ONE, printPlain, ZERO } from '../number/decimal.js';
import { moneyRule, printMoney, roundMoney } from '../number/money.js';

/**
 * One thing on a rate card that can be turned, and what its value means:
 * `labour-rate` the rate of a class · `labour-percent` all rates, up or down by so many percent, each on the money step ·
 * `supplies-percent`, `supplies-maximum` of the shop supplies · `mark-up-shift` percentage points added to every tier
 * (never below 0) · `fee` the amount of a fee.
 */
export type Knob =
  | { readonly turn: 'labour-rate'; readonly labourClass: string }
  | { readonly turn: 'labour-percent' }
  | { readonly turn: 'supplies-percent' }
  | { readonly turn: 'supplies-maximum' }
  | { readonly turn: 'mark-up-shift' }
  | { readonly turn: 'fee'; readonly fee: string };

/** Why a card has no such knob, in words; null where it has. */
export function missingKnob(rates: Rates, knob: Knob): string | null {
  switch (knob.turn) {
    case 'labour-rate':
      return rates.labourClasses.some(({ id }) => id === knob.labourClass)
        ? null
        : `The rate card has no labour class "${knob.labourClass}".`;
    case 'labour-percent':
      return rates.labourClasses.length > 0 ? null : 'The rate card has no labour class.';
    case 'supplies-percent':
    case 'supplies-maximum':
      return rates.supplies !== null ? null : 'The rate card charges no shop supplies.';
    case 'fee':
      return rates.fees.some(({ id }) => id === knob.fee) ? null : `The rate card has no fee "${knob.fee}".`;
    case 'mark-up-shift':
      return null;
  }
}

/** A new card with the knob at a value; the card given is left as it is. */
export function turnKnob(rates: Rates, knob: Knob, value: Decimal): Rates {
  const figure = printPlain(value);
  const money = moneyRule(rates.currency, rates.moneyStep, rates.rounding);
  switch (knob.turn) {
    case 'labour-rate':
      return {
        ...rates,
        labourClasses: rates.labourClasses.map((each) => (each.id === knob.labourClass ? { ...each, rate: figure } : each)),
      };
    case 'labour-percent': {
      const factor = ONE.plus(value.div(HUNDRED));
      const turned = (rate: string): string => printMoney(roundMoney(decimal(rate).times(factor), money), money);
      return { ...rates, labourClasses: rates.labourClasses.map((each) => ({ ...each, rate: turned(each.rate) })) };
    }
    case 'supplies-percent':
      return { ...rates, supplies: { ...rates.supplies!, percent: figure } };
    case 'supplies-maximum':
      return { ...rates, supplies: { ...rates.supplies!, maximum: figure } };
    case 'mark-up-shift': {
      const shifted = (percent: string): string => printPlain(max(decimal(percent).plus(value), ZERO));
      const tiers = rates.parts.tiers.map((tier) => ({ ...tier, percent: shifted(tier.percent) }));
      return { ...rates, parts: { ...rates.parts, tiers } };
    }
    case 'fee':
      return { ...rates, fees: rates.fees.map((fee) => (fee.id === knob.fee ? { ...fee, amount: figure } : fee)) };
  }
}
