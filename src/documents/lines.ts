import * as v from 'valibot';
import { condition, figure, flag, id, list, object, optionalText, requiredText, signed, text } from './fields.js';

/** What the customer said to a line. */
export const decision = v.picklist(['proposed', 'approved', 'declined', 'deferred'], 'choice');
export type Decision = v.InferOutput<typeof decision>;

/** What any line may carry: its own taxes instead of what the kinds say, a decision, a note. */
const common = {
  id,
  taxes: v.optional(v.nullable(v.array(id, 'list')), null),
  decision: v.optional(decision, 'proposed'),
  note: optionalText,
};

const optionalFigure = v.optional(v.nullable(figure), null);

/** What an operation line says differently about one of its parts. */
const partOverride = object({
  part: id,
  qty: v.optional(v.nullable(signed), null),
  unitPrice: optionalFigure,
  cost: optionalFigure,
  condition: v.optional(v.nullable(condition), null),
  omit: v.optional(flag, false),
});

const operationLine = object({
  ...common,
  kind: v.literal('operation'),
  operation: id,
  positions: list(requiredText),
  findings: list(id),
  labourClass: v.optional(v.nullable(id), null),
  bookHours: optionalFigure,
  extraHours: v.optional(v.nullable(object({ hours: figure, reason: optionalText })), null),
  parts: list(partOverride),
});

const labourLine = object({
  ...common,
  kind: v.literal('labour'),
  title: optionalText,
  hours: v.optional(figure, '0'),
  labourClass: id,
});

const partLine = object({
  ...common,
  kind: v.literal('part'),
  title: optionalText,
  number: optionalText,
  qty: v.optional(signed, '1'),
  cost: v.optional(figure, '0'),
  unitPrice: optionalFigure,
  core: v.optional(figure, '0'),
  condition: v.optional(condition, 'new'),
  /** Where it is bought. */
  supplier: v.optional(text),
});

const subletLine = object({
  ...common,
  kind: v.literal('sublet'),
  title: optionalText,
  cost: v.optional(figure, '0'),
  price: optionalFigure,
});

const feeLine = object({ ...common, kind: v.literal('fee'), title: text, amount: v.optional(signed, '0') });

const noteLine = object({ ...common, kind: v.literal('note'), text });

/** The six kinds of line. */
export const line = v.variant('kind', [operationLine, labourLine, partLine, subletLine, feeLine, noteLine], 'line-kind');

export type Line = v.InferOutput<typeof line>;
export type OperationLine = v.InferOutput<typeof operationLine>;
export type LabourLine = v.InferOutput<typeof labourLine>;
export type PartLine = v.InferOutput<typeof partLine>;
export type SubletLine = v.InferOutput<typeof subletLine>;
export type FeeLine = v.InferOutput<typeof feeLine>;
export type NoteLine = v.InferOutput<typeof noteLine>;
export type PartOverride = OperationLine['parts'][number];
