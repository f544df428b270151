import { hasErrors } from '../documents/problem.js';
import type { Draft } from './draft.js';

/** Rule 13: declined and deferred lines are left out; so are notes, and lines with an error. */
export function isPriced(draft: Draft, only: ReadonlySet<string> | undefined): boolean {
  const { line } = draft;
  if (line.kind === 'note' || hasErrors(draft.problems)) return false;
  return only === undefined ? line.decision === 'proposed' || line.decision === 'approved' : only.has(line.id);
}
