import type { Catalogue, Method } from '../../src/documents/catalogue.js';
import type { Estimate, Finding, TestRound } from '../../src/documents/estimate.js';
import { closingTests } from '../../src/findings/closing-tests.js';
import { operationLine } from '../../src/findings/new-line.js';
import { type PaneEdit, withText } from './pane-edit.js';
import { sameWords } from './search.js';

/** The next test round: the method of the one before, its own words begun anew. */
export function startRound({ rounds }: Estimate, { methods = [] }: Catalogue): PaneEdit {
  const last = rounds.reduce<TestRound | null>((latest, round) => (latest === null || round.n > latest.n ? round : latest), null);
  const n = (last?.n ?? 0) + 1;
  const method = methods.find(({ id }) => id === last?.methodId);
  const round: TestRound = {
    n,
    method: method?.title ?? last?.method ?? '',
    clean: false,
    note: '',
    ...(method === undefined ? {} : { methodId: method.id }),
  };
  return { commands: [{ do: 'set-rounds', rounds: [...rounds, round] }], what: `start of round ${n}` };
}

/** A round that was begun by mistake; only one in which nothing was found can go. */
export function removeRound({ rounds }: Estimate, n: number): PaneEdit {
  return { commands: [{ do: 'set-rounds', rounds: rounds.filter((round) => round.n !== n) }], what: `removal of round ${n}` };
}

/** A round by a method of the catalogue, or by none of them (`id` empty). Words that only named the method before follow it. */
export function chooseMethod(estimate: Estimate, n: number, id: string, { methods = [] }: Catalogue): PaneEdit {
  const title = methods.find((method) => method.id === id)?.title ?? '';
  return changeRound(estimate, n, `method of round ${n}`, (round) => {
    const before = methods.find((method) => method.id === round.methodId)?.title ?? '';
    const words = round.method === '' || sameWords(round.method, before) ? title : round.method;
    return { ...withText(round, 'methodId', id), method: words };
  });
}

export function describeRound(estimate: Estimate, n: number, key: 'method' | 'note', text: string): PaneEdit {
  return changeRound(estimate, n, `${key === 'method' ? 'words' : 'note'} of round ${n}`, (round) => ({ ...round, [key]: text.trim() }));
}

export function readRound(estimate: Estimate, n: number, text: string): PaneEdit {
  return changeRound(estimate, n, `reading of round ${n}`, (round) => withText(round, 'reading', text));
}

export function markClean(estimate: Estimate, n: number, clean: boolean): PaneEdit {
  return changeRound(estimate, n, `round ${n} ${clean ? 'clean' : 'not clean'}`, (round) => ({ ...round, clean }));
}

/** How a finding was plugged or isolated, so that the next round shows what it hid. */
export function plug(finding: Finding, text: string): PaneEdit {
  return { commands: [{ do: 'put', list: 'findings', entry: withText(finding, 'plugged', text) }], what: 'plugging' };
}

/** The closing test of a method as a line, also where it was taken out before. */
export function proposeClosing(estimate: Estimate, method: Method): PaneEdit {
  const rounds = estimate.rounds.map((round) => {
    if (round.methodId !== method.id) return round;
    const { closing: _, ...rest } = round;
    return rest;
  });
  const lines = [...estimate.lines, operationLine(method.closing!, estimate.lines)];
  return {
    commands: [
      { do: 'set-rounds', rounds },
      { do: 'set-lines', lines },
    ],
    what: 'proposal of a closing test',
  };
}

/** The closing tests that are worth a word: there is work to prove, and no line proves it. */
export function missingClosing(estimate: Estimate, catalogue: Catalogue): Method[] {
  return closingTests(estimate, estimate.lines, catalogue).flatMap(({ method, needed, line }) => (needed && line === null ? [method] : []));
}

function changeRound({ rounds }: Estimate, n: number, what: string, change: (round: TestRound) => TestRound): PaneEdit {
  return { commands: [{ do: 'set-rounds', rounds: rounds.map((round) => (round.n === n ? change(round) : round)) }], what };
}
