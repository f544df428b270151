/** Something that can be found by its words. */
export interface Findable<T> {
  readonly item: T;
  readonly text: string;
}

/**
 * Type-ahead in plain words: an item is found when every word that was typed begins one of its words, wherever it
 * stands; "heater hose seep" finds "Heater hose · seeps at the joint". Items in which the words come in order, and
 * shorter ones, come first; else the given order stays.
 */
export function search<T>(typed: string, items: readonly Findable<T>[], most = 40): T[] {
  const asked = words(typed);
  if (asked.length === 0) return items.slice(0, most).map(({ item }) => item);
  const found = items.flatMap(({ item, text }, order) => {
    const there = words(text);
    const places = asked.map((word) => there.findIndex((candidate) => candidate.startsWith(word)));
    if (places.some((place) => place < 0)) return [];
    const inOrder = places.every((place, i) => i === 0 || place >= places[i - 1]!);
    return [{ item, score: (inOrder ? 0 : 100) + places[0]! * 4 + there.length, order }];
  });
  return found
    .sort((a, b) => a.score - b.score || a.order - b.order)
    .slice(0, most)
    .map(({ item }) => item);
}

/** Lower-case words without accents and marks. */
function words(text: string): string[] {
  return text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word !== '');
}

/** Whether two texts are the same to a person: case, accents and marks aside. */
export function sameWords(a: string, b: string): boolean {
  return words(a).join(' ') === words(b).join(' ');
}
