import type { Catalogue, Estimate, Rates } from '../../src/index.js';

/** What the pages of React and Vue show: two estimates of the demonstration, its catalogue and its rate card. */
export interface DeskDocuments {
  readonly catalogue: Catalogue;
  readonly rates: Rates;
  readonly estimates: readonly Estimate[];
}

export async function readDocuments(): Promise<DeskDocuments> {
  const read = async (address: string): Promise<unknown> => (await fetch(address)).json();
  const [catalogue, rates, ...estimates] = await Promise.all(
    ['../rates/catalogue.demo.json', '../rates/card.demo.json', '../van.estimate.json', '../plenum.estimate.json'].map(read),
  );
  return { catalogue, rates, estimates } as DeskDocuments;
}
