import type { LitElement } from 'lit';
import type { Catalogue } from '../../src/documents/catalogue.js';
import type { Rates } from '../../src/documents/rates.js';
import { formatDate } from '../look/format.js';
import { faultWords } from '../versions/fault-words.js';
import { sendRates } from './events.js';

export interface VersionSavingTasks {
  /** Loads what asks for the day. */
  load(): Promise<void>;
  /** The card that is to be saved. */
  rates(): Rates;
  /** The catalogue that is saved with it. */
  catalogue(): Catalogue | null;
  /** Keeps both, where the page does not do it itself. */
  keep(rates: Rates, catalogue: Catalogue | null): Promise<void>;
  /** Both are saved. */
  saved(rates: Rates): void;
  announce(text: string): void;
}

/** Saves the card as a new version, in force from a day on, and says how that went. What was kept before stays. */
export class VersionSaving {
  /** Whether the day is being asked for. */
  isOpen = false;
  isBusy = false;
  /** Why it could not be kept; empty where it could. */
  fault = '';
  /** What was saved last, or why it cannot be; empty after the next change. */
  said = '';

  constructor(
    private readonly host: LitElement,
    private readonly tasks: VersionSavingTasks,
  ) {}

  async open(): Promise<void> {
    this.fault = this.said = '';
    this.host.requestUpdate();
    try {
      await this.tasks.load();
      this.isOpen = true;
    } catch (fault) {
      this.said = `What saves a version cannot be loaded (${reasonOf(fault)}). Nothing is lost: press again to try again.`;
      this.tasks.announce(this.said);
    }
    this.host.requestUpdate();
  }

  close(): void {
    this.isOpen = false;
    this.host.requestUpdate();
  }

  async keep(day: string): Promise<void> {
    const rates: Rates = { ...this.tasks.rates(), effectiveFrom: day };
    const catalogue = this.tasks.catalogue();
    this.isBusy = true;
    this.host.requestUpdate();
    try {
      const { hashOf } = await import('../versions/kept-versions.js');
      const isOurs = sendRates(this.host, 'baysheet-save', {
        rates: structuredClone(rates),
        hash: hashOf(rates),
        catalogue: structuredClone(catalogue),
        catalogueHash: catalogue === null ? null : hashOf(catalogue),
      });
      if (isOurs) await this.tasks.keep(rates, catalogue);
      this.tasks.saved(rates);
      this.isOpen = false;
      this.said = `Saved: the version in force from ${formatDate(day, rates.locale)}.`;
      this.tasks.announce(this.said);
    } catch (fault) {
      this.fault = faultWords(fault);
      const message = `The version could not be kept. ${this.fault}`;
      sendRates(this.host, 'baysheet-problem', {
        source: 'storage',
        problems: [{ severity: 'error', code: 'not-kept', path: '', message, hint: 'Save the card as a file.' }],
      });
    } finally {
      this.isBusy = false;
      this.host.requestUpdate();
    }
  }
}

/** Why something could not be loaded. */
export function reasonOf(fault: unknown): string {
  return fault instanceof Error ? fault.message : String(fault);
}
