/** The order of the teardown, on small cases worked out by hand. */
import { describe, expect, it } from 'vitest';
import { type Area, teardownOrder } from '../../../src/work/teardown-order.js';

/** `pump: tray drain belt` with what the steps need: tasks and order as one line, `tray[ drain[ hose ] ]`. */
function order(tasks: Record<string, string>, needs: Record<string, string> = {}, last: readonly string[] = []): string {
  const words = (text: string | undefined): string[] => (text ?? '').split(' ').filter((word) => word !== '');
  const area = teardownOrder(
    Object.entries(tasks).map(([of, steps]) => ({ of, needs: new Set(words(steps)), last: last.includes(of) })),
    (step) => words(needs[step]),
  );
  const print = ({ work, inside, last: end }: Area<string>): string =>
    [...work, ...inside.map((opening) => `${opening.step}[ ${print(opening)} ]`), ...end].filter((part) => part !== '').join(' ');
  return print(area);
}

describe('what is opened when', () => {
  it('work without steps is done as one is there', () => expect(order({ cap: '' })).toBe('cap'));

  it('a step that another needs is opened before it, whatever is named first', () => {
    expect(order({ hose: 'drain tray' }, { drain: 'tray' })).toBe('tray[ drain[ hose ] ]');
  });

  it('work is done as soon as all its steps are open, before more is opened', () => {
    expect(order({ hose: 'tray drain', panel: 'tray' }, { drain: 'tray' })).toBe('tray[ panel drain[ hose ] ]');
  });

  it('a shared step is opened once, for all that need it', () => {
    expect(order({ hose: 'drain', thermostat: 'drain', pump: 'drain belt', fan: 'belt' })).toBe(
      'drain[ hose thermostat belt[ pump fan ] ]',
    );
  });

  it('what most of the work waits for is opened first', () => {
    // a waits for x alone, b and c for y too: y first would leave a waiting for nothing
    expect(order({ a: 'x', b: 'x y', c: 'x' })).toBe('x[ a c y[ b ] ]');
    expect(order({ a: 'y', b: 'x y', c: 'x', d: 'x' })).toBe('x[ c d y[ a b ] ]');
  });

  it('of equals, the first in the sheet decides', () => {
    expect(order({ a: 'x y', b: 'x y' })).toBe('x[ y[ a b ] ]');
    expect(order({ a: 'y x', b: 'x y' })).toBe('y[ x[ a b ] ]');
  });
});

describe('what is closed when', () => {
  it('work that has no closed step in common is finished and closed before the next is begun', () => {
    expect(order({ left: 'lift wheel@l', right: 'lift wheel@r' }, { 'wheel@l': 'lift', 'wheel@r': 'lift' })).toBe(
      'lift[ wheel@l[ left ] wheel@r[ right ] ]',
    );
  });

  it('work that hangs together by way of others is one piece', () => {
    expect(order({ a: 'x', b: 'x y', c: 'y z', d: 'z' })).toBe('x[ a y[ b z[ c d ] ] ]');
  });

  it('a closing test is done when all further inside is closed, before its own steps are', () => {
    expect(order({ test: 'tray', hose: 'tray drain' }, { drain: 'tray' }, ['test'])).toBe('tray[ drain[ hose ] test ]');
    expect(order({ test: '', hose: 'tray' }, {}, ['test'])).toBe('tray[ hose ] test');
  });
});

it('steps in a ring are refused rather than left out', () => {
  expect(() => order({ a: 'x y' }, { x: 'y', y: 'x' })).toThrow('ring');
});
