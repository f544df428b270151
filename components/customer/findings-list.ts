import { html, nothing, type TemplateResult } from 'lit';
import type { Finding } from '../../src/documents/estimate.js';
import { type CustomerView, URGENCIES } from './customer-view.js';
import type { Reader } from './reader.js';
import { phoneLink } from './head.js';

/** What may stand in a photo: the picture itself, never an address that would tell somebody who looks. */
const PICTURE = /^data:image\/(png|jpeg|webp|gif|avif);base64,[A-Za-z0-9+/=]+$/;

/** What the shop found, the most urgent first, each with how it was seen. */
export function findingsList(view: CustomerView, reader: Reader): TemplateResult | typeof nothing {
  const { findings } = view.copy.estimate;
  const more = moreMayBeFound(view, reader);
  if (findings.length === 0 && more === nothing) return nothing;
  return html`<section class="findings" part="findings" aria-labelledby="found">
    <h3 id="found">${reader.m.found}</h3>
    ${more}
    ${URGENCIES.map((urgency) => {
      const some = findings.filter((finding) => finding.urgency === urgency);
      if (some.length === 0) return nothing;
      return html`<div class="group">
        <h4 class="urgency ${urgency}"><span>${reader.m.urgency[urgency]}</span></h4>
        ${urgency === 'unsafe' ? unsafeCaution(view, reader) : nothing}
        <ul>
          ${some.map((finding) => findingItem(finding, view, reader))}
        </ul>
      </div>`;
    })}
  </section>`;
}

/** A large leak hides a small one: as long as the last test round was not clean, what was found is not known to be all. */
export function moreMayBeFound({ copy }: CustomerView, reader: Reader): TemplateResult | typeof nothing {
  return copy.estimate.rounds.at(-1)?.clean === false ? html`<p class="caution" part="more">${reader.m.moreMayBeFound}</p>` : nothing;
}

/** Whoever drives with what is unsafe may be hurt: the shop knows the vehicle, so it is the one to ask. */
export function unsafeCaution({ copy }: CustomerView, reader: Reader): TemplateResult {
  const { phone } = copy.shop;
  return html`<p class="caution"><strong>${reader.m.unsafeCaution}</strong> ${phone === '' ? nothing : phoneLink(phone, reader.m.call(phone))}</p>`;
}

/** `Heater hose, feed: seeps at the joint` */
export function findingTitle(finding: Finding, view: CustomerView): string {
  const component = view.components.get(finding.component)?.title ?? finding.component;
  const place = finding.position === '' ? component : `${component}, ${finding.position}`;
  return [place, finding.fault].filter(Boolean).join(': ');
}

function findingItem(finding: Finding, view: CustomerView, reader: Reader): TemplateResult {
  const isMended = view.lines.some(({ findings }) => findings.includes(finding));
  const seen = finding.seen.map(({ how, reading }) => [how, reading].filter(Boolean).join(': ')).filter(Boolean);
  const photos = finding.seen.filter(({ photo }) => PICTURE.test(photo));
  return html`<li>
    <p class="finding-title">${reader.own(findingTitle(finding, view))}</p>
    ${finding.text === '' ? nothing : html`<p>${reader.own(finding.text)}</p>`}
    ${seen.length === 0 ? nothing : html`<ul class="seen">${seen.map((words) => html`<li>${reader.own(words)}</li>`)}</ul>`}
    ${photos.map(({ photo, alt, how }) => html`<img class="photo" src=${photo} alt=${alt || [reader.m.photo, how].filter(Boolean).join(': ')} />`)}
    ${isMended ? nothing : html`<p class="quiet">${reader.m.noWork}</p>`}
  </li>`;
}
