import type { PartNeed } from '../documents/catalogue.js';
import { ID_PATTERN } from '../documents/fields.js';
import { decimal, type DecimalString } from '../number/decimal.js';
import { readNumber } from '../number/locale-parse.js';
import type { Reason } from './reason.js';

/** Parts and how many of each, as people write them in one cell: `hose-seal × 2 each; coolant-litre × 6; clip`. */
export function printPartNeeds(needs: readonly PartNeed[], figure: (qty: DecimalString) => string): string {
  return needs
    .map(({ part, qty, each }) => [part, ...(qty === '1' ? [] : ['×', figure(qty)]), ...(each ? ['each'] : [])].join(' '))
    .join('; ');
}

/**
 * Reads them; between a part and its quantity stands `×`, `x`, `*` or a blank, and no quantity means 1. Between parts
 * stands a semicolon, or a comma where no digit follows it.
 */
export function readPartNeeds(cell: string, locale: string): PartNeed[] | Reason {
  const needs: PartNeed[] = [];
  for (const piece of pieces(cell)) {
    const words = piece
      .replace(/[×*]/g, ' ')
      .replace(/(\s)x(?=\s|\d)/gi, '$1')
      .split(/\s+/);
    const each = words.at(-1)?.toLowerCase() === 'each' && words.length > 1;
    const [part, qty = '1', ...more] = each ? words.slice(0, -1) : words;
    if (!ID_PATTERN.test(part!) || more.length > 0)
      return { reason: `"${piece}" is not a part and how many of it. Write like hose-seal × 2 each.` };
    const read = readNumber(qty, locale);
    if (!read.ok) return { reason: `How many of "${part}": ${read.reason}` };
    if (!decimal(read.value).gt(0)) return { reason: `How many of "${part}": it must be above zero.` };
    if (needs.some((need) => need.part === part)) return { reason: `"${part}" stands here twice. Write how many of it once.` };
    needs.push({ part: part!, qty: read.value, each });
  }
  return needs;
}

function pieces(cell: string): string[] {
  const mark = cell.includes(';') ? ';' : /,(?!\d)/;
  return cell
    .split(mark)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== '');
}
