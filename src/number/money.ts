import { CURRENCY_DIGITS } from './currency-digits.js';
import { Decimal, type DecimalString, decimal } from './decimal.js';
import { type Rounding, round, roundToDigits } from './rounding.js';

/** What money is rounded to: its step, the digits it is printed with, and what happens to a half. */
export interface MoneyRule {
  readonly step: Decimal;
  readonly digits: number;
  readonly rounding: Rounding;
  /** Whether the step is one unit of the last printed digit, so that the quick rounding serves. */
  readonly even: boolean;
}

/** The decimal places of a currency's minor unit by ISO 4217, or null for a code that ISO 4217 does not list. */
export function minorDigits(currency: string): number | null {
  return CURRENCY_DIGITS.get(currency) ?? null;
}

/**
 * The money rule of a rate card.
 *
 * @param currency an ISO 4217 code; one that is not listed counts as having two decimal places
 * @param moneyStep the card's own step (`"1"` for whole units), or null for the currency's minor unit
 */
export function moneyRule(currency: string, moneyStep: DecimalString | null, rounding: Rounding): MoneyRule {
  if (moneyStep !== null) return ruleOfStep(moneyStep, rounding);
  const digits = minorDigits(currency) ?? 2;
  return { step: new Decimal(10).pow(-digits), digits, rounding, even: true };
}

function ruleOfStep(moneyStep: DecimalString, rounding: Rounding): MoneyRule {
  const step = decimal(moneyStep);
  const digits = fractionDigits(moneyStep);
  return { step, digits, rounding, even: step.eq(new Decimal(10).pow(-digits)) };
}

/** How many digits a figure has after its point: 2 for `"0.05"`. */
export function fractionDigits(figure: DecimalString): number {
  const point = figure.indexOf('.');
  return point < 0 ? 0 : figure.length - point - 1;
}

/** An amount on the money step. */
export function roundMoney(value: Decimal, rule: MoneyRule): Decimal {
  return rule.even ? roundToDigits(value, rule.digits, rule.rounding) : round(value, rule.step, rule.rounding);
}

/** How many money steps an amount is that lies on the money step: 1234 for 12.34 in cents. */
export function inSteps(amount: Decimal, rule: MoneyRule): bigint {
  return BigInt(amount.div(rule.step).toFixed(0));
}

/** The amount of so many money steps. */
export function ofSteps(steps: bigint, rule: MoneyRule): Decimal {
  return decimal(String(steps)).times(rule.step);
}

/** An amount in the digits of the money step: `"12.00"`. */
export function printMoney(value: Decimal, rule: MoneyRule): DecimalString {
  return value.toFixed(rule.digits);
}

/** A unit price: in the money step's digits, or in more where it was typed with more (`"0.0088"`). */
export function printUnitPrice(value: Decimal, rule: MoneyRule): DecimalString {
  return value.toFixed(Math.max(rule.digits, value.decimalPlaces()));
}

/** What is handed over in cash: the total at the nearest cash step, where the card names one. */
export function cashAmount(total: Decimal, cashStep: DecimalString | null, rule: MoneyRule): Decimal {
  return cashStep === null ? total : round(total, decimal(cashStep), rule.rounding);
}
