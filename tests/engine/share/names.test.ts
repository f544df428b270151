/** New names for ids, by their order; what leads nowhere leads nowhere under its new name too. */
import { expect, it } from 'vitest';
import { naming } from '../../../src/share/names.js';

it('numbers ids in their order, each once', () => {
  const name = naming('p', ['pump', 'seal', 'pump', 'hose']);
  expect(['pump', 'seal', 'hose'].map(name)).toEqual(['p0', 'p1', 'p2']);
});

it.each(['gone', '', '__proto__', 'constructor'])('has no name for %j', (id) => expect(naming('p', ['pump'])(id)).toBe('unknown'));
