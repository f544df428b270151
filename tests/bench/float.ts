import type { Flat, FlatPart } from './flat.js';

/**
 * The same sum in plain floating point: as little work as a computer can do for it, and not exact. It is only here
 * as the floor to measure against; no figure of the project is ever worked out like this.
 */
export interface FloatSheet {
  readonly hours: Float64Array;
  readonly rates: Float64Array;
  readonly steps: readonly (readonly number[])[];
  readonly parts: readonly (readonly FloatPart[])[];
  readonly stepHours: Float64Array;
  readonly stepParts: readonly (readonly FloatPart[])[];
  readonly asksFee: readonly boolean[];
}

interface FloatPart {
  readonly qty: number;
  readonly cost: number;
  readonly unit: number | null;
  readonly core: number;
}

export interface FloatPrice {
  readonly chargedHours: Float64Array;
  readonly amounts: Float64Array;
  readonly savedHours: number;
  readonly total: number;
}

export function floatSheet({ lines, steps }: Flat): FloatSheet {
  return {
    hours: Float64Array.from(lines, (line) => Number(line.hours)),
    rates: Float64Array.from(lines, (line) => Number(line.rate)),
    steps: lines.map((line) => line.steps),
    parts: lines.map((line) => line.parts.map(floatPart)),
    stepHours: Float64Array.from(steps, (step) => Number(step.hours)),
    stepParts: steps.map((step) => step.parts.map(floatPart)),
    asksFee: lines.map((line) => line.asksFee),
  };
}

function floatPart({ qty, cost, unit, core }: FlatPart): FloatPart {
  return { qty: Number(qty), cost: Number(cost), unit: unit === null ? null : Number(unit), core: Number(core) };
}

export function floatPrice({ hours, rates, steps, parts, stepHours, stepParts, asksFee }: FloatSheet): FloatPrice {
  const ranked = Array.from(hours, (_, i) => i).sort((a, b) => rates[b]! - rates[a]! || hours[b]! - hours[a]! || a - b);
  const chargedHours = hours.slice();
  const amounts = new Float64Array(hours.length);
  const carried = new Uint8Array(stepHours.length);
  let [labour, goods, savedHours] = [0, 0, 0];

  for (const i of ranked) {
    let own = 0;
    for (const step of steps[i]!) {
      if (carried[step] === 1) {
        chargedHours[i]! -= stepHours[step]!;
        savedHours += stepHours[step]!;
      } else {
        carried[step] = 1;
        for (const part of stepParts[step]!) own += goodsOf(part);
      }
    }
    for (const part of parts[i]!) own += goodsOf(part);
    const work = cents(chargedHours[i]! * rates[i]!);
    labour += work;
    goods += own;
    amounts[i] = work + own;
  }
  const fee = asksFee.includes(true) ? 6.5 : 0;
  const supplies = cents(labour * 0.06);
  const taxed = goods + supplies;
  const total = labour + goods + fee + supplies + cents(taxed * 0.0425) + cents(taxed * 0.015);
  return { chargedHours, amounts, savedHours, total };
}

function goodsOf({ qty, cost, unit, core }: FloatPart): number {
  return cents(qty * (unit ?? markedUp(cost))) + cents(qty * core);
}

function markedUp(cost: number): number {
  const upTo = (limit: number, from: number): number => Math.max(0, Math.min(cost, limit) - from);
  return cents(upTo(10, 0) * 2 + upTo(50, 10) * 1.7 + upTo(200, 50) * 1.45 + upTo(Infinity, 200) * 1.3);
}

function cents(value: number): number {
  return Math.round(value * 100) / 100;
}
