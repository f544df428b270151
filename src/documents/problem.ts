/** How much a problem matters: an `error` keeps something from being used or priced, a `warning` is worth a look, a `note` is only told. */
export type Severity = 'error' | 'warning' | 'note';

/**
 * Something a person should know about a document: where it is, what is wrong in plain words, and how to mend it.
 * `code` is stable and meant for programs; `path` is written as in JavaScript (`lines[3].qty`), empty for the whole.
 */
export interface Problem {
  readonly severity: Severity;
  readonly code: string;
  readonly path: string;
  readonly message: string;
  readonly hint?: string;
}

/** What reading a document gives: the value and what is worth knowing of it, or the reasons why there is none. */
export type Parsed<T> =
  | { readonly ok: true; readonly value: T; readonly problems: readonly Problem[] }
  | { readonly ok: false; readonly problems: readonly Problem[] };

export function error(code: string, path: string, message: string, hint?: string): Problem {
  return { severity: 'error', code, path, message, ...(hint === undefined ? {} : { hint }) };
}

export function warning(code: string, path: string, message: string, hint?: string): Problem {
  return { severity: 'warning', code, path, message, ...(hint === undefined ? {} : { hint }) };
}

export function note(code: string, path: string, message: string, hint?: string): Problem {
  return { severity: 'note', code, path, message, ...(hint === undefined ? {} : { hint }) };
}

export function hasErrors(problems: readonly Problem[]): boolean {
  return problems.some((problem) => problem.severity === 'error');
}

/** A path in JavaScript's own notation from its keys: `['lines', 3, 'qty']` → `lines[3].qty`. */
export function printPath(keys: readonly PropertyKey[]): string {
  let path = '';
  for (const key of keys) {
    if (typeof key === 'number') path += `[${key}]`;
    else if (/^[A-Za-z_$][\w$]*$/.test(String(key))) path += path === '' ? String(key) : `.${String(key)}`;
    else path += `[${JSON.stringify(String(key))}]`;
  }
  return path;
}

/** Problems of one document among several: its name comes before their paths. */
export function inDocument(name: string, problems: readonly Problem[]): Problem[] {
  return problems.map((problem) => ({ ...problem, path: problem.path === '' ? name : `${name}.${problem.path}` }));
}

/** One line for a log or a terminal: `error lines[3].qty: … — how to mend it`. */
export function printProblem(problem: Problem): string {
  const where = problem.path === '' ? '' : ` ${problem.path}`;
  const hint = problem.hint === undefined ? '' : ` — ${problem.hint}`;
  return `${problem.severity}${where}: ${problem.message}${hint}`;
}
