import type { FeeLine, LabourLine, Line, NoteLine, OperationLine, PartLine, PartOverride, SubletLine } from '../documents/lines.js';
import {
  always,
  choice,
  columnsOf,
  flag,
  list,
  nullable,
  record,
  records,
  reference,
  referenceOr,
  references,
  referencesOrNull,
  type Row,
  RowFault,
  type Slot,
  text,
  textOrNull,
  usually,
} from './slots.js';

/** The keys that are always there. A copy has none of the others: they are internal to the shop. */
export type Told<T> = { readonly [K in keyof T as object extends Pick<T, K> ? never : K]: T[K] };

const condition = choice(['new', 'used', 'rebuilt', 'reconditioned']);

/** Null, or one of the conditions. */
const ownCondition = nullable(condition);

/** Lines are mostly called `l1`, `l2` by their place; the id of such a line is an empty slot here and comes back in `lineSlots`. */
const common = {
  id: text,
  taxes: referencesOrNull('t'),
  decision: choice(['proposed', 'approved', 'declined', 'deferred']),
  note: always(''),
};

const operation = columnsOf<OperationLine>({
  ...common,
  kind: always('operation' as const),
  operation: reference('o'),
  positions: list(text),
  findings: references('f'),
  labourClass: referenceOr('c', null),
  bookHours: textOrNull,
  extraHours: nullable(record<NonNullable<OperationLine['extraHours']>>({ hours: text, reason: text })),
  parts: records<PartOverride>({
    part: reference('p'),
    qty: textOrNull,
    unitPrice: textOrNull,
    cost: always(null),
    condition: ownCondition,
    omit: flag,
  }),
});
const labour = columnsOf<LabourLine>({ ...common, kind: always('labour' as const), title: text, hours: text, labourClass: reference('c') });
const part = columnsOf<Told<PartLine>>({
  ...common,
  kind: always('part' as const),
  title: text,
  number: text,
  qty: usually('1'),
  cost: always('0'),
  unitPrice: textOrNull,
  core: usually('0'),
  condition,
});
const sublet = columnsOf<SubletLine>({ ...common, kind: always('sublet' as const), title: text, cost: always('0'), price: textOrNull });
const fee = columnsOf<FeeLine>({ ...common, kind: always('fee' as const), title: text, amount: text });
const note = columnsOf<NoteLine>({ ...common, kind: always('note' as const), text });

interface Columns {
  write(lines: readonly Line[], row: string[]): void;
  read(row: Row, length: number): Line[];
}

/** By the letter that stands for the kind. */
const byLetter = new Map<string, Columns>(Object.entries({ o: operation, l: labour, p: part, s: sublet, f: fee, n: note }));

/** One slot that says the kinds in order (`ooolpf`), then all operation lines, all labour lines and so on. */
export const lineSlots: Slot<Line[]> = {
  write: (lines, row) => {
    row.push(lines.map((line) => line.kind[0]!).join(''));
    const short = lines.map((line, i) => (line.id === usualId(i) ? { ...line, id: '' } : line));
    for (const [letter, columns] of byLetter)
      columns.write(
        short.filter((line) => line.kind[0] === letter),
        row,
      );
  },
  read: (row) => {
    const letters = [...row.next()];
    if (!letters.every((letter) => byLetter.has(letter))) throw new RowFault('a kind of line is none');
    const read = new Map<string, Line[]>();
    for (const [letter, columns] of byLetter) {
      const length = letters.filter((each) => each === letter).length;
      if (length > row.left) throw new RowFault('there are more lines than slots');
      read.set(letter, columns.read(row, length));
    }
    return letters.map((letter, i) => {
      const line = read.get(letter)!.shift()!;
      return line.id === '' ? { ...line, id: usualId(i) } : line;
    });
  },
};

function usualId(place: number): string {
  return `l${place + 1}`;
}
