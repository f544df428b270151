import type { ReactiveController, ReactiveControllerHost } from 'lit';

/** All that show something else on paper than on the screen, wherever on the page they stand. */
const all = new Set<OnPaper>();

/** Whether its host is to show what is printed. */
export class OnPaper implements ReactiveController {
  private prepared = false;
  private printing = false;
  private readonly media = globalThis.matchMedia?.('print') ?? new EventTarget();

  /** `paint` updates the host at once: a page is printed as it stands when the event returns. */
  constructor(
    private readonly host: ReactiveControllerHost,
    private readonly paint: () => void,
  ) {
    host.addController(this);
  }

  get shown(): boolean {
    return this.prepared || this.printing;
  }

  hostConnected(): void {
    all.add(this);
    window.addEventListener('beforeprint', this.onPrint);
    window.addEventListener('afterprint', this.onPrint);
    this.media.addEventListener('change', this.onPrint);
  }

  hostDisconnected(): void {
    all.delete(this);
    window.removeEventListener('beforeprint', this.onPrint);
    window.removeEventListener('afterprint', this.onPrint);
    this.media.removeEventListener('change', this.onPrint);
  }

  prepare(prepared: boolean): void {
    this.prepared = prepared;
    this.host.requestUpdate();
  }

  private readonly onPrint = (event: Event): void => {
    this.printing = event.type === 'beforeprint' || (event.type === 'change' && (event as MediaQueryListEvent).matches);
    this.host.requestUpdate();
    this.paint();
  };
}

/**
 * Prints the page. What is printed is made before: while Chromium stands still for its dialog it runs no policy of Trusted
 * Types, and nothing could be made any more.
 */
export async function printPage(): Promise<void> {
  for (const each of all) each.prepare(true);
  // Elements inside paint after those that they stand in, all of them before the next task.
  await new Promise((resolve) => setTimeout(resolve));
  window.print();
  for (const each of all) each.prepare(false);
}
