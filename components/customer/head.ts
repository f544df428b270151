import { html, nothing, type TemplateResult } from 'lit';
import type { CustomerView } from './customer-view.js';
import type { Reader } from './reader.js';

/** Who made the estimate, for whom, and for which vehicle. */
export function head({ copy }: CustomerView, reader: Reader): TemplateResult {
  const { m } = reader;
  const { shop, estimate } = copy;
  const { vehicle, customer } = estimate;
  const odometer = vehicle.odometer === '' ? '' : `${vehicle.odometer} ${vehicle.unit}`;
  return html`<header class="head" part="head">
    <div class="shop">
      ${shop.name === '' ? nothing : html`<p class="shop-name">${reader.own(shop.name)}</p>`}
      ${shop.address === '' ? nothing : html`<p class="quiet">${reader.own(shop.address)}</p>`}
      <p>${phoneLink(shop.phone)} ${shop.email === '' ? nothing : html`<a class="touch" href="mailto:${mailAddress(shop.email)}">${shop.email}</a>`}</p>
    </div>
    <h2 id="title" tabindex="-1">${m.estimate(estimate.number)}</h2>
    <p class="quiet">${reader.day(estimate.createdAt)}${estimate.createdAt === '' ? nothing : ' · '}${m.revision(estimate.revision)}</p>
    <dl class="job">
      ${fact(m.customer, customer.name, reader)} ${fact(m.vehicle, [vehicle.label, vehicle.vin].filter(Boolean).join(' · '), reader)}
      ${fact(m.plate, vehicle.plate, reader)} ${fact(m.odometer, odometer, reader)} ${fact(m.concern, estimate.concern, reader)}
    </dl>
  </header>`;
}

function fact(name: string, words: string, reader: Reader): TemplateResult | typeof nothing {
  return words === '' ? nothing : html`<div><dt>${name}</dt><dd>${reader.own(words)}</dd></div>`;
}

/** A number that can be called; what is no number of a telephone is only shown. */
export function phoneLink(phone: string, words = phone): TemplateResult | typeof nothing {
  if (phone === '') return nothing;
  const digits = dialled(phone);
  return digits === '' ? html`${words}` : html`<a class="touch" href="tel:${digits}"><bdi dir="ltr">${words}</bdi></a>`;
}

/** What is dialled: digits, and the plus of a country. */
export function dialled(phone: string): string {
  return /^[\d\s()+./-]{4,}$/.test(phone) ? phone.replace(/[^\d+]/g, '') : '';
}

/** The address alone, so that nothing in it reads as a second recipient or a text. */
export function mailAddress(email: string): string {
  return encodeURIComponent(email).replace('%40', '@');
}
