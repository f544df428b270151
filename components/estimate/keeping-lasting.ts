import { html, nothing, type ReactiveControllerHost, type TemplateResult } from 'lit';

/**
 * Whether what is kept in this browser outlasts a shortage of room (Storage Standard, WHATWG, "persistence"), and a way for a
 * person to ask for it. A browser may clear what nobody has asked it to keep; some ask the person back, so it is never asked unbidden.
 */
export class Lasting {
  /** Null as long as it is not known, and where a browser cannot say, as on plain http. */
  private lasts: boolean | null = null;
  private refused = false;

  constructor(private readonly host: ReactiveControllerHost) {}

  /** Looks again: another tab may have asked, or a person cleared it. */
  async look(): Promise<void> {
    this.lasts =
      (await storage()
        ?.persisted()
        .catch(() => null)) ?? null;
    this.host.requestUpdate();
  }

  private readonly ask = async (): Promise<void> => {
    this.lasts =
      (await storage()
        ?.persist()
        .catch(() => false)) ?? null;
    this.refused = this.lasts === false;
    this.host.requestUpdate();
  };

  /** What there is to say about it; nothing where all is well from the start. */
  render(): TemplateResult | typeof nothing {
    if (this.lasts !== false) return nothing;
    return html`<div class="said" role="status">
      <span>
        ${
          this.refused
            ? 'The browser does not promise to keep them. Make a backup now and then; it may agree later, once this page has been used more.'
            : 'When it runs short of room this browser may clear what is kept in it.'
        }
      </span>
      <button @click=${this.ask}>${this.refused ? 'Ask again' : 'Ask it to keep everything'}</button>
    </div>`;
  }
}

/** Where the page is not secure there is none, whatever the types say. */
function storage(): StorageManager | undefined {
  return (navigator as { storage?: StorageManager }).storage;
}
