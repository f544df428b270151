import { css, html, LitElement, nothing, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import type { Rates } from '../../src/documents/rates.js';
import { type CardVersion, inForce, inOrder } from '../../src/versions/card-versions.js';
import { ratesDifference } from '../../src/versions/rates-difference.js';
import { baseStyles } from '../look/base.styles.js';
import { formatDate, formatDay } from '../look/format.js';
import { printStyles } from '../look/print.styles.js';
import { changesList } from './changes-list.js';
import { sectionStyles } from './styles.js';

/** Stands for the card as it is being worked on, where a version is chosen. */
const DRAFT = '';

/**
 * All versions of a card: from when each is in force, which one is on a day, and what differs between two.
 *
 * Registered by its user; the desk names it `baysheet-versions`.
 *
 * @property {readonly CardVersion[]} versions what is kept
 * @property {number} unreadable how many kept texts could not be read
 * @property {Rates | null} rates the card as it is being worked on
 * @property {string} today ISO 8601
 * @property {string} fault why the versions could not be read
 * @property {boolean} kept whether there is a store at all
 *
 * @fires {CustomEvent<CardVersion>} open a version is to be worked on
 * @fires {CustomEvent<CardVersion>} download a version is wanted as a file
 */
export class VersionDesk extends LitElement {
  static override styles = [
    baseStyles,
    sectionStyles,
    css`
      .versions {
        display: grid;
        gap: 1.25rem;
      }

      .fields {
        display: flex;
        flex-wrap: wrap;
        gap: 0.75rem 1rem;
        align-items: end;
      }

      .fields > * {
        display: grid;
        gap: 0.125rem;
        min-inline-size: 12rem;
      }

      .table {
        overflow-x: auto;
      }

      code {
        font-size: 0.9em;
      }

      td button {
        min-height: 1.75rem;
      }
    `,
    printStyles,
  ];

  @property({ attribute: false }) versions: readonly CardVersion[] = [];
  @property({ type: Number }) unreadable = 0;
  @property({ attribute: false }) rates: Rates | null = null;
  @property() today = '';
  @property() fault = '';
  @property({ type: Boolean }) kept = false;

  @state() private day = '';
  @state() private from: string | null = null;
  @state() private to = DRAFT;

  private tell(what: 'open' | 'download', version: CardVersion): void {
    this.dispatchEvent(new CustomEvent<CardVersion>(what, { detail: version }));
  }

  protected override render(): TemplateResult | typeof nothing {
    const { rates } = this;
    if (rates === null) return nothing;
    const own = inOrder(this.versions.filter((version) => version.rates.id === rates.id)).reverse();
    return html`<div class="versions">
      ${this.fault === '' ? nothing : html`<p class="fault" role="alert">The versions cannot be read. ${this.fault}</p>`}
      ${this.kept ? nothing : html`<p>This page keeps no versions: saving hands the card to the page, or offers it as a file.</p>`}
      ${this.unreadable === 0 ? nothing : html`<p class="fault">${this.unreadable} kept ${this.unreadable === 1 ? 'card is' : 'cards are'} not as they were kept, and left out here.</p>`}
      ${own.length === 0 ? html`<p class="quiet">No version of this card is kept yet.</p>` : html`${this.renderTable(own, rates)} ${this.renderDay(own, rates)} ${this.renderDifference(own, rates)}`}
    </div>`;
  }

  private renderTable(own: readonly CardVersion[], { locale }: Rates): TemplateResult {
    const current = inForce(own, this.today);
    return html`<div class="table">
      <table class="ruled">
        <caption>
          Versions, the last first
        </caption>
        <thead>
          <tr>
            <th scope="col">In force from</th>
            <th scope="col">Title</th>
            <th scope="col">Saved</th>
            <th scope="col">Content hash</th>
            <th scope="col">Standing</th>
            <th scope="col" class="screen-only">What to do with it</th>
          </tr>
        </thead>
        <tbody>
          ${own.map(
            (version) => html`<tr>
              <th scope="row">${dayText(version, locale)}</th>
              <td>${version.rates.title || version.rates.id}</td>
              <td>${formatDay(version.savedAt, locale)}</td>
              <td><code>${version.hash.slice(0, 12)}</code></td>
              <td>${version === current ? html`<strong>in force today</strong>` : nothing}</td>
              <td class="screen-only">
                <button aria-label="Work on it: the version from ${dayText(version, locale)}" @click=${() => this.tell('open', version)}>Work on it</button>
                <button aria-label="As a file: the version from ${dayText(version, locale)}" @click=${() => this.tell('download', version)}>As a file</button>
              </td>
            </tr>`,
          )}
        </tbody>
      </table>
    </div>`;
  }

  private renderDay(own: readonly CardVersion[], { locale }: Rates): TemplateResult {
    const day = this.day || this.today;
    const found = inForce(own, day);
    return html`<div class="fields">
        <div>
          <label for="day">In force on</label>
          <input id="day" type="date" .value=${day} @input=${(event: Event) => (this.day = (event.target as HTMLInputElement).value)} />
        </div>
      </div>
      <p role="status">
        ${
          found === null
            ? `On ${formatDate(day, locale)} none of these was in force.`
            : html`On ${formatDate(day, locale)}: the version from ${dayText(found, locale)}, <code>${found.hash.slice(0, 12)}</code>.`
        }
      </p>`;
  }

  private renderDifference(own: readonly CardVersion[], rates: Rates): TemplateResult {
    const cardOf = (hash: string): Rates => own.find((version) => version.hash === hash)?.rates ?? rates;
    const from = this.from ?? own[0]!.hash;
    const choose = (id: string, label: string, value: string, take: (hash: string) => void): TemplateResult =>
      html`<div>
        <label for=${id}>${label}</label>
        <select id=${id} @change=${(event: Event) => take((event.target as HTMLSelectElement).value)}>
          <option value=${DRAFT} ?selected=${value === DRAFT}>the card as it is now</option>
          ${own.map((version) => html`<option value=${version.hash} ?selected=${value === version.hash}>from ${dayText(version, rates.locale)}, ${version.hash.slice(0, 6)}</option>`)}
        </select>
      </div>`;
    return html`<section aria-labelledby="difference-title">
      <div class="band"><h2 id="difference-title">Difference between two</h2></div>
      <div class="fields">
        ${choose('before', 'From', from, (hash) => (this.from = hash))} ${choose('after', 'To', this.to, (hash) => (this.to = hash))}
      </div>
      ${changesList(ratesDifference(cardOf(from), cardOf(this.to)), rates.locale)}
    </section>`;
  }
}

function dayText({ rates }: CardVersion, locale: string): string {
  return rates.effectiveFrom === null ? 'the beginning' : formatDate(rates.effectiveFrom, locale);
}
