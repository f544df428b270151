import { decimal } from '../number/decimal.js';
import type { Catalogue, Method } from './catalogue.js';
import { error, type Problem } from './problem.js';
import { byId, duplicates, unknown, unknownAt } from './references.js';

/** What a schema cannot say of test methods: references, and limits that make sense together. */
export function checkMethods(catalogue: Catalogue, operations: { has(id: string): boolean }): Problem[] {
  const methods = catalogue.methods ?? [];
  const cautions = byId(catalogue.cautions);
  return [
    ...duplicates(
      methods.map((method) => method.id),
      'methods',
    ),
    ...methods.flatMap((method, i) => {
      const path = `methods[${i}]`;
      return [
        ...unknown(method.cautions, cautions, 'caution', `${path}.cautions`),
        ...(method.closing === null || operations.has(method.closing) ? [] : [unknownAt(method.closing, 'operation', `${path}.closing`)]),
        ...checkLimits(method, path),
      ];
    }),
  ];
}

function checkLimits({ title, unit, start, minutes, drop, least, most }: Method, path: string): Problem[] {
  const held = [start, minutes, drop].filter((figure) => figure !== null).length;
  const ranged = least !== null || most !== null;
  const complain = (key: string, message: string, hint: string): Problem[] => [error('method-limits', `${path}.${key}`, message, hint)];
  if (held > 0 && ranged) {
    return complain(
      'drop',
      `"${title}" has limits for a drop and for a reading.`,
      'Make two methods of it, or take one kind of limit out.',
    );
  }
  if (held > 0 && held < 3) {
    return complain('drop', `"${title}" does not say all of a drop.`, 'Fill in start, minutes and drop, or leave all three out.');
  }
  if ((held > 0 || ranged) && unit === '') {
    return complain('unit', `The limits of "${title}" have no unit.`, 'Write the unit, like "kPa".');
  }
  if (drop !== null && decimal(drop).gt(decimal(start!))) {
    return complain('drop', `"${title}" may lose ${drop} ${unit}, but begins with ${start}.`, 'Lower the drop.');
  }
  if (least !== null && most !== null && decimal(least).gt(decimal(most))) {
    return complain('least', `The least reading of "${title}" (${least}) is above the most (${most}).`, 'Exchange the two.');
  }
  return [];
}
