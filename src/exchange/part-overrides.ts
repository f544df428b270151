import { ID_PATTERN } from '../documents/fields.js';
import type { PartOverride } from '../documents/lines.js';
import type { DecimalString } from '../number/decimal.js';
import { readNumber } from '../number/locale-parse.js';
import type { Reason } from './reason.js';

const FIGURES = [
  ['quantity', 'qty'],
  ['price', 'unitPrice'],
  ['cost', 'cost'],
] as const;
const CONDITIONS = ['new', 'used', 'rebuilt', 'reconditioned'] as const;

/** What a line says differently about its parts, in one cell: `hose quantity 2 price 19.50 used; clip left-out`. */
export function printOverrides(overrides: readonly PartOverride[], figure: (value: DecimalString) => string): string {
  return overrides
    .map((override) =>
      [
        override.part,
        ...FIGURES.flatMap(([word, key]) => (override[key] === null ? [] : [word, figure(override[key])])),
        ...(override.condition === null ? [] : [override.condition]),
        ...(override.omit ? ['left-out'] : []),
      ].join(' '),
    )
    .join('; ');
}

/** Reads them. */
export function readOverrides(cell: string, locale: string): PartOverride[] | Reason {
  const overrides: PartOverride[] = [];
  for (const piece of cell
    .split(';')
    .map((text) => text.trim())
    .filter((text) => text !== '')) {
    const [part, ...words] = piece.split(/\s+/) as [string, ...string[]];
    if (!ID_PATTERN.test(part)) return { reason: `"${part}" under Parts is not the id of a part.` };
    const override: PartOverride = { part, qty: null, unitPrice: null, cost: null, condition: null, omit: false };
    for (let i = 0; i < words.length; i += 1) {
      const word = words[i]!.toLowerCase();
      const key = FIGURES.find(([name]) => name === word)?.[1];
      const condition = CONDITIONS.find((name) => name === word);
      if (key !== undefined) {
        const read = readNumber(words[(i += 1)] ?? '', locale);
        if (!read.ok) return { reason: `The ${word} of "${part}": ${read.reason}` };
        override[key] = read.value;
      } else if (condition !== undefined) override.condition = condition;
      else if (word === 'left-out') override.omit = true;
      else return { reason: `"${words[i]}" says nothing about the part "${part}". Write quantity, price, cost, a condition or left-out.` };
    }
    overrides.push(override);
  }
  return overrides;
}
