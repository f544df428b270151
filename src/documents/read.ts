import * as v from 'valibot';
import { issueProblem } from './issue-problem.js';
import { beyondLimits, LIMITS } from './limits.js';
import { error, hasErrors, note, type Parsed, type Problem } from './problem.js';

type Schema<T> = v.GenericSchema<unknown, T>;

/**
 * The one way into the engine: JSON text or a parsed value, checked against its schema, then by `checkReferences`
 * for what a schema cannot say. Never throws.
 *
 * @param name what the document is called in messages ("rate card")
 */
export function readDocument<T>(json: unknown, name: string, schema: Schema<T>, checkReferences: (value: T) => Problem[]): Parsed<T> {
  const parsed = typeof json === 'string' ? parseText(json, name) : { value: json };
  if ('problem' in parsed) return refused(parsed.problem);
  try {
    return check(parsed.value, name, schema, checkReferences);
  } catch (fault) {
    // Only an object that a program made can do this: a property that throws when it is read.
    const message = `The ${name} cannot be read (${fault instanceof Error ? fault.message : String(fault)}).`;
    return refused(error('unreadable', '', message, 'Hand over plain data, as JSON would hold it.'));
  }
}

function check<T>(json: unknown, name: string, schema: Schema<T>, checkReferences: (value: T) => Problem[]): Parsed<T> {
  const refusal = refuse(json, name);
  if (refusal !== null) return refused(refusal);

  const checked = v.safeParse(schema, json);
  if (!checked.success) return { ok: false, problems: limited(checked.issues.map(issueProblem)) };

  const problems = limited(checkReferences(checked.output));
  return hasErrors(problems) ? { ok: false, problems } : { ok: true, value: checked.output, problems };
}

function parseText(json: string, name: string): { value: unknown } | { problem: Problem } {
  if (json.trim() === '') {
    return { problem: error('empty-text', '', `There is no ${name}: the text is empty.`, 'Choose another file.') };
  }
  if (json.length > LIMITS.characters) {
    const message = `The ${name} has ${json.length} characters; ${LIMITS.characters} is the most.`;
    return { problem: error('too-large', '', message, 'Split it, or take photos out of it.') };
  }
  try {
    return { value: JSON.parse(json) };
  } catch (fault) {
    const where = fault instanceof Error ? ` (${fault.message})` : '';
    const message = `The ${name} is not JSON${where}.`;
    return { problem: error('not-json', '', message, 'The file may be cut off, or of another kind.') };
  }
}

function refuse(value: unknown, name: string): Problem | null {
  if (typeof value !== 'object' || value === null || Array.isArray(value)) {
    const hint = `Expected: the JSON object of one ${name}, with "format" and "version".`;
    return error('not-an-object', '', `This is no ${name}.`, hint);
  }
  const reason = beyondLimits(value);
  if (reason === null) return null;
  return error('too-large', '', `The ${name} is too large. ${reason}`, 'Split it into smaller ones.');
}

function refused(problem: Problem): Parsed<never> {
  return { ok: false, problems: [problem] };
}

function limited(problems: Problem[]): Problem[] {
  if (problems.length <= LIMITS.problems) return problems;
  const rest = problems.length - LIMITS.problems;
  const told = [...problems].sort((a, b) => Number(b.severity === 'error') - Number(a.severity === 'error'));
  const more = note('more-problems', '', `${rest} more problems are not listed.`, 'Mend these first, then read it again.');
  return [...told.slice(0, LIMITS.problems), more];
}
