import type * as v from 'valibot';
import { DECIMAL_PATTERN } from '../number/decimal.js';
import { error, printPath, type Problem } from './problem.js';

/** What is said for each code that the schemas use as their message: the sentence and how to mend it. */
const SENTENCES: Readonly<Record<string, readonly [message: string, hint: string]>> = {
  decimal: ['is not a figure', 'Write it as text with up to 12 digits and 10 decimals, like "148.00".'],
  negative: ['is below zero', 'Only the quantity of a part line and the amount of a fee line may be negative.'],
  'not-positive': ['must be above zero', 'Write a figure like "1" or "0.05".'],
  id: ['is not an id', 'Use 1 to 64 letters, digits, dots, hyphens or underscores.'],
  hash: ['is not a content hash', 'It is the SHA-256 of a document, 64 digits and letters from a to f; leave it as it was written.'],
  'trouble-code': [
    'is no trouble code',
    'Write one of P, C, B, U, a digit from 0 to 3 and three of 0 to 9 and A to F, like "P0171" or, with a failure type, "U0100-87".',
  ],
  text: ['is not text', 'Put it in quotes.'],
  'too-long': ['is too long', 'Shorten it to 10,000 characters.'],
  empty: ['is empty', 'Write something here.'],
  day: ['is not a day', 'Write it as year-month-day, like "2026-01-31".'],
  time: ['is not a date and time', 'Write it like "2026-01-31T14:05:00Z".'],
  'yes-or-no': ['is neither true nor false', 'Write true or false, without quotes.'],
  count: ['is not a whole number above zero', 'Write it without quotes, like 1.'],
  list: ['is not a list', 'Put it in square brackets.'],
  'empty-list': ['has no entries', 'List at least one.'],
  pair: ['is not a pair', 'List exactly two ids.'],
  object: ['is not an object', 'Put it in curly brackets.'],
  locale: ['is not a language tag', 'Write language and region by BCP 47, like "en-US".'],
  currency: ['is not a currency code', 'Write the three capital letters of ISO 4217, like "USD".'],
  'percent-or-amount': ['has both a percent and an amount, or neither', 'Fill in one of the two and leave the other null.'],
};

/** A problem in plain words from one issue that valibot found. */
export function issueProblem(issue: v.BaseIssue<unknown>): Problem {
  const keys = issue.path?.map((item) => item.key as PropertyKey) ?? [];
  const path = printPath(keys);
  const name = nameOf(keys);
  const say = (code: string, message: string, hint?: string): Problem => error(code, path, message, hint);

  if (issue.type === 'strict_object' && issue.expected === 'never') {
    return say('unknown-key', `${name} is not a key of this format.`, 'Check the spelling, or take it out.');
  }
  if (issue.received === 'undefined') {
    return say('missing', `${name} is missing.`, `Add ${name} here.`);
  }
  if (issue.message === 'decimal' && typeof issue.input === 'number') {
    return say('number', `${name} is a JSON number.`, `Write it in quotes: "${issue.input}". Figures are text, so that none is rounded.`);
  }
  if ((issue.message === 'negative' || issue.message === 'not-positive') && !DECIMAL_PATTERN.test(String(issue.input))) {
    return issueProblem({ ...issue, message: 'decimal' });
  }
  if (issue.message === 'choice') {
    return say('choice', `${name} is ${shown(issue.input)}, which is not one of the choices.`, `Choose one of ${issue.expected}.`);
  }
  if (issue.message === 'line-kind') {
    return say('line-kind', 'The kind of this line is not known.', 'Choose operation, labour, part, sublet, fee or note.');
  }
  if (issue.message === 'format' || issue.message === 'version') {
    return say(
      issue.message,
      `${name} is ${shown(issue.input)}, not ${issue.expected}.`,
      'The file may be of another kind, or from a newer version.',
    );
  }
  const sentence = SENTENCES[issue.message];
  if (sentence !== undefined) {
    const was = typeof issue.input === 'object' && issue.input !== null ? name : `${name} (${shown(issue.input)})`;
    return say(issue.message, `${was} ${sentence[0]}.`, sentence[1]);
  }
  return say('shape', `${name} is ${shown(issue.input)}, which does not belong here.`, expectedHint(issue));
}

/** The key that the problem is about; an entry of a list goes by its place and the list's name. */
function nameOf(keys: readonly PropertyKey[]): string {
  const last = keys.at(-1);
  if (typeof last !== 'number') return `"${String(last ?? 'document')}"`;
  return `Entry ${last + 1} of "${String(keys.at(-2) ?? 'document')}"`;
}

function expectedHint(issue: v.BaseIssue<unknown>): string | undefined {
  return SENTENCES[issue.message]?.[1] ?? (issue.expected === null ? undefined : `Expected: ${issue.expected}.`);
}

function shown(input: unknown): string {
  if (typeof input === 'string') return `"${input.length > 40 ? `${input.slice(0, 40)}…` : input}"`;
  if (typeof input === 'object' && input !== null) return Array.isArray(input) ? 'a list' : 'an object';
  return String(input);
}
