/** What a customer's link costs: packed and unpacked against DEFLATE, sealed and opened as a whole. */
import { deflateRawSync, inflateRawSync } from 'node:zlib';
import van from '../../demo/van.estimate.json';
import card from '../../rates/card.demo.json';
import catalogueOfDemo from '../../rates/catalogue.demo.json';
import { openEstimate, parseCatalogue, parseEstimate, parseRates, sealEstimate } from '../../src/index.js';
import { customerCopy } from '../../src/share/customer-copy.js';
import { DICTIONARY_2 } from '../../src/share/dictionary.js';
import { layout } from '../../src/share/layout.js';
import { fromUtf8, utf8 } from '../../src/share/platform.js';
import { printRow } from '../../src/share/slots.js';
import { packText, unpackText } from '../../src/share/text-coder.js';
import { measure, median } from './measure.js';

const LINES = 12;

export interface LinkBench {
  readonly lines: number;
  readonly bytes: { readonly text: number; readonly packed: number; readonly deflated: number };
  /** Microseconds. */
  readonly times: ReadonlyMap<string, number>;
  /** Milliseconds. */
  readonly sealed: number;
  readonly opened: number;
}

export async function benchLinks(): Promise<LinkBench> {
  const documents = firstLines();
  const dictionary = utf8(DICTIONARY_2);
  const row: string[] = [];
  layout.write({ copy: customerCopy(documents), sealedAt: '2026-03-02T09:00:00Z' }, row);
  const text = utf8(printRow(row));
  const packed = packText(text, dictionary);
  const deflated = deflateRawSync(text, { level: 9, dictionary });
  if (fromUtf8(unpackText(packed, text.length, dictionary)!) !== fromUtf8(text)) throw new Error('The link does not come back as it was.');
  const times = measure([
    { name: 'packed', work: () => packText(text, dictionary) },
    { name: 'unpacked', work: () => unpackText(packed, text.length, dictionary) },
    { name: 'deflated', work: () => deflateRawSync(text, { level: 9, dictionary }) },
    { name: 'inflated', work: () => inflateRawSync(deflated, { dictionary }) },
  ]);

  const pair = await crypto.subtle.generateKey({ name: 'ECDSA', namedCurve: 'P-256' }, false, ['sign', 'verify']);
  const publicJwk = { ...(await crypto.subtle.exportKey('jwk', pair.publicKey)), kid: 'bench' };
  const seal = () => sealEstimate(documents, { kid: 'bench', privateKey: pair.privateKey });
  const { token } = await seal();
  const [sealed, opened] = await inTurns([seal, () => openEstimate(token, [publicJwk])]);
  return {
    lines: LINES,
    bytes: { text: text.length, packed: packed.length, deflated: deflated.length },
    times,
    sealed: sealed!,
    opened: opened!,
  };
}

function firstLines() {
  const [estimate, catalogue, rates] = [parseEstimate(van), parseCatalogue(catalogueOfDemo), parseRates(card)];
  if (!estimate.ok || !catalogue.ok || !rates.ok) throw new Error('The demonstration does not read.');
  return { estimate: { ...estimate.value, lines: estimate.value.lines.slice(0, LINES) }, catalogue: catalogue.value, rates: rates.value };
}

/** Milliseconds: the median of some runs of each. */
async function inTurns(works: readonly (() => Promise<unknown>)[]): Promise<number[]> {
  const times: number[][] = works.map(() => []);
  for (let round = 0; round < 15; round += 1) {
    for (const [i, work] of works.entries()) {
      const start = performance.now();
      await work();
      times[i]!.push(performance.now() - start);
    }
  }
  return times.map(median);
}
