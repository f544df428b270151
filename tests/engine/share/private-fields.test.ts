/** Every field of the formats is either a customer's to read or the shop's alone: one that is added must be put in one of the lists. */
import { expect, it } from 'vitest';
import { IN_FILES, PRIVATE, PUBLIC } from '../../support/private-fields.js';
import { allFields } from '../../support/schema-fields.js';

const fields = allFields()
  .filter(({ kind }) => kind !== 'word')
  .map(({ path }) => path);

it('every field that can hold a secret is classed, once', () => {
  const lists = [PUBLIC, IN_FILES, PRIVATE];
  expect(fields.filter((path) => lists.filter((list) => list.has(path)).length !== 1)).toEqual([]);
});

it('nothing is classed that is no field', () => {
  expect([...PUBLIC, ...IN_FILES, ...PRIVATE].filter((path) => !fields.includes(path))).toEqual([]);
});
