import type { Decision } from '../../src/documents/lines.js';

/** What the customer says to a line. */
export type Answer = 'yes' | 'no' | 'later';

/** Answers by line; a line that is not in it has not been answered. */
export type Answers = Readonly<Record<string, Answer>>;

export const ANSWERS: readonly Answer[] = ['yes', 'no', 'later'];

const ANSWER_OF: Readonly<Record<Decision, Answer | null>> = { proposed: null, approved: 'yes', declined: 'no', deferred: 'later' };
const DECISION_OF = { yes: 'approved', no: 'declined', later: 'deferred' } as const satisfies Record<Answer, Decision>;

/** What was decided before the link was made. What is only proposed begins without an answer: silence is no consent. */
export function earlierAnswers(lines: readonly { readonly id: string; readonly decision: Decision }[]): Answers {
  return Object.fromEntries(
    lines.flatMap(({ id, decision }) => {
      const answer = ANSWER_OF[decision];
      return answer === null ? [] : [[id, answer]];
    }),
  );
}

/** The answer to a line; a line may be called like something that every object has. */
export function answerTo(answers: Answers, line: string): Answer | undefined {
  return Object.hasOwn(answers, line) ? answers[line] : undefined;
}

/** Answers as the decisions of an estimate. */
export function decisionsOf(answers: Answers): Record<string, 'approved' | 'declined' | 'deferred'> {
  return Object.fromEntries(Object.entries(answers).map(([id, answer]) => [id, DECISION_OF[answer]]));
}

/** All lines that have no answer get this one. */
export function answerOpen(answers: Answers, lines: readonly string[], answer: Answer): Answers {
  return { ...Object.fromEntries(lines.map((id) => [id, answer])), ...answers };
}
