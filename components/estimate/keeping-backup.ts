import { css, html, nothing, type PropertyValues, type TemplateResult } from 'lit';
import { property, state } from 'lit/decorators.js';
import { dialogStyles, SheetDialog } from '../look/dialog.js';
import { today } from '../look/format.js';
import { type BackupEntry, backupFile } from '../storage/backup.js';
import { named } from '../storage/keepable.js';
import type { Kept, KeptStore } from '../storage/port.js';
import { compareBackup, readBackup, type ReadBackup, type Restored, restoreBackup } from '../storage/restore.js';
import { downloadBlob } from './keeping-download.js';
import { readAbout } from './keeping-about.js';
import { wordsOf } from './keeping-fault.js';
import { momentText } from './keeping-words.js';

const MOST_LISTED = 200;

interface Differing {
  readonly entry: BackupEntry;
  readonly current: Kept | null;
}

/** A backup that was read, and what it would do. */
interface Plan {
  readonly name: string;
  readonly read: ReadBackup;
  readonly differing: readonly Differing[];
}

/**
 * The whole store as one file, and back: nothing that is kept is put over by a backup unless a person says so, one by
 * one or for all.
 *
 * @property {KeptStore | null} store
 *
 * @fires {Event} close it was closed
 */
export class KeepingBackup extends SheetDialog {
  static override styles = [
    dialogStyles,
    css`
      dialog {
        width: min(48rem, calc(100vw - 2rem));
      }

      section {
        display: grid;
        gap: 0.5rem;
      }

      section + section {
        padding-block-start: 0.75rem;
        border-block-start: 1px solid var(--_rule);
      }

      .scroll {
        overflow: auto;
        max-block-size: 18rem;
      }

      table.ruled {
        width: 100%;
      }

      select {
        width: auto;
      }
    `,
  ];

  @property({ attribute: false }) store: KeptStore | null = null;
  @property() locale = 'en';

  @state() private plan: Plan | null = null;
  @state() private replaced: ReadonlySet<BackupEntry> = new Set();
  @state() private restored: Restored | null = null;
  @state() private fault = '';
  @state() private working = '';

  protected readonly heading = 'Backup';

  protected override willUpdate(changed: PropertyValues<this>): void {
    if (!changed.has('open') || !this.open) return;
    this.plan = null;
    this.restored = null;
    this.fault = '';
  }

  private save(): Promise<void> {
    return this.work('Reading everything that is kept …', async () => {
      downloadBlob(await backupFile(this.store!), `baysheet-backup-${today()}.json`, this.ownerDocument);
    });
  }

  private onFile(event: Event): Promise<void> {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    if (file === undefined) return Promise.resolve();
    this.plan = null;
    this.restored = null;
    this.replaced = new Set();
    return this.work(`Reading ${file.name} …`, async () => {
      const read = readBackup(await file.text());
      this.plan = { name: file.name, read, differing: await compareBackup(this.store!, read.entries) };
      input.value = '';
    });
  }

  private putBack({ read }: Plan): Promise<void> {
    return this.work('Putting it back …', async () => {
      const chosen = new Set([...this.replaced].map(keyOf));
      this.restored = await restoreBackup(this.store!, read.entries, (entry) => (chosen.has(keyOf(entry)) ? 'replace' : 'leave'));
      this.plan = null;
    });
  }

  private async work(words: string, work: () => Promise<void>): Promise<void> {
    this.fault = '';
    this.working = words;
    try {
      await work();
    } catch (fault) {
      this.fault = wordsOf(fault);
    } finally {
      this.working = '';
    }
  }

  private choose(entry: BackupEntry, event: Event): void {
    const replaced = new Set(this.replaced);
    if ((event.target as HTMLSelectElement).value === 'replace') replaced.add(entry);
    else replaced.delete(entry);
    this.replaced = replaced;
  }

  protected override renderBody(): TemplateResult {
    return html`<div class="body">
      <section aria-labelledby="out">
        <h3 id="out">Everything in one file</h3>
        <p class="quiet">Estimates, rate cards, catalogues and photos, exactly as they are kept. Put the file on another machine or a stick: what a browser keeps can be lost with it.</p>
        <div><button class="main" ?disabled=${this.working !== ''} @click=${this.save}>Save a backup</button></div>
      </section>
      <section aria-labelledby="in">
        <h3 id="in">Back from a file</h3>
        <label class="field">A backup <input type="file" accept=".json,application/json" ?disabled=${this.working !== ''} @change=${this.onFile} /></label>
        ${this.plan === null ? nothing : this.renderPlan(this.plan)} ${this.restored === null ? nothing : this.renderRestored(this.restored)}
      </section>
      ${this.fault === '' ? nothing : html`<p class="fault" role="alert">${this.fault}</p>`}
      <div class="buttons"><span class="quiet" role="status">${this.working}</span> <button @click=${this.close}>Close</button></div>
    </div>`;
  }

  private renderPlan(plan: Plan): TemplateResult {
    const { name, read, differing } = plan;
    return html`<p>${name} holds ${countOf(read.entries)}.${differing.length === 0 ? ' Nothing that is kept differs from it.' : nothing}</p>
      ${listOf(
        'These entries of the file cannot be used',
        read.problems.map(({ path, message }) => `${path === '' ? '' : `${path}: `}${message}`),
      )}
      ${listOf(
        'These could not be read when the backup was made',
        read.unreadable.map(({ kind, id, why }) => `${named(kind, id)}: ${why}`),
      )}
      ${differing.length === 0 ? nothing : this.renderDiffering(differing)}
      ${read.entries.length === 0 ? nothing : html`<div class="buttons"><button class="main" ?disabled=${this.working !== ''} @click=${() => this.putBack(plan)}>Put it back</button></div>`}`;
  }

  private renderDiffering(differing: readonly Differing[]): TemplateResult {
    const all = differing.map(({ entry }) => entry);
    return html`<p>Another text is kept under the same name for ${differing.length} of them. What is kept stays unless you say otherwise.</p>
      <div>
        <button @click=${() => (this.replaced = new Set())}>Leave all that is kept</button>
        <button @click=${() => (this.replaced = new Set(all))}>Take all from the backup</button>
      </div>
      <div class="scroll" tabindex="0" role="group" aria-label="What differs">
        <table class="ruled">
          <tbody>
            ${differing.slice(0, MOST_LISTED).map(
              ({ entry, current }) =>
                html`<tr>
                  <th scope="row">${nameOf(entry)}</th>
                  <td>${current === null ? 'what is kept cannot be read' : `kept since ${momentText(new Date(current.savedAt), this.locale)}`}</td>
                  <td>
                    <select aria-label="What to do with ${nameOf(entry)}" @change=${(event: Event) => this.choose(entry, event)}>
                      <option value="leave" ?selected=${!this.replaced.has(entry)}>leave what is kept</option>
                      <option value="replace" ?selected=${this.replaced.has(entry)}>take the backup’s</option>
                    </select>
                  </td>
                </tr>`,
            )}
          </tbody>
        </table>
      </div>`;
  }

  private renderRestored({ added, replaced, same, left, failed }: Restored): TemplateResult {
    const told = [
      added.length > 0 ? `${added.length} put back` : '',
      replaced.length > 0 ? `${replaced.length} put over what was kept` : '',
      same.length > 0 ? `${same.length} kept exactly so already` : '',
      left.length > 0 ? `${left.length} left as kept` : '',
      failed.length > 0 ? `${failed.length} not put back` : '',
    ].filter(Boolean);
    return html`<p role="status">${told.length === 0 ? 'The file held nothing.' : `${told.join(', ')}.`}</p>
      ${listOf(
        'Not put back',
        failed.map(({ entry, fault }) => `${nameOf(entry)}: ${fault.message}`),
      )}`;
  }
}

function listOf(title: string, words: readonly string[]): TemplateResult | typeof nothing {
  if (words.length === 0) return nothing;
  return html`<div class="scroll" tabindex="0" role="group" aria-label=${title}>
    <p class="fault">${title}:</p>
    <ul>
      ${words.slice(0, MOST_LISTED).map((each) => html`<li>${each}</li>`)}
    </ul>
  </div>`;
}

function countOf(entries: readonly BackupEntry[]): string {
  const kinds = [
    ['estimate', 'estimate'],
    ['rates', 'rate card'],
    ['catalogue', 'catalogue'],
    ['photo', 'photo'],
  ] as const;
  const told = kinds.flatMap(([kind, word]) => {
    const count = entries.filter((entry) => entry.kind === kind).length;
    return count === 0 ? [] : [`${count} ${word}${count === 1 ? '' : 's'}`];
  });
  return told.length === 0 ? 'nothing that can be used' : told.join(', ');
}

function nameOf(entry: BackupEntry): string {
  if (entry.kind !== 'estimate') return named(entry.kind, entry.id.length > 16 ? `${entry.id.slice(0, 12)}…` : entry.id);
  const { number, name, plate } = readAbout(entry);
  return `estimate ${[number, name, plate].filter(Boolean).join(', ') || entry.id}`;
}

function keyOf({ kind, id }: BackupEntry): string {
  return `${kind} ${id}`;
}
