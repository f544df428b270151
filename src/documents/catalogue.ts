import * as v from 'valibot';
import { checkCatalogueReferences } from './catalogue-references.js';
import { condition, figure, flag, id, list, object, optionalText, per, positive, requiredText, signed, text } from './fields.js';
import type { Parsed } from './problem.js';
import { readDocument } from './read.js';

/** A part and how many of it; `each`: so many for every position of an operation. A step is done at one position anyway. */
const partNeed = object({ part: id, qty: v.optional(positive, '1'), each: v.optional(flag, false) });

const optionalFigure = v.optional(v.nullable(figure), null);
const optionalSigned = v.optional(v.nullable(signed), null);

/**
 * A test and its usual limits, in `unit`: brought to `start`, watched for `minutes`, at most `drop` lost; or a reading
 * between `least` and `most`; or neither, for what is judged by eye. `closing` is the operation that repeats it after
 * the repair.
 */
const method = object({
  id,
  title: requiredText,
  unit: optionalText,
  start: optionalFigure,
  minutes: optionalFigure,
  drop: optionalFigure,
  least: optionalSigned,
  most: optionalSigned,
  cautions: list(id),
  closing: v.optional(v.nullable(id), null),
  basis: optionalText,
});

export const catalogueSchema = object({
  format: v.literal('baysheet-catalogue', 'format'),
  version: v.literal(1, 'version'),
  id,
  title: optionalText,
  note: optionalText,
  cautions: list(object({ id, text: requiredText })),
  components: list(object({ id, title: requiredText, positions: list(requiredText) })),
  remedies: list(
    object({
      component: id,
      fault: requiredText,
      operations: v.pipe(v.array(id, 'list'), v.minLength(1, 'empty-list')),
      instead: list(v.pipe(v.array(id, 'list'), v.minLength(1, 'empty-list'))),
    }),
  ),
  parts: list(
    object({
      id,
      title: requiredText,
      number: optionalText,
      cost: v.optional(figure, '0'),
      list: v.optional(v.nullable(figure), null),
      core: v.optional(figure, '0'),
      condition: v.optional(condition, 'new'),
      /** Where it is usually bought. */
      supplier: v.optional(text),
    }),
  ),
  steps: list(
    object({
      id,
      title: requiredText,
      hours: figure,
      per: v.optional(per, 'vehicle'),
      needs: list(id),
      parts: list(partNeed),
      cautions: list(id),
      /** What is done of it on the way in and on the way back, for the work sheet. */
      open: v.optional(requiredText),
      close: v.optional(requiredText),
    }),
  ),
  operations: list(
    object({
      id,
      title: requiredText,
      system: optionalText,
      labourClass: id,
      per: v.optional(per, 'vehicle'),
      bookHours: figure,
      additionalHours: v.optional(figure, '0'),
      steps: list(id),
      includes: list(id),
      parts: list(partNeed),
      fees: list(id),
      cautions: list(id),
      basis: optionalText,
    }),
  ),
  overlaps: list(object({ between: v.strictTuple([id, id], 'pair'), hours: figure })),
  methods: v.optional(v.array(method, 'list')),
});

/** What can be done on vehicles: operations, the teardown that they need, parts, and which fault asks for what. */
export type Catalogue = v.InferOutput<typeof catalogueSchema>;
export type Operation = Catalogue['operations'][number];
export type Step = Catalogue['steps'][number];
export type CataloguePart = Catalogue['parts'][number];
export type PartNeed = Step['parts'][number];
export type Component = Catalogue['components'][number];
/** A test method with its usual limits. */
export type Method = NonNullable<Catalogue['methods']>[number];
export type Remedy = Catalogue['remedies'][number];

/**
 * Reads a catalogue from JSON text or from a parsed value. Never throws; all problems come at once.
 *
 * Beyond the shape it checks that every reference leads somewhere, that nothing needs or includes itself, that no
 * vehicle step or operation needs a position step, and that book hours cover their steps.
 */
export function parseCatalogue(json: unknown): Parsed<Catalogue> {
  return readDocument(json, 'catalogue', catalogueSchema, checkCatalogueReferences);
}
