import type { ReactiveController } from 'lit';
import { holdsFiles } from './evidence-drop.js';

export interface FileDropOptions {
  /** Opens an estimate from a file. */
  open(file: File): void;
  announce(text: string): void;
}

/**
 * A JSON file that is dropped anywhere on the sheet is opened. Whatever else is dropped and nobody takes must not be
 * opened by the browser in place of the page.
 */
export class FileDrop implements ReactiveController {
  constructor(
    private readonly host: HTMLElement,
    private readonly options: FileDropOptions,
  ) {}

  hostConnected(): void {
    this.host.addEventListener('dragover', this.onDragOver);
    this.host.addEventListener('drop', this.onDropFirst, true);
    this.host.addEventListener('drop', this.onDropLast);
  }

  hostDisconnected(): void {
    this.host.removeEventListener('dragover', this.onDragOver);
    this.host.removeEventListener('drop', this.onDropFirst, true);
    this.host.removeEventListener('drop', this.onDropLast);
  }

  private readonly onDragOver = (event: DragEvent): void => {
    if (holdsFiles(event)) event.preventDefault();
  };

  /** Before the findings see it, which take photos. */
  private readonly onDropFirst = (event: DragEvent): void => {
    const files = [...(event.dataTransfer?.files ?? [])];
    const estimates = files.filter(({ name, type }) => /\.json$/i.test(name) || type === 'application/json');
    if (estimates.length === 0) return;
    event.preventDefault();
    event.stopPropagation();
    if (files.length > 1) this.options.announce('Drop one estimate at a time. Nothing was opened.');
    else this.options.open(estimates[0]!);
  };

  private readonly onDropLast = (event: DragEvent): void => {
    if (event.defaultPrevented || !holdsFiles(event)) return;
    event.preventDefault();
    this.options.announce('Nothing was taken. Drop an estimate as a JSON file anywhere, a photo on the finding that it belongs to.');
  };
}
