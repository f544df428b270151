import type { Operation } from '../documents/catalogue.js';
import { ID_PATTERN, MAX_TEXT } from '../documents/fields.js';
import type { DecimalString } from '../number/decimal.js';
import { readNumber } from '../number/locale-parse.js';
import { readIds } from './list-cell.js';
import { printPartNeeds, readPartNeeds } from './part-needs.js';
import { isReason, type Reason } from './reason.js';

/** What a table may say of an operation, in the order in which it is written. */
export const OPERATION_FIELDS = [
  'id',
  'title',
  'system',
  'labourClass',
  'per',
  'bookHours',
  'additionalHours',
  'steps',
  'includes',
  'parts',
  'fees',
  'cautions',
  'basis',
] as const;
export type OperationField = (typeof OPERATION_FIELDS)[number];

/** How the fields are called in words: the headings of a table that is written. */
export const OPERATION_TITLES: Readonly<Record<OperationField, string>> = {
  id: 'Id',
  title: 'Operation',
  system: 'System',
  labourClass: 'Labour class',
  per: 'Per',
  bookHours: 'Book hours',
  additionalHours: 'Hours for each further position',
  steps: 'Steps',
  includes: 'Includes',
  parts: 'Parts',
  fees: 'Fees',
  cautions: 'Cautions',
  basis: 'Basis',
};

/** Words of headings that a field goes by in tables of others (common words of the trade, no source). */
export const OPERATION_WORDS: Readonly<Record<OperationField, readonly string[]>> = {
  id: [
    'id',
    'code',
    'operation id',
    'operation code',
    'op code',
    'operation number',
    'op no',
    'labour code',
    'labour op',
    'op',
    'number',
    'no',
  ],
  title: ['operation', 'title', 'description', 'work', 'job', 'name', 'task', 'text', 'operation description'],
  system: ['system', 'group', 'category', 'section', 'area'],
  labourClass: ['labour class', 'class', 'skill', 'labour type', 'rate class', 'trade'],
  per: ['per', 'for each'],
  bookHours: [
    'book hours',
    'hours',
    'book time',
    'time',
    'hrs',
    'labour hours',
    'labour time',
    'book',
    'h',
    'standard hours',
    'standard time',
  ],
  additionalHours: [
    'hours for each further position',
    'additional hours',
    'further hours',
    'each additional',
    'extra each',
    'additional time',
  ],
  steps: ['steps', 'access steps', 'needs', 'teardown'],
  includes: ['includes', 'included operations', 'included'],
  parts: ['parts', 'part', 'materials'],
  fees: ['fees', 'fee'],
  cautions: ['cautions', 'caution', 'warnings'],
  basis: ['basis', 'source', 'origin', 'remark', 'remarks', 'note', 'notes'],
};

/** One field of an operation as a cell of a table. */
export function printField(field: OperationField, operation: Operation, figure: (value: DecimalString) => string): string {
  switch (field) {
    case 'bookHours':
    case 'additionalHours':
      return figure(operation[field]);
    case 'parts':
      return printPartNeeds(operation.parts, figure);
    case 'steps':
    case 'includes':
    case 'fees':
    case 'cautions':
      return operation[field].join(', ');
    default:
      return operation[field];
  }
}

/** What a cell says of an operation, or why it cannot be used. `null` for an empty cell: it says nothing. */
export function readField(field: OperationField, cell: string, locale: string): Partial<Operation> | Reason | null {
  const text = cell.trim();
  // In a table of ours an empty list or text is empty on purpose; a caller that updates decides what that means.
  if (text === '') return null;
  switch (field) {
    case 'id':
      return ID_PATTERN.test(text)
        ? { id: text }
        : { reason: `"${short(text)}" cannot be an id. Use up to 64 letters, digits, dots, hyphens or underscores.` };
    case 'labourClass':
      return ID_PATTERN.test(text) ? { labourClass: text } : { reason: `"${short(text)}" is not the id of a labour class.` };
    case 'per':
      return readPer(text);
    case 'bookHours':
    case 'additionalHours':
      return readHours(field, text, locale);
    case 'parts': {
      const parts = readPartNeeds(text, locale);
      return isReason(parts) ? parts : { parts };
    }
    case 'steps':
    case 'includes':
    case 'fees':
    case 'cautions': {
      const ids = readIds(text);
      const wrong = ids.find((id) => !ID_PATTERN.test(id));
      return wrong === undefined ? { [field]: ids } : { reason: `"${short(wrong)}" under ${OPERATION_TITLES[field]} is not an id.` };
    }
    default:
      return cell.length > MAX_TEXT ? { reason: `${OPERATION_TITLES[field]} has more than ${MAX_TEXT} characters.` } : { [field]: text };
  }
}

function readHours(field: 'bookHours' | 'additionalHours', text: string, locale: string): Partial<Operation> | Reason {
  const clock = /^(\d{1,4}):([0-5]\d)(?:\s*h)?$/.exec(text);
  if (clock !== null) return { reason: `"${text}" is hours and minutes. Write hours as one figure: half an hour is 0.5.` };
  const read = readNumber(text.replace(/\s*(h|hrs?|hours?)\.?$/i, ''), locale);
  if (!read.ok) return { reason: `${OPERATION_TITLES[field]}: ${read.reason}` };
  if (read.value.startsWith('-')) return { reason: `${OPERATION_TITLES[field]} are below zero.` };
  return { [field]: read.value };
}

function readPer(text: string): Partial<Operation> | Reason {
  const asked = text.toLowerCase();
  if ('vehicle'.startsWith(asked)) return { per: 'vehicle' };
  if ('position'.startsWith(asked)) return { per: 'position' };
  return { reason: `"${short(text)}" under Per is neither vehicle nor position.` };
}

function short(text: string): string {
  return text.length > 40 ? `${text.slice(0, 40)}…` : text;
}
