import { html, nothing, type TemplateResult } from 'lit';
import { ID_PATTERN } from '../../src/documents/fields.js';
import type { CatalogueFields } from '../../src/store/catalogue-draft.js';

/** What a field of the catalogue's head is to hold, or why it cannot. */
export function readAboutField(
  field: keyof CatalogueFields,
  text: string,
): { readonly fields: Partial<CatalogueFields> } | { readonly fault: string } {
  if (field !== 'id') return { fields: { [field]: text } };
  if (ID_PATTERN.test(text.trim())) return { fields: { id: text.trim() } };
  return { fault: `"${text}" cannot be an id. Use up to 64 letters, digits, dots, hyphens or underscores.` };
}

/** The catalogue's own title, note and id; `change` is called with what a person has entered. */
export function catalogueAbout(
  fields: CatalogueFields,
  fault: string,
  change: (field: keyof CatalogueFields, text: string) => void,
): TemplateResult {
  const input = (field: keyof CatalogueFields, label: string): TemplateResult =>
    html`<div class="field">
      <label for="about-${field}">${label}</label>
      <input id="about-${field}" autocomplete="off" .value=${fields[field]} @change=${(event: Event) => change(field, (event.target as HTMLInputElement).value)} />
    </div>`;
  return html`<details class="screen-only">
    <summary>${fields.title || fields.id}</summary>
    <div class="about">${input('title', 'Title')} ${input('note', 'Note')} ${input('id', 'Id')}</div>
    ${fault === '' ? nothing : html`<p class="fault" role="alert">${fault}</p>`}
  </details>`;
}
