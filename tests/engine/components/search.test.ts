import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { sameWords, search } from '../../../components/estimate/search.js';

const find = (typed: string, ...texts: string[]): string[] =>
  search(
    typed,
    texts.map((text) => ({ item: text, text })),
  );

describe('search in plain words', () => {
  const hoses = ['Heater core · leaks', 'Heater hose', 'Heater hose · feed · seeps at the joint', 'Radiator hose · seeps at the clip'];

  test('every word that was typed must begin a word, wherever it stands', () => {
    expect(find('heater hose seep', ...hoses)).toEqual(['Heater hose · feed · seeps at the joint']);
    expect(find('seep hose', ...hoses)).toEqual(['Radiator hose · seeps at the clip', 'Heater hose · feed · seeps at the joint']);
    expect(find('eater', ...hoses)).toEqual([]);
    expect(find('heater clip', ...hoses)).toEqual([]);
  });

  test('shorter ones and those with the words in order come first, else the given order stays', () => {
    expect(find('hose', 'Radiator hose', 'Hose, heater, feed', 'Hose')).toEqual(['Hose', 'Hose, heater, feed', 'Radiator hose']);
    expect(find('hose heater', 'Heater hose', 'Hose heater')).toEqual(['Hose heater', 'Heater hose']);
    expect(find('heater hose', 'Hose, heater', 'The old heater hose')).toEqual(['The old heater hose', 'Hose, heater']);
    expect(find('b', 'b one', 'b two', 'b six')).toEqual(['b one', 'b two', 'b six']);
  });

  test('case, accents and marks do not matter', () => {
    expect(find('prot', 'Protège-courroie')).toEqual(['Protège-courroie']);
    expect(find('PROTÈGE courroie', 'protege-courroie')).toEqual(['protege-courroie']);
    expect(find('5/8', 'Hose 5/8"')).toEqual(['Hose 5/8"']);
  });

  test('nothing typed, or only marks, lists all, up to the most', () => {
    expect(find('', 'a', 'b')).toEqual(['a', 'b']);
    expect(find(' · ', 'a', 'b')).toEqual(['a', 'b']);
    expect(
      search(
        '',
        [1, 2, 3].map((item) => ({ item, text: String(item) })),
        2,
      ),
    ).toEqual([1, 2]);
    expect(
      search(
        'a',
        [1, 2, 3].map((item) => ({ item, text: 'a' })),
        2,
      ),
    ).toEqual([1, 2]);
  });

  test('an item is always found by the beginnings of its own words', () => {
    const word = fc.stringMatching(/^[a-zäöé0-9]{1,8}$/);
    fc.assert(
      fc.property(fc.array(word, { minLength: 1, maxLength: 5 }), fc.nat(), (words, seed) => {
        const typed = words
          .map((it) => it.normalize('NFD').slice(0, 1 + (seed % it.length)))
          .reverse()
          .join(' ');
        expect(find(typed, words.join(' · '))).toHaveLength(1);
      }),
      { numRuns: 300 },
    );
  });
});

test('the same words are the same to a person', () => {
  expect(sameWords('Heater hose', ' heater  HOSE ')).toBe(true);
  expect(sameWords('Heater hose · feed', 'heater hose, feed')).toBe(true);
  expect(sameWords('Protège', 'protege')).toBe(true);
  expect(sameWords('Heater hose', 'Heater hoses')).toBe(false);
  expect(sameWords('hose heater', 'heater hose')).toBe(false);
});
