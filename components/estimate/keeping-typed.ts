import type { Typed } from './keeping-text.js';

type Field = HTMLInputElement | HTMLTextAreaElement;

/** Kinds of fields whose text is part of nothing, or must not be kept. */
const NOT_KEPT = new Set(['search', 'password', 'file', 'checkbox', 'radio', 'button', 'submit', 'range', 'color']);

/** Parts of the sheet whose fields are the same ones after a reload. */
const LASTING = new Set(['baysheet-job', 'baysheet-rounds']);

/** A field that a person is typing into. */
export interface OpenField {
  readonly field: Field;
  readonly typed: Typed;
}

/**
 * What is being typed, from an `input` event that reached `host`; null where it is nothing to keep. An attribute
 * `data-not-kept` on a field, or on what it stands in, says so.
 */
export function typedBy(event: Event, host: Element): OpenField | null {
  const path = event.composedPath();
  const [field] = path;
  if (!(field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement) || NOT_KEPT.has(field.type)) return null;
  const inside = path.slice(0, path.indexOf(host)).filter((each): each is Element => each instanceof Element);
  if (inside.some((element) => element.hasAttribute('data-not-kept'))) return null;
  return { field, typed: { place: placeOf(field, inside), label: labelOf(field), text: field.value } };
}

/** Whether a person is still in it. */
export function isOpen({ field }: OpenField): boolean {
  return field.isConnected && (field.getRootNode() as Document | ShadowRoot).activeElement === field;
}

/** The cell of a place, where it is one. */
export function cellOf({ place }: Typed): { readonly grid: string; readonly row: string; readonly column: string } | null {
  const [what, grid, row, column] = place;
  return what === 'cell' && grid !== undefined && row !== undefined && column !== undefined ? { grid, row, column } : null;
}

/** The field of a place, where it is there and surely the same. */
export function fieldOf({ place }: Typed, root: ParentNode): Field | null {
  const [what, part, selector] = place;
  if (what !== 'field' || part === undefined || selector === undefined || !LASTING.has(part)) return null;
  const field = root.querySelector(part)?.shadowRoot?.querySelector(selector);
  return field instanceof HTMLInputElement || field instanceof HTMLTextAreaElement ? field : null;
}

function placeOf(field: Field, inside: readonly Element[]): string[] {
  const { row, column } = field.dataset;
  const grid = inside.find((element) => element.matches('.sheet-of'))?.id;
  if (row !== undefined && column !== undefined && grid !== undefined) return ['cell', grid, row, column];
  const part = inside.findLast((element) => element.shadowRoot !== null);
  const selector = field.name !== '' ? `[name="${CSS.escape(field.name)}"]` : field.id !== '' ? `#${CSS.escape(field.id)}` : null;
  return part === undefined || selector === null ? [] : ['field', part.localName, selector];
}

function labelOf(field: Field): string {
  const words = field.getAttribute('aria-label') ?? field.labels?.[0]?.textContent ?? field.placeholder;
  return words.replace(/\s+/g, ' ').trim();
}
