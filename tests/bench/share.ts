/** `npx tsx tests/bench/share.ts`: what the customer's link costs. Nothing is asserted and nothing is written. */
import { readFileSync } from 'node:fs';
import { parseCatalogue, parseEstimate, parseRates } from '../../src/index.js';
import { heldOutBrakes, heldOutCooling, heldOutForty, heldOutSpanish } from '../engine/share/held-out.js';
import { manyLines as wordyLines, WORDS } from '../engine/share/lengths.js';
import { firstLines, newKey } from '../engine/share/sealed.js';
import { openEstimate } from '../../src/share/open.js';
import { sealEstimate } from '../../src/share/seal.js';
import { fitToBudget } from '../../src/share/budget.js';
import { customerCopy } from '../../src/share/customer-copy.js';
import { prepare } from '../../src/pricing/documents.js';
import { Pricer } from '../../src/pricing/pricer.js';
import type { Documents } from '../../src/pricing/documents.js';

function read<T>(parsed: { ok: true; value: T } | { ok: false; problems: unknown }): T {
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.problems));
  return parsed.value;
}

const text = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');
const catalogue = read(parseCatalogue(text('rates/catalogue.demo.json')));
const rates = read(parseRates(text('rates/card.demo.json')));
const van = read(parseEstimate(text('demo/van.estimate.json')));

/** A pseudo-random number from 0 to 1 (mulberry32), the same in every run. */
function random(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** So many operations of the demo catalogue at once, each found to be of some urgency, under the demo card. */
function manyLines(count: number, seed: number, discounts = van.discounts): Documents {
  const next = random(seed);
  const operations = [...catalogue.operations].sort(() => next() - 0.5).slice(0, count);
  const findings = van.findings
    .slice(0, 4)
    .map((finding, i) => ({ ...finding, urgency: (['unsafe', 'now', 'soon', 'watch'] as const)[i]! }));
  const lines = operations.map((operation, i) => ({
    id: `l${i + 1}`,
    kind: 'operation' as const,
    operation: operation.id,
    positions: operation.per === 'position' ? ['left front'] : [],
    findings: [findings[Math.floor(next() ** 0.7 * 4)]!.id],
    decision: 'proposed' as const,
  }));
  return { estimate: read(parseEstimate({ ...van, findings, lines, discounts })), catalogue, rates };
}

function budgets(): void {
  console.log('Fit to a budget: the worst and the median of 20 random sheets at three ceilings each');
  for (const [title, discounts] of [
    ['with a discount', van.discounts],
    ['without', []],
  ] as const) {
    for (const count of [12, 18, 24, 30, 40]) {
      const times: number[] = [];
      let stopped = 0;
      for (let seed = 1; seed <= 20; seed += 1) {
        const copy = customerCopy(manyLines(count, seed, [...discounts]));
        const prepared = prepare(copy);
        if (!prepared.ok) throw new Error('a bench document does not read');
        const { estimate, index, rates: card } = prepared.prepared;
        const all = new Pricer(index, card).total(estimate, new Set(estimate.lines.map(({ id }) => id)));
        for (const share of ['0.25', '0.5', '0.8']) {
          const start = performance.now();
          const { proven } = fitToBudget(copy, all.times(share).toFixed(2));
          times.push(performance.now() - start);
          if (!proven) stopped += 1;
        }
      }
      times.sort((a, b) => a - b);
      const [median, worst] = [times[Math.floor(times.length / 2)]!, times.at(-1)!];
      console.log(
        `  ${count} lines ${title}: median ${median.toFixed(1)} ms, worst ${worst.toFixed(1)} ms, stopped ${stopped} of ${times.length}`,
      );
    }
  }
}

async function links(): Promise<void> {
  const key = await newKey('s-Ab3dE9');
  console.log('Characters of a link without its address');
  const length = async (documents: Parameters<typeof sealEstimate>[0]): Promise<number> => (await sealEstimate(documents, key)).length;
  console.log(`  demo van, first 12 lines: ${await length(firstLines(12))}; all 18: ${await length(firstLines(18))}`);
  for (const count of [6, 12, 25, 40]) {
    for (const words of WORDS) {
      const lengths: number[] = [];
      for (const from of [0, 20, 40]) lengths.push(await length(wordyLines(count, words, from)));
      console.log(`  ${count} operations, of each finding the ${words}: ${lengths.join(', ')}`);
    }
  }

  for (const [title, made] of Object.entries({ heldOutCooling, heldOutBrakes, heldOutSpanish, heldOutForty })) {
    console.log(`  ${title}: ${await length(made())}`);
  }

  const documents = firstLines(18);
  const { token } = await sealEstimate(documents, key);
  const time = async (title: string, work: () => Promise<unknown>): Promise<void> => {
    const times: number[] = [];
    for (let i = 0; i < 30; i += 1) {
      const start = performance.now();
      await work();
      times.push(performance.now() - start);
    }
    console.log(`  ${title}: ${times.sort((a, b) => a - b)[15]!.toFixed(2)} ms`);
  };
  console.log('Time for the demo van');
  await time('sealed', () => sealEstimate(documents, key));
  await time('opened', () => openEstimate(token, [key.publicJwk]));
  await time('refused, last character changed', () =>
    openEstimate(token.slice(0, -1) + (token.endsWith('A') ? 'Q' : 'A'), [key.publicJwk]),
  );
}

await links();
budgets();
