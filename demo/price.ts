/**
 * Prices an estimate in the terminal: `npm run price -- demo/van.estimate.json`. Ends with exit code 1 where a document
 * cannot be used or something in it could not be priced.
 */
import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { parseArgs } from 'node:util';
import { type Documents, type Parsed, parseCatalogue, parseEstimate, parseRates, priceEstimate, printProblem } from '../src/index.js';
import { priceTable } from './price-table.js';

const HELP = `Usage: npm run price -- ESTIMATE [options]

Prices a repair estimate and prints it as a table: hours and money of each line, its parts, what the lines
share, totals, and whatever was found wrong.

  ESTIMATE          a file of the format baysheet-estimate, for example demo/van.estimate.json
  --catalogue FILE  operations and their book hours (default: the demo's, rates/catalogue.demo.json)
  --rates FILE      the rate card (default: the demo's, rates/card.demo.json)
  --json            print the priced estimate as JSON instead (as npm run -s price -- ... --json)
  --help            print this

Exit code 0: all is priced. 1: a file cannot be used, or an error kept something out of the sum.
`;

/** A reason to end that needs no stack trace: it says what is wrong, where, and how to mend it. */
class Refusal extends Error {}

try {
  process.exitCode = main(process.argv.slice(2));
} catch (fault) {
  if (!(fault instanceof Refusal)) throw fault;
  process.stderr.write(`${fault.message}\n`);
  process.exitCode = 1;
}

function main(args: readonly string[]): number {
  const { positionals, values } = readArguments(args);
  if (values.help) {
    process.stdout.write(HELP);
    return 0;
  }
  const [estimatePath] = positionals;
  if (estimatePath === undefined) throw new Refusal(`No estimate was named.\n\n${HELP}`);
  if (positionals.length > 1) throw new Refusal(`One estimate at a time, not ${positionals.length}: ${positionals.join(', ')}.`);

  const documents = readDocuments({
    estimate: estimatePath,
    catalogue: values.catalogue ?? ownFile('rates/catalogue.demo.json'),
    rates: values.rates ?? ownFile('rates/card.demo.json'),
  });
  const priced = priceEstimate(documents);
  process.stdout.write(values.json ? `${JSON.stringify(priced, null, 2)}\n` : priceTable(documents, priced));
  return priced.complete ? 0 : 1;
}

function readArguments(args: readonly string[]) {
  try {
    return parseArgs({
      args: [...args],
      allowPositionals: true,
      options: {
        catalogue: { type: 'string' },
        rates: { type: 'string' },
        json: { type: 'boolean', default: false },
        help: { type: 'boolean', default: false },
      },
    });
  } catch (fault) {
    throw new Refusal(`${messageOf(fault)}\n\n${HELP}`);
  }
}

/** Reads all three before it refuses, so that one run tells everything that is wrong. */
function readDocuments(paths: Record<keyof Documents, string>): Documents {
  const estimate = read(paths.estimate, parseEstimate);
  const catalogue = read(paths.catalogue, parseCatalogue);
  const rates = read(paths.rates, parseRates);
  const told = [...estimate.messages, ...catalogue.messages, ...rates.messages];
  if (told.length > 0) process.stderr.write(`${told.join('\n')}\n`);
  if (estimate.value === null || catalogue.value === null || rates.value === null) {
    throw new Refusal('Nothing was priced.');
  }
  return { estimate: estimate.value, catalogue: catalogue.value, rates: rates.value };
}

function read<T>(path: string, parse: (json: unknown) => Parsed<T>): { value: T | null; messages: string[] } {
  let text: string;
  try {
    text = readFileSync(path, 'utf8');
  } catch (fault) {
    return { value: null, messages: [`${path}: error: ${whyUnread(fault)}`] };
  }
  const parsed = parse(text);
  const messages = parsed.problems.map((problem) => `${path}: ${printProblem(problem)}`);
  return { value: parsed.ok ? parsed.value : null, messages };
}

function whyUnread(fault: unknown): string {
  const code = fault instanceof Error && 'code' in fault ? fault.code : undefined;
  if (code === 'ENOENT') return 'There is no such file. — Check the path; it is read from the folder that you are in.';
  if (code === 'EISDIR') return 'This is a folder. — Name a file in it.';
  if (code === 'EACCES') return 'The file may not be read. — Change its permissions, or copy it.';
  return `The file cannot be read (${messageOf(fault)}).`;
}

function messageOf(fault: unknown): string {
  return fault instanceof Error ? fault.message : String(fault);
}

function ownFile(path: string): string {
  return fileURLToPath(new URL(`../${path}`, import.meta.url));
}
