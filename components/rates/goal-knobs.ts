import type { Rates } from '../../src/documents/rates.js';
import { decimal, type DecimalString, HUNDRED, max, min, ONE, printPlain } from '../../src/number/decimal.js';
import { moneyRule, printMoney, roundMoney } from '../../src/number/money.js';
import type { Knob } from '../../src/replay/knobs.js';

/** A knob of a card as a form offers it, with a range that is likely to hold the answer. */
export interface KnobChoice {
  /** Tells the choices apart. */
  readonly key: string;
  readonly title: string;
  readonly knob: Knob;
  /** What its values are: `money` or `percent`. */
  readonly unit: 'money' | 'percent';
  /** As the card has it now; null where it has none. */
  readonly now: DecimalString | null;
  readonly from: DecimalString;
  readonly to: DecimalString;
  readonly step: DecimalString;
}

/** Everything on a card that a goal may be sought with. */
export function knobChoices(rates: Rates): KnobChoice[] {
  const money = moneyRule(rates.currency, rates.moneyStep, rates.rounding);
  const step = printPlain(money.step);
  const around = (amount: DecimalString): { from: DecimalString; to: DecimalString } => {
    const value = max(decimal(amount), money.step.times(100));
    return { from: printMoney(roundMoney(value.div(2), money), money), to: printMoney(value.times(2), money) };
  };
  const { supplies } = rates;
  const percents = { unit: 'percent', step: '0.1' } as const;
  return [
    ...rates.labourClasses.map(({ id, title, rate }): KnobChoice => ({
      key: `class ${id}`,
      title: `Labour rate, ${title || id}`,
      knob: { turn: 'labour-rate', labourClass: id },
      unit: 'money',
      now: rate,
      step,
      ...around(rate),
    })),
    {
      key: 'rates',
      title: 'All labour rates, up or down by',
      knob: { turn: 'labour-percent' },
      now: '0',
      from: '-30',
      to: '50',
      ...percents,
    },
    {
      key: 'mark-up',
      title: 'Mark-up of all tiers, points more or less',
      knob: { turn: 'mark-up-shift' },
      now: '0',
      from: '-50',
      to: '50',
      ...percents,
    },
    ...(supplies === null
      ? []
      : ([
          {
            key: 'supplies',
            title: `${supplies.title}, percent`,
            knob: { turn: 'supplies-percent' },
            now: supplies.percent,
            from: '0',
            to: printPlain(min(HUNDRED, max(decimal('20'), decimal(supplies.percent).times(2)))),
            ...percents,
          },
          {
            key: 'maximum',
            title: `${supplies.title}, maximum`,
            knob: { turn: 'supplies-maximum' },
            unit: 'money',
            now: supplies.maximum,
            from: '0',
            to: printMoney(max(ONE, decimal(supplies.maximum ?? '50')).times(4), money),
            step,
          },
        ] satisfies KnobChoice[])),
    ...rates.fees.map(({ id, title, amount }): KnobChoice => ({
      key: `fee ${id}`,
      title: `Fee, ${title}`,
      knob: { turn: 'fee', fee: id },
      unit: 'money',
      now: amount,
      from: '0',
      step,
      to: around(amount).to,
    })),
  ];
}
