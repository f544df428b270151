import { html, nothing, svg, type TemplateResult } from 'lit';
import { answered } from './confirm-step.js';
import type { CustomerView } from './customer-view.js';
import type { FullReader } from './full-reader.js';
import { dialled, mailAddress } from './head.js';
import { totalsTable } from './totals-table.js';

/** An answer that has been confirmed, and what has become of it. */
export interface Sent {
  /** As the shop's sheet reads it. */
  readonly text: string;
  /** `handed`: the page or the shop's server has it. `failed`: the server could not be reached. `own`: the customer sends it. */
  readonly state: 'handed' | 'failed' | 'own';
  readonly copied: 'not' | 'yes' | 'failed';
  /** Drawn only when it is asked for. */
  readonly qr: { readonly path: string; readonly size: number } | 'too-long' | null;
}

export interface SendActions {
  retry(): void;
  share(): void;
  /** The customer goes to another program with it. */
  sent(): void;
  copy(): void;
  showQr(): void;
  change(): void;
}

/** The answer, and the ways in which it gets to the shop. */
export function sendPane(sent: Sent, view: CustomerView, reader: FullReader, canShare: boolean, actions: SendActions): TemplateResult {
  const { m } = reader;
  const isHanded = sent.state === 'handed';
  return html`<div class="done" part="done">
    <h2 id="title" tabindex="-1">${m.done}</h2>
    <p role="status"><strong>${isHanded ? m.doneSent : sent.state === 'failed' ? m.postFailed : m.doneNotSent}</strong></p>
    ${isHanded ? nothing : ways(sent, view, reader, canShare, actions)} ${answered(view, reader)} ${totalsTable(view, reader)}
    <p class="buttons screen-only">
      <button type="button" @click=${() => globalThis.print()}>${m.print}</button>
      <button type="button" @click=${actions.change}>${m.change}</button>
    </p>
  </div>`;
}

function ways(sent: Sent, view: CustomerView, reader: FullReader, canShare: boolean, actions: SendActions): TemplateResult {
  const { m } = reader;
  const { shop, estimate } = view.copy;
  const body = encodeURIComponent(messageText(sent.text, view, reader));
  const subject = encodeURIComponent(m.subject(estimate.number));
  return html`<div class="ways screen-only">
    <p class="buttons">
      ${sent.state === 'failed' ? html`<button type="button" class="main" @click=${actions.retry}>${m.again}</button>` : nothing}
      ${canShare ? html`<button type="button" class="main" @click=${actions.share}>${m.share}</button>` : nothing}
      <a class="button" href="sms:${dialled(shop.phone)}?&amp;body=${body}" @click=${actions.sent}>${m.sms}</a>
      <a class="button" href="mailto:${mailAddress(shop.email)}?subject=${subject}&amp;body=${body}" @click=${actions.sent}>${m.mail}</a>
      <button type="button" @click=${actions.copy}>${m.copy}</button>
      <button type="button" aria-expanded=${sent.qr !== null} @click=${actions.showQr}>${m.qr}</button>
    </p>
    <p role="status">${sent.copied === 'yes' ? m.copied : sent.copied === 'failed' ? m.copyFailed : nothing}</p>
    ${sent.qr === null ? nothing : typeof sent.qr === 'string' ? html`<p role="alert">${m.qrTooLong}</p>` : picture(sent.qr, m.qrLabel)}
    <label for="code">${m.code}</label>
    <textarea id="code" readonly rows="4" .value=${sent.text} @focus=${(event: Event) => (event.target as HTMLTextAreaElement).select()}></textarea>
  </div>`;
}

/** Dark on white whatever the page looks like: that is what cameras read. */
function picture({ path, size }: { path: string; size: number }, label: string): TemplateResult {
  return html`<svg class="qr" role="img" aria-label=${label} viewBox="0 0 ${size} ${size}" shape-rendering="crispEdges">
    ${svg`<rect width=${size} height=${size} fill="#fff" /><path d=${path} fill="#000" />`}
  </svg>`;
}

/** What stands in a message: a sentence for people, and the answer on a line of its own for the sheet. */
export function messageText(text: string, view: CustomerView, reader: FullReader): string {
  const yes = view.lines.filter(({ answer }) => answer === 'yes').length;
  const total = reader.money(view.priced.totals.total);
  return `${reader.m.message(view.copy.estimate.number, yes, view.lines.length, total)}\n\n${text}\n`;
}
