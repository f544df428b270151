import { readFileSync } from 'node:fs';
import { expect, it } from 'vitest';
import { parseRates } from '../../../src/index.js';
import { workedExamples } from '../../../src/pricing/worked-examples.js';

function examples(card: string): string[] {
  const read = parseRates(readFileSync(`rates/card.${card}.json`, 'utf8'));
  if (!read.ok) throw new Error('the card does not read');
  return workedExamples(read.value).map(
    ({ of, amount, total }) => `${of.kind === 'labour' ? of.title : `${of.kind} ${of.cost}`}: ${amount}, ${total}`,
  );
}

it('worked by hand for the demo card', () => {
  expect(examples('demo')).toEqual([
    // 6 % supplies, and 4.25 % and 1.5 % tax on them: 9.00 + 0.38 + 0.14 (0.135 up).
    'General repair: 150.00, 159.52',
    // 9.72 + 0.41 + 0.15.
    'Electrical work: 162.00, 172.28',
    // 10.50 + 0.45 + 0.16.
    'Diagnosis: 175.00, 186.11',
    // 5 × 2; 0.43 (0.425 up) + 0.15.
    'part 5: 10.00, 10.58',
    // 10 × 2 + 40 × 1.7 = 88; 3.74 + 1.32.
    'part 50: 88.00, 93.06',
    // 20 + 68 + 150 × 1.45 + 300 × 1.3 = 695.50; 29.56 (29.55875) + 10.43 (10.4325).
    'part 500: 695.50, 735.49',
    'sublet 50: 60.00, 60.00',
  ]);
});

it('takes costs that are usual where money has no decimals', () => {
  expect(
    examples('japan')
      .slice(3, 6)
      .map((example) => example.split(':')[0]),
  ).toEqual(['part 500', 'part 5000', 'part 50000']);
});
